#include "compose/flow.hpp"

#include <algorithm>

namespace platewright::compose {
namespace {

constexpr double slack = 1e-6;

// The height of the strips that must stand together from `first` on.
double together(const std::vector<Strip>& strips, std::size_t first) {
  double height = 0;
  for (std::size_t i = first; i < strips.size(); ++i) {
    height += (i == first ? 0.0 : strips[i].above) + strips[i].height;
    if (!strips[i].stay) break;
  }
  return height;
}

}  // namespace

double height_of(const std::vector<Strip>& strips) {
  double height = 0;
  for (std::size_t i = 0; i < strips.size(); ++i)
    height += (i == 0 ? 0.0 : strips[i].above) + strips[i].height;
  return height;
}

std::vector<LinkedPage> flow(const std::vector<Strip>& strips, const Columns& columns,
                             bool left_to_right, const std::function<LinkedPage()>& start) {
  std::vector<LinkedPage> pages;
  pages.push_back(start());
  const double width = columns.width();
  int column = 0;
  double y = columns.area.top();
  bool at_top = true, begins = true;  // a column; a run of strips that stay together
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const Strip& strip = strips[i];
    const double above = at_top ? 0 : strip.above;
    const double need = begins ? together(strips, i) : strip.height;
    const bool leaves = y + above + need > columns.area.bottom() + slack;
    // A run taller than a column starts where it is and breaks strip by strip.
    const bool hopeless = need > columns.area.h && y + above + strip.height <= columns.area.bottom();
    if ((strip.turn && !(at_top && column == 0)) || (leaves && !at_top && !hopeless)) {
      if (strip.turn || ++column == columns.count) {
        pages.push_back(start());
        column = 0;
      }
      y = columns.area.top();
      at_top = true;
    }
    y += at_top ? 0 : strip.above;
    const int place = left_to_right ? column : columns.count - 1 - column;
    if (strip.draw)
      strip.draw(pages.back(), columns.area.left() + place * (width + columns.gap), y, width);
    y += strip.height;
    at_top = at_top && strip.height == 0;
    begins = !strip.stay;
  }
  return pages;
}

}  // namespace platewright::compose
