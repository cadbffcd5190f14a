// Mazes, scrambled words, letters left out, and backs behind their fronts.
#include <gtest/gtest.h>

#include <algorithm>
#include <queue>
#include <set>

#include "compose/review/duplex.hpp"
#include "compose/review/maze.hpp"
#include "compose/review/word_play.hpp"
#include "demo_words.hpp"

namespace platewright::compose {
namespace {

std::vector<MazeCell> open_from(const Maze& m, MazeCell c) {
  std::vector<MazeCell> next;
  if (c.column + 1 < m.columns && m.right(c)) next.push_back({c.column + 1, c.row});
  if (c.row + 1 < m.rows && m.below(c)) next.push_back({c.column, c.row + 1});
  if (c.column > 0 && m.right({c.column - 1, c.row})) next.push_back({c.column - 1, c.row});
  if (c.row > 0 && m.below({c.column, c.row - 1})) next.push_back({c.column, c.row - 1});
  return next;
}

// A graph that is connected and has one passage less than cells is a tree: between any two
// cells there is exactly one way.
TEST(Maze, Is_a_tree_whose_one_way_passes_the_stations_in_order) {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    Random random(seed);
    const int columns = 6 + static_cast<int>(seed % 15), rows = 8 + static_cast<int>(seed % 11);
    const int stations = 2 + static_cast<int>(seed % 9);
    const Maze m = maze(columns, rows, stations, random);
    int passages = 0;
    for (int r = 0; r < rows; ++r)
      for (int c = 0; c < columns; ++c) {
        passages += m.right({c, r}) + m.below({c, r});
        EXPECT_FALSE(c == columns - 1 && m.right({c, r})) << "open to the outside";
        EXPECT_FALSE(r == rows - 1 && m.below({c, r})) << "open to the outside";
      }
    EXPECT_EQ(passages, columns * rows - 1);
    // Breadth first from the start.
    std::vector<int> from(static_cast<std::size_t>(columns * rows), -1);
    std::queue<MazeCell> open;
    open.push(m.stations.front());
    from[m.index(m.stations.front())] = static_cast<int>(m.index(m.stations.front()));
    int reached = 1;
    while (!open.empty()) {
      const MazeCell c = open.front();
      open.pop();
      for (const MazeCell next : open_from(m, c))
        if (from[m.index(next)] < 0) {
          from[m.index(next)] = static_cast<int>(m.index(c));
          ++reached;
          open.push(next);
        }
    }
    EXPECT_EQ(reached, columns * rows);
    std::vector<std::size_t> way{m.index(m.stations.back())};
    while (way.back() != m.index(m.stations.front()))
      way.push_back(static_cast<std::size_t>(from[way.back()]));
    std::reverse(way.begin(), way.end());
    std::vector<std::size_t> told;
    for (const MazeCell c : m.way) told.push_back(m.index(c));
    EXPECT_EQ(way, told);
    auto at = way.begin();
    ASSERT_EQ(m.stations.size(), static_cast<std::size_t>(stations));
    for (const MazeCell& s : m.stations) {
      at = std::find(at, way.end(), m.index(s));
      ASSERT_NE(at, way.end()) << "a station off the way, or out of order";
      ++at;
    }
  }
}

TEST(Scramble, Is_never_the_word_nor_another_nor_rude) {
  const std::vector<Spelling> words = {spelt("EAR"), spelt("ARE")};
  const std::vector<Spelling> unwanted = {spelt("RAE"), spelt("BUM")};
  for (std::uint64_t seed = 0; seed < 500; ++seed) {
    Random random(seed);
    const Spelling mixed = scrambled(spelt("EAR"), words, unwanted, random);
    EXPECT_NE(mixed, spelt("EAR"));
    EXPECT_NE(mixed, spelt("ARE"));
    EXPECT_NE(mixed, spelt("RAE"));
    Spelling sorted = mixed;
    std::sort(sorted.begin(), sorted.end());
    EXPECT_EQ(sorted, spelt("AER"));
    const Spelling other = scrambled(spelt("UMBX"), {}, unwanted, random);
    EXPECT_FALSE(spells(other, unwanted));
  }
}

TEST(Scramble, Leaves_a_word_that_has_no_other_order) {
  Random random(1);
  EXPECT_EQ(scrambled(spelt("OOO"), {}, {}, random), spelt("OOO"));
  EXPECT_EQ(scrambled(spelt("AB"), {}, {}, random), spelt("BA"));
}

TEST(Missing_letters, Leave_the_first_and_the_share_that_is_asked) {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    Random random(seed);
    const std::vector<bool> gone = gaps(9, 33, random);
    EXPECT_FALSE(gone.front());
    EXPECT_EQ(std::count(gone.begin(), gone.end(), true), 3);
    for (std::size_t i = 0; i + 3 < gone.size(); ++i)
      EXPECT_FALSE(gone[i] && gone[i + 1] && gone[i + 2]);
    EXPECT_EQ(gaps(2, 10, random), (std::vector<bool>{false, true}));
    EXPECT_EQ(gaps(1, 50, random), std::vector<bool>{false});
    const std::vector<bool> most = gaps(4, 90, random);
    EXPECT_EQ(std::count(most.begin(), most.end(), true), 3);
  }
}

// A sheet turned over: its left edge becomes the right one (long edge, upright paper), or
// its top the bottom (short edge). Where the back is then seen, mirrored through the paper,
// must be the front's own place.
TEST(Duplex, Backs_lie_behind_their_own_fronts_for_both_flips) {
  for (const auto& [width, height] : {std::pair{215.9, 279.4}, {279.4, 215.9}, {210.0, 297.0}}) {
    const CardGrid grid = card_grid(width, height, 12.7, 19, 63.5, 88.9);
    ASSERT_GT(grid.count(), 0);
    for (const bool over_horizontal : {false, true})
      for (int row = 0; row < grid.rows; ++row)
        for (int column = 0; column < grid.columns; ++column) {
          const PageBox front = grid.box(column, row);
          const BackPlace place = back_place(grid, column, row, over_horizontal);
          const PageBox back = grid.box(place.column, place.row);
          const PageBox seen = over_horizontal
                                   ? PageBox{back.x, height - back.bottom(), back.w, back.h}
                                   : PageBox{width - back.right(), back.y, back.w, back.h};
          EXPECT_NEAR(seen.x, front.x, 1e-9);
          EXPECT_NEAR(seen.y, front.y, 1e-9);
          EXPECT_EQ(place.turned, over_horizontal);
        }
  }
}

// 2.5 x 3.5 in cards on upright letter with usual margins: nine, three by three; on
// landscape paper eight, four by two (common practice).
TEST(Duplex, As_many_cards_as_fit) {
  EXPECT_EQ(card_grid(215.9, 279.4, 12.7, 0, 63.5, 82.5).rows, 3);
  const CardGrid landscape = card_grid(279.4, 215.9, 12.7, 19.05, 63.5, 88.9);
  EXPECT_EQ(landscape.columns, 4);
  EXPECT_EQ(landscape.rows, 2);
}

}  // namespace
}  // namespace platewright::compose
