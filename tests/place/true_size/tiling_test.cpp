// The fewest tiles, against every offset of whole cells and every choice of
// tiles, and against the bounding-box formula n = ceil((L - o) / (p - o))
// (common practice).
#include "place/tiling.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <random>

namespace platewright::place {
namespace {

Cells random_silhouette(std::mt19937& random, int columns, int rows) {
  Cells cells{columns, rows, 1.0, {}};
  cells.values.assign(static_cast<std::size_t>(columns * rows), 0);
  // A few overlapping boxes, some of them thin limbs.
  const auto pick = [&](int from, int to) {
    return from + static_cast<int>(random() % static_cast<unsigned>(to - from + 1));
  };
  for (int i = 0; i < 4; ++i) {
    const int w = pick(1, columns / 2), h = pick(1, rows / 2);
    const int x = pick(0, columns - w), y = pick(0, rows - h);
    for (int r = y; r < y + h; ++r)
      for (int c = x; c < x + w; ++c) cells.values[static_cast<std::size_t>(r * columns + c)] = 255;
  }
  return cells;
}

// Fewest tiles at one offset: every subset of the grid's tiles is tried.
int fewest_at(const Cells& cells, int left, int top, int width, int height, int overlap) {
  const int across = (cells.columns - left + width) / (width - overlap) + 2;
  const int down = (cells.rows - top + height) / (height - overlap) + 2;
  std::vector<std::uint64_t> covers;  // for each occupied cell, the tiles that hold it
  for (int r = 0; r < cells.rows; ++r)
    for (int c = 0; c < cells.columns; ++c) {
      if (!cells.at(c, r)) continue;
      std::uint64_t by = 0;
      for (int ty = 0; ty < down; ++ty)
        for (int tx = 0; tx < across; ++tx) {
          const int x = left + tx * (width - overlap), y = top + ty * (height - overlap);
          if (c >= x && c + 1 <= x + width && r >= y && r + 1 <= y + height)
            by |= std::uint64_t{1} << (ty * across + tx);
        }
      covers.push_back(by);
    }
  std::uint64_t used = 0;
  for (const std::uint64_t by : covers) used |= by;
  std::vector<int> tiles;
  for (int i = 0; i < 64; ++i)
    if (used >> i & 1) tiles.push_back(i);
  int best = 64;
  for (std::uint64_t pick = 0; pick < std::uint64_t{1} << tiles.size(); ++pick) {
    if (std::popcount(pick) >= best) continue;
    std::uint64_t chosen = 0;
    for (std::size_t i = 0; i < tiles.size(); ++i)
      if (pick >> i & 1) chosen |= std::uint64_t{1} << tiles[i];
    bool all = true;
    for (const std::uint64_t by : covers)
      if (!(by & chosen)) {
        all = false;
        break;
      }
    if (all) best = std::popcount(pick);
  }
  return best;
}

TEST(Tiling, Is_the_fewest_of_every_offset_and_choice_and_covers_every_cell) {
  std::mt19937 random(7);
  for (int instance = 0; instance < 40; ++instance) {
    const Cells cells = random_silhouette(random, 16, 14);
    const int width = 7, height = 6, overlap = 2;
    const auto tiling = fewest_tiles(cells, width, height, overlap);
    ASSERT_TRUE(tiling);
    int best = 64;
    for (int dx = 0; dx < width - overlap; ++dx)
      for (int dy = 0; dy < height - overlap; ++dy)
        best = std::min(best, fewest_at(cells, -dx, -dy, width, height, overlap));
    // Offsets between whole cells never need fewer: cells are whole.
    EXPECT_EQ(static_cast<int>(tiling->printed.size()), best) << instance;
    for (int r = 0; r < cells.rows; ++r)
      for (int c = 0; c < cells.columns; ++c) {
        if (!cells.at(c, r)) continue;
        bool covered = false;
        for (const Tile& tile : tiling->printed) {
          const PageBox b = tiling->box(tile);
          covered |= c >= b.left() - 1e-9 && c + 1 <= b.right() + 1e-9 && r >= b.top() - 1e-9 &&
                     r + 1 <= b.bottom() + 1e-9;
        }
        EXPECT_TRUE(covered) << instance << ": " << c << "," << r;
      }
    const PageBox box = Occupancy(cells).box();
    EXPECT_LE(static_cast<int>(tiling->printed.size()),
              tiles_for_length(box.w, width, overlap) * tiles_for_length(box.h, height, overlap));
  }
}

TEST(Tiling, Of_bounding_boxes_is_the_published_number) {
  // Letter, 0.5 in margins, 10 mm overlap, computed from the formula.
  const double w = 215.9 - 25.4, h = 279.4 - 25.4;
  EXPECT_EQ(tiles_for_length(540, w, 10) * tiles_for_length(1200, h, 10), 15);
  EXPECT_EQ(tiles_for_length(600, w, 10) * tiles_for_length(1200, h, 10), 20);
  EXPECT_EQ(tiles_for_length(1200, w, 10) * tiles_for_length(1200, h, 10), 35);
  EXPECT_EQ(tiles_for_length(18 * 25.4, h, 10) * tiles_for_length(24 * 25.4, w, 10), 8);
  EXPECT_EQ(tiles_for_length(18 * 25.4, w, 10) * tiles_for_length(24 * 25.4, h, 10), 9);
}

TEST(Tiling, Of_nothing_is_nothing) {
  Cells cells{4, 4, 1.0, std::vector<std::uint8_t>(16, 0)};
  EXPECT_FALSE(fewest_tiles(cells, 3, 3, 1));
}

}  // namespace
}  // namespace platewright::place
