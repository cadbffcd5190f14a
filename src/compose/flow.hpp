// Strips laid one below another, over columns and pages, with those kept
// together that belong together.
#pragma once

#include <functional>
#include <vector>

#include "compose/pack.hpp"

namespace platewright::compose {

struct Strip {
  double above = 0;      // mm kept free above it, but not at a column's top
  double height = 0;     // mm
  bool stay = false;     // on the same column as the next strip
  bool turn = false;     // begins a new page
  std::function<void(LinkedPage& page, double x, double y, double width)> draw;
};

// Columns side by side with `gap` mm between them, from `top` to `bottom`.
struct Columns {
  PageBox area;
  int count = 1;
  double gap = 8;
  double width() const { return (area.w - gap * (count - 1)) / count; }
};

// What the strips take in one column, mm.
double height_of(const std::vector<Strip>& strips);

// Fills `start()` pages one after another. A group of strips that stay together
// and is taller than a column is broken where it must be.
std::vector<LinkedPage> flow(const std::vector<Strip>& strips, const Columns& columns,
                             bool left_to_right, const std::function<LinkedPage()>& start);

}  // namespace platewright::compose
