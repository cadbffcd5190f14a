// Mazes with one way from start to end, which passes given stations in order. Pure.
#pragma once

#include <vector>

#include "base/random.hpp"

namespace platewright::compose {

struct MazeCell {
  int column = 0;
  int row = 0;
  friend bool operator==(const MazeCell&, const MazeCell&) = default;
};

// A perfect maze: its passages are a spanning tree of the cells, so that between any two
// cells there is one way and no other.
struct Maze {
  int columns = 0;
  int rows = 0;
  std::vector<bool> open_right;      // passage from a cell to its right neighbour; row by row
  std::vector<bool> open_below;
  std::vector<MazeCell> stations;    // on the way, in order; first and last are its ends
  std::vector<MazeCell> way;         // every cell of it
  bool right(MazeCell c) const { return open_right[index(c)]; }
  bool below(MazeCell c) const { return open_below[index(c)]; }
  std::size_t index(MazeCell c) const {
    return static_cast<std::size_t>(c.row * columns + c.column);
  }
};

// Stations stand on a winding way from the top left to the bottom right, about as far
// apart as each other; `stations` >= 2. The rest of the cells grows onto it at random.
Maze maze(int columns, int rows, int stations, Random& random);

}  // namespace platewright::compose
