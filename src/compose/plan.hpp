// What the engine hands to a sheet: the solved layout, and how blanks and
// rulings go with it.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "compose/frame.hpp"
#include "compose/page.hpp"
#include "platewright/figure.hpp"
#include "platewright/layout.hpp"
#include "platewright/letters.hpp"
#include "platewright/result.hpp"
#include "platewright/sheet.hpp"
#include "text/stroke_font.hpp"

namespace platewright::compose {

// Where the reader writes: `lines` ruled lines of `width` mm, each with room of
// `ruling` mm above its baseline and `descender` mm below it.
struct Blank {
  double width = 0;
  int lines = 1;
  double ruling = 0;
  double descender = 0;
  double height() const { return lines * (ruling + descender); }
};

struct Plan {
  Frame frame;
  Layout layout;
  text::Font label_font;
  text::Font heading_font;       // of groups' brackets
  double leading = 1.2;          // ems
  Blank blank;                   // one line as wide as the longest answer needs
  bool blanks_beside = false;    // blanks stand where the poster's labels do
  bool copy_beside = false;      // so do letters to trace with their ruling
  double list_height = 0;        // mm kept free at the bottom of frame.area for a key of numbers
};

// A term of the set as review pages use it; `clue` and `group` may be empty.
struct StudyTerm {
  std::string anchor;
  std::string text;
  std::string clue;
  std::string group;
};

// Everything a sheet is made from. Pointers are never null but for `strokes`.
struct SheetInput {
  const Figure* figure = nullptr;
  const Plan* plan = nullptr;
  const Style* style = nullptr;
  const Words* words = nullptr;
  const Letters* letters = nullptr;
  const text::Typesetter* typesetter = nullptr;
  const text::StrokeFont* strokes = nullptr;  // single-stroke letters, if installed
  Matter matter;
  std::vector<StudyTerm> terms;  // of the set, sorted by anchor
  std::vector<std::string> route;  // anchors in the order that a maze passes them; may be empty
  Orientation orientation = Orientation::automatic;  // as asked
  std::string table;             // the file that the terms come from, for findings
  std::string check_code;        // shared by worksheet and key
  bool word_bank = false;        // on worksheets
  bool labels = false;           // on colouring pages
  std::uint64_t seed = 1;        // shuffles word banks, deals games
};

// Pages of one kind of sheet, the figure's own page first.
std::vector<Page> poster(const SheetInput& input);
std::vector<Page> worksheet(const SheetInput& input);
std::vector<Page> copywork(const SheetInput& input);
std::vector<Page> key(const SheetInput& input);
std::vector<Page> colouring(const SheetInput& input);
std::vector<Page> numbered(const SheetInput& input);

// A composed sheet: its pages, and apart from them the pages of its key, where the key
// is no kind of its own. In a folder the key is a file beside it; in one PDF, and in
// packs, keys come last.
struct ComposedSheet {
  std::vector<Page> pages;
  std::vector<Page> keys;
  std::vector<std::pair<std::string, double>> facts = {};  // for the report: names and numbers
};
// Errors where the terms are too few or lack what the kind says.
Result<ComposedSheet> compose_sheet(SheetKind kind, const SheetInput& input);

}  // namespace platewright::compose
