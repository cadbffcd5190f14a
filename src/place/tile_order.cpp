// Tiles by name, by number and in the order of assembly.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "place/cell_edges.hpp"
#include "place/tiling.hpp"

namespace platewright::place {

bool Tiling::prints(Tile tile) const {
  return std::binary_search(printed.begin(), printed.end(), tile);
}

int tiles_for_length(double length, double tile, double overlap) {
  const double tiles = std::ceil((length - overlap) / (tile - overlap) - hair);
  return static_cast<int>(std::clamp(tiles, 1.0, 1e6));
}

std::string tile_name(Tile tile) {
  std::string row;
  for (int r = tile.row; r >= 0; r = r / 26 - 1)
    row.insert(row.begin(), static_cast<char>('A' + r % 26));
  return row + std::to_string(tile.column + 1);
}

std::vector<Tile> assembly_order(const Tiling& tiling) {
  std::vector<Tile> left = tiling.printed, order;
  const double middle_row = (tiling.rows - 1) / 2.0, middle_column = (tiling.columns - 1) / 2.0;
  const auto from_middle = [&](const Tile& t) {
    return std::hypot((t.row - middle_row) * tiling.height,
                      (t.column - middle_column) * tiling.width);
  };
  while (!left.empty()) {
    const auto lies = [&](const Tile& t) {
      return std::any_of(order.begin(), order.end(), [&](const Tile& o) {
        return std::abs(o.row - t.row) + std::abs(o.column - t.column) == 1;
      });
    };
    const auto next = std::min_element(left.begin(), left.end(), [&](const Tile& a, const Tile& b) {
      const auto rank = [&](const Tile& t) {
        return std::make_tuple(lies(t) ? 0 : 1, std::round(from_middle(t) * 1e6), t);
      };
      return rank(a) < rank(b);
    });
    order.push_back(*next);
    left.erase(next);
  }
  return order;
}

}  // namespace platewright::place
