// Sums of occupied cells over all rectangles from the corner.
#include <algorithm>
#include <cmath>

#include "place/cell_edges.hpp"
#include "place/tiling.hpp"

namespace platewright::place {

Occupancy::Occupancy(const Cells& cells)
    : columns_(cells.columns), rows_(cells.rows), cell_(cells.cell) {
  const auto wide = static_cast<std::size_t>(columns_) + 1;
  sums_.assign(wide * (static_cast<std::size_t>(rows_) + 1), 0);
  int left = columns_, right = -1, top = rows_, bottom = -1;
  for (int r = 0; r < rows_; ++r) {
    int line = 0;
    for (int c = 0; c < columns_; ++c) {
      if (cells.at(c, r) != 0) {
        ++line;
        left = std::min(left, c);
        right = std::max(right, c);
        top = std::min(top, r);
        bottom = r;
      }
      const std::size_t at =
          (static_cast<std::size_t>(r) + 1) * wide + static_cast<std::size_t>(c) + 1;
      sums_[at] = sums_[at - wide] + line;
    }
  }
  if (right >= 0)
    box_ = {left * cell_, top * cell_, (right + 1 - left) * cell_, (bottom + 1 - top) * cell_};
}

long Occupancy::count(int left, int top, int right, int bottom) const {
  left = std::clamp(left, 0, columns_);
  right = std::clamp(right, 0, columns_);
  top = std::clamp(top, 0, rows_);
  bottom = std::clamp(bottom, 0, rows_);
  if (left >= right || top >= bottom) return 0;
  const auto wide = static_cast<std::size_t>(columns_) + 1;
  const auto at = [&](int c, int r) {
    return static_cast<long>(
        sums_[static_cast<std::size_t>(r) * wide + static_cast<std::size_t>(c)]);
  };
  return at(right, bottom) - at(left, bottom) - at(right, top) + at(left, top);
}

bool Occupancy::empty(const PageBox& box) const {
  return count(floor_cell(box.left() / cell_), floor_cell(box.top() / cell_),
               ceil_cell(box.right() / cell_), ceil_cell(box.bottom() / cell_)) == 0;
}

}  // namespace platewright::place
