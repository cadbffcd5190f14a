#include "compose/review/maze.hpp"

#include <algorithm>
#include <array>

namespace platewright::compose {
namespace {

struct Open {
  Maze& maze;
  void between(MazeCell a, MazeCell b) const {
    if (a.row == b.row)
      maze.open_right[maze.index(a.column < b.column ? a : b)] = true;
    else
      maze.open_below[maze.index(a.row < b.row ? a : b)] = true;
  }
};

std::vector<MazeCell> neighbours(const Maze& maze, MazeCell c, Random& random) {
  std::vector<MazeCell> around;
  if (c.column > 0) around.push_back({c.column - 1, c.row});
  if (c.row > 0) around.push_back({c.column, c.row - 1});
  if (c.column + 1 < maze.columns) around.push_back({c.column + 1, c.row});
  if (c.row + 1 < maze.rows) around.push_back({c.column, c.row + 1});
  shuffle(around, random);
  return around;
}

// A walk at random whose loops are cut out as they close (Lawler 1980; the paths of
// Wilson 1996), from corner to corner.
std::vector<MazeCell> winding_way(const Maze& maze, Random& random) {
  const MazeCell end{maze.columns - 1, maze.rows - 1};
  std::vector<MazeCell> way{{0, 0}};
  std::vector<int> place(static_cast<std::size_t>(maze.columns * maze.rows), -1);
  place[0] = 0;
  while (!(way.back() == end)) {
    const MazeCell next = neighbours(maze, way.back(), random).front();
    if (const int seen = place[maze.index(next)]; seen >= 0) {
      while (static_cast<int>(way.size()) > seen + 1) {
        place[maze.index(way.back())] = -1;
        way.pop_back();
      }
      continue;
    }
    place[maze.index(next)] = static_cast<int>(way.size());
    way.push_back(next);
  }
  return way;
}

}  // namespace

Maze maze(int columns, int rows, int stations, Random& random) {
  Maze maze;
  maze.columns = columns;
  maze.rows = rows;
  const auto cells = static_cast<std::size_t>(columns * rows);
  maze.open_right.assign(cells, false);
  maze.open_below.assign(cells, false);
  // The longest of some ways: long enough for its stations, winding enough to be fun.
  for (int attempt = 0; attempt < 40; ++attempt) {
    std::vector<MazeCell> way = winding_way(maze, random);
    if (way.size() > maze.way.size() && way.size() <= cells * 3 / 5) maze.way = std::move(way);
  }
  while (maze.way.empty()) maze.way = winding_way(maze, random);
  const Open open{maze};
  std::vector<bool> reached(cells, false);
  for (std::size_t i = 0; i < maze.way.size(); ++i) {
    reached[maze.index(maze.way[i])] = true;
    if (i > 0) open.between(maze.way[i - 1], maze.way[i]);
  }
  // Side branches: depth first from cells of the way (Prim-like starts, so that they are many).
  std::vector<MazeCell> starts = maze.way;
  shuffle(starts, random);
  for (std::size_t s = 0; s < starts.size(); ++s) {
    std::vector<MazeCell> path{starts[s]};
    std::size_t steps = 0;
    while (!path.empty()) {
      const auto around = neighbours(maze, path.back(), random);
      const auto next = std::find_if(around.begin(), around.end(),
                                     [&](MazeCell c) { return !reached[maze.index(c)]; });
      if (next == around.end() || (steps > cells / 6 && path.size() > 1 && random.below(4) == 0)) {
        path.pop_back();
        continue;
      }
      open.between(path.back(), *next);
      reached[maze.index(*next)] = true;
      starts.push_back(*next);
      path.push_back(*next);
      ++steps;
    }
  }
  const std::size_t last = maze.way.size() - 1;
  for (int i = 0; i < stations; ++i)
    maze.stations.push_back(maze.way[last * static_cast<std::size_t>(i) /
                                     static_cast<std::size_t>(stations - 1)]);
  return maze;
}

}  // namespace platewright::compose
