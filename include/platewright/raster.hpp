// A grid of small numbers laid over a figure: silhouette, detail.
#pragma once

#include <cstdint>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright {

// Cell (column c, row r) covers the figure's box
// [box.x + c*cell, +cell] x [box.y + r*cell, +cell]; cell in figure units.
// values.size() == columns * rows, row by row from the top.
struct FigureGrid {
  FigureBox box;
  double cell = 1.0;
  int columns = 0;
  int rows = 0;
  std::vector<std::uint8_t> values;
  std::uint8_t at(int column, int row) const {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return 0;
    return values[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(column)];
  }
};

}  // namespace platewright
