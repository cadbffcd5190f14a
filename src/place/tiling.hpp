// The fewest equal tiles on one grid that cover a silhouette. Pure; mm.
//
// The grid's pitch is the tile less the overlap, so that neighbours always share
// a strip of `overlap`; what is sought is its offset, the way round of the
// tiles, and which of them are printed. Every occupied point lies in a printed
// tile.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright::place {

// Square cells from the corner (0, 0), row by row; not 0 where the figure paints.
struct Cells {
  int columns = 0;
  int rows = 0;
  double cell = 1.0;
  std::vector<std::uint8_t> values;
  std::uint8_t at(int column, int row) const {
    return values[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(column)];
  }
};

// How many cells of a rectangle are occupied, in constant time.
class Occupancy {
 public:
  explicit Occupancy(const Cells& cells);
  // Columns [left, right), rows [top, bottom); clipped to the cells.
  long count(int left, int top, int right, int bottom) const;
  // The same for a rectangle known to lie within the cells.
  bool any_within(int left, int top, int right, int bottom) const {
    const int* upper = sums_.data() + static_cast<std::ptrdiff_t>(top) * (columns_ + 1);
    const int* lower = sums_.data() + static_cast<std::ptrdiff_t>(bottom) * (columns_ + 1);
    return lower[right] - lower[left] != upper[right] - upper[left];
  }
  // Whether the interior of `box` meets an occupied cell.
  bool empty(const PageBox& box) const;
  double cell() const { return cell_; }
  // The occupied cells' bounding box; zero-sized when there are none.
  PageBox box() const { return box_; }

 private:
  int columns_, rows_;
  double cell_;
  std::vector<int> sums_;
  PageBox box_;
};

struct Tile {
  int row = 0;
  int column = 0;
  friend auto operator<=>(const Tile&, const Tile&) = default;
};

struct Tiling {
  double left = 0, top = 0;      // of the tile at row 0, column 0
  double width = 0, height = 0;  // of each tile
  double overlap = 0;
  int rows = 0,
      columns = 0;  // the grid, empty tiles included; outer rows and columns are not empty
  std::vector<Tile> printed;  // sorted
  // False when choosing between tiles that share a strip took too long
  // somewhere: then fewer might do.
  bool exact = true;
  PageBox box(Tile tile) const {
    return {left + tile.column * (width - overlap), top + tile.row * (height - overlap), width,
            height};
  }
  bool prints(Tile tile) const;
};

// The fewest tiles of width x height at any offset. Exact: moved right, a
// tiling that covers can only fail where a tile's left edge meets the left end
// of a run of occupied cells, so some optimum has such an offset; so downwards.
// Among the offsets of equal tiles it lies in the middle of its slack.
// Nothing when no cell is occupied. 0 <= overlap < half of each side.
std::optional<Tiling> fewest_tiles(const Cells& cells, double width, double height, double overlap);

// ceil((length - overlap) / (tile - overlap)), at least 1 and at most a million:
// what a bounding box needs.
int tiles_for_length(double length, double tile, double overlap);

// "B3": row B, column 3; rows after Z are AA, AB ...
std::string tile_name(Tile tile);

// The printed tiles in the order to put them together: from the one nearest to
// the middle outwards, each beside one that lies already wherever it can be.
std::vector<Tile> assembly_order(const Tiling& tiling);

}  // namespace platewright::place
