// The bare page: margins, title, the row below it, the area that figure and
// labels share, and the footer. The same for every sheet of one figure and
// paper, so that poster, worksheet, copywork and key lie on each other.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "platewright/geometry.hpp"
#include "platewright/paper.hpp"
#include "platewright/style.hpp"
#include "platewright/terms.hpp"
#include "platewright/words.hpp"
#include "text/text.hpp"

namespace platewright::compose {

// The texts around the figure, the same on every sheet.
struct Matter {
  std::string title;
  std::string credit;     // of the drawing; may be empty
  std::string licence;    // may be empty
  std::string note;       // instead of the usual one on learning; may be empty
  std::string compiler;   // who put a pack together; empty on sheets
  std::string language;
  text::Direction direction = text::Direction::left_to_right;
  int youngest = 7;
  int oldest = 10;
};

// All boxes in mm on the trimmed page.
struct Frame {
  double width = 0;
  double height = 0;
  double margin = 0;
  double growth = 1;        // shorter side / 210 mm: how much display type grows
  PageBox title;            // row of the title
  PageBox row;              // instruction and name line, below the title
  PageBox area;             // figure and labels
  PageBox footer;
  text::Font title_font;  // in which `title_block` fits the title's row
  text::Font row_font;
  text::Font list_font;     // word banks and lists
  text::Font footer_font;
  std::vector<text::Line> footer_lines;  // already broken to the footer's width
};

// The title in the fewest lines that its row is wide enough for.
text::Block title_block(const text::Typesetter& typesetter, const std::string& title,
                        const text::Font& font, const std::string& language, double width);

Frame frame(const Paper& paper, const Style& style, const Matter& matter, const Words& words,
            const text::Typesetter& typesetter);

// The row below the title: an instruction beside a line for the reader's name.
struct RowSetting {
  std::vector<text::Line> lines;  // of the instruction
  double step = 0;                // mm between their baselines
  text::Line name;                // with a name line only
  double rule = 0;                // mm of line to write the name on
};
// In `width` mm: the name's rule gives way first, to half, then the type to the
// reader's floor, then the instruction takes more lines.
RowSetting set_row(std::string_view instruction, bool name_line, const text::Font& font,
                   double width, double growth, const Style& style, const Matter& matter,
                   const Words& words, const text::Typesetter& typesetter);

// Family list for a style: face, then further faces.
std::string faces(const Style& style);

}  // namespace platewright::compose
