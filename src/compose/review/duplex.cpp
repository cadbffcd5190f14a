#include "compose/review/duplex.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::compose {

PageBox CardGrid::box(int column, int row) const {
  const double left = (page_width - columns * card_width) / 2;
  const double top = (page_height - rows * card_height) / 2;
  return {left + column * card_width, top + row * card_height, card_width, card_height};
}

CardGrid card_grid(double page_width, double page_height, double margin, double foot,
                   double card_width, double card_height) {
  CardGrid grid{page_width, page_height, card_width, card_height, 0, 0};
  const double high = page_height - 2 * std::max(margin, foot);
  grid.columns = static_cast<int>(std::floor((page_width - 2 * margin) / card_width + 1e-9));
  grid.rows = static_cast<int>(std::floor(high / card_height + 1e-9));
  return grid;
}

BackPlace back_place(const CardGrid& grid, int column, int row, bool over_horizontal) {
  if (over_horizontal) return {column, grid.rows - 1 - row, true};
  return {grid.columns - 1 - column, row, false};
}

}  // namespace platewright::compose
