// Offsets of cells against brute force, and outlines against areas.
#include "place/offset.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "place/outline.hpp"

namespace platewright::place {
namespace {

Cells random_cells(std::mt19937& random, int columns, int rows, unsigned one_in) {
  Cells cells{columns, rows, 0.5, {}};
  for (int i = 0; i < columns * rows; ++i) cells.values.push_back(random() % one_in == 0 ? 255 : 0);
  cells.values[static_cast<std::size_t>(columns + 1)] = 255;
  return cells;
}

Cells disc(double radius, double cell) {
  const int side = static_cast<int>(2 * radius / cell) + 20;
  Cells cells{side, side, cell, {}};
  for (int r = 0; r < side; ++r)
    for (int c = 0; c < side; ++c)
      cells.values.push_back(
          std::hypot(c + 0.5 - side / 2.0, r + 0.5 - side / 2.0) * cell <= radius ? 255 : 0);
  return cells;
}

TEST(Offset, Distances_are_those_of_every_pair_of_cells) {
  std::mt19937 random(3);
  for (int instance = 0; instance < 10; ++instance) {
    const Cells cells = random_cells(random, 23, 17, 40);
    const std::vector<double> distances = squared_distances(cells);
    for (int r = 0; r < cells.rows; ++r)
      for (int c = 0; c < cells.columns; ++c) {
        double best = 1e9;
        for (int y = 0; y < cells.rows; ++y)
          for (int x = 0; x < cells.columns; ++x)
            if (cells.at(x, y)) best = std::min(best, std::pow(x - c, 2) + std::pow(y - r, 2));
        EXPECT_EQ(distances[static_cast<std::size_t>(r * cells.columns + c)], best);
      }
  }
}

TEST(Offset, Of_a_disc_is_the_wider_disc) {
  const Cells small = framed(disc(10, 0.25), 20);
  const Cells wide = grown(small, 3);
  const auto borders = outlines(wide);
  ASSERT_EQ(borders.size(), 1u);
  // A circle of 13 mm; cells are counted by their centres.
  EXPECT_NEAR(area(borders[0]), M_PI * 13 * 13, 0.02 * M_PI * 13 * 13);
  const Cells back = shrunk(wide, 3);
  EXPECT_NEAR(area(outlines(back)[0]), area(outlines(small)[0]), 0.03 * area(outlines(small)[0]));
}

TEST(Offset, Closing_fills_a_hollow_that_is_narrower_than_twice_the_radius) {
  Cells cells{60, 60, 1, std::vector<std::uint8_t>(3600, 0)};
  const auto set = [&](int left, int top, int right, int bottom) {
    for (int r = top; r < bottom; ++r)
      for (int c = left; c < right; ++c) cells.values[static_cast<std::size_t>(r * 60 + c)] = 255;
  };
  set(15, 15, 27, 45);
  set(33, 15, 45, 45);  // a hollow 6 mm wide between two bars
  EXPECT_EQ(outlines(cells).size(), 2u);
  EXPECT_EQ(outlines(closed(cells, 4)).size(), 1u);
  EXPECT_EQ(outlines(closed(cells, 2)).size(), 2u);
}

TEST(Outlines, Enclose_every_cell_of_parts_without_holes) {
  std::mt19937 random(11);
  for (int instance = 0; instance < 20; ++instance) {
    const Cells cells = random_cells(random, 12, 12, 2);
    double enclosed = 0;
    for (const Polygon& border : outlines(cells)) {
      EXPECT_GT(area(border), 0);  // clockwise as seen
      // Corners only, every step along an axis.
      for (std::size_t i = 0; i < border.size(); ++i) {
        const PagePoint &a = border[i], &b = border[(i + 1) % border.size()];
        EXPECT_TRUE((a.x == b.x) != (a.y == b.y));
      }
      enclosed += area(border);
    }
    const double occupied =
        static_cast<double>(std::count(cells.values.begin(), cells.values.end(), 255)) * 0.25;
    EXPECT_GE(enclosed, occupied - 1e-9);
  }
}

TEST(Simplified, Keeps_within_its_tolerance) {
  const Polygon border = outlines(disc(20, 0.25)).front();
  const Polygon few = simplified(border, 0.3);
  EXPECT_LT(few.size(), border.size() / 4);
  for (const PagePoint& p : border) {
    double best = 1e9;
    for (std::size_t i = 0; i < few.size(); ++i) {
      const PagePoint &a = few[i], &b = few[(i + 1) % few.size()];
      const double length = distance(a, b);
      const double t = std::clamp(
          ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / (length * length), 0.0, 1.0);
      best = std::min(best, std::hypot(p.x - a.x - t * (b.x - a.x), p.y - a.y - t * (b.y - a.y)));
    }
    EXPECT_LE(best, 0.3 + 1e-9);
  }
}

}  // namespace
}  // namespace platewright::place
