// Brackets along neighbours of one group, with the group's name: on the side of the
// labels away from the figure, where no leader runs.
#pragma once

#include <string>
#include <vector>

#include "compose/page.hpp"
#include "compose/plan.hpp"

namespace platewright::compose {

struct Bracket {
  std::string group;
  Side side = Side::left;
  std::vector<std::string> anchors;  // of its labels, from the top
  PagePoint from, to;                // its line, from the top
  PageBox heading;                   // empty where the column has no room for it
  std::vector<text::Line> lines;
};

// Headings are set in this; `wanted` is the labels' wanted size.
text::Font heading_font(const Style& style, Length wanted, Length floor);

// Width that brackets of these groups take beside a column, mm; 0 without groups.
double bracket_room(const std::vector<std::string>& groups, const Style& style,
                    const text::Font& font, const std::string& language,
                    const text::Typesetter& typesetter);

// Runs of two or more neighbours of one group on the outermost column of each side, the left
// side first. Headings stand at the middle of their runs, moved up or down off each other; of
// more than the column is high the shortest runs' are left out.
std::vector<Bracket> brackets(const SheetInput& input);
void add_brackets(Page& page, const SheetInput& input);

}  // namespace platewright::compose
