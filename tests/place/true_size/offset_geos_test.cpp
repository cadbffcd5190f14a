// Cells grown and closed by exact distances, against GEOS's buffers of the
// shape that the cells stand for.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "place/offset.hpp"
#include "place/outline.hpp"
#include "support/geos.hpp"

namespace platewright::place {
namespace {

// A blob with bays: around (middle, middle), radii between a third and all of `reach`.
support::Geos::Ring blob(std::mt19937& random, double middle, double reach) {
  support::Geos::Ring ring;
  const int corners = 7 + static_cast<int>(random() % 9);
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * M_PI * i / corners;
    const double radius = reach * (0.35 + 0.65 * static_cast<double>(random() % 1000) / 1000);
    ring.push_back({middle + radius * std::cos(angle), middle + radius * std::sin(angle)});
  }
  return ring;
}

Cells cells_of(const support::Geos& geos, const support::Geos::Shape& shape, int side,
               double cell) {
  Cells cells{side, side, cell, {}};
  for (int r = 0; r < side; ++r)
    for (int c = 0; c < side; ++c)
      cells.values.push_back(geos.contains(shape, (c + 0.5) * cell, (r + 0.5) * cell) ? 255 : 0);
  return cells;
}

// A cell counts by its centre and is drawn as a square: a border is off by half
// a diagonal once where the shape is cut into cells and once where it is drawn.
double tolerance(double cell) { return std::sqrt(2.0) * cell; }

TEST(Offset, Lies_between_the_exact_buffers_half_a_diagonal_of_two_cells_less_and_more) {
  const support::Geos geos;
  std::mt19937 random(7);
  const double cell = 0.25;
  const int side = 240;
  for (int instance = 0; instance < 5; ++instance) {
    // Without tips narrower than a cell, which no cell's centre lies in.
    const auto shape = geos.buffer(geos.polygon(blob(random, side * cell / 2, 20)), 1);
    const Cells cells = cells_of(geos, shape, side, cell);
    for (const double by : {1.0, 2.5, 5.0}) {
      const auto borders = outlines(grown(cells, by));
      if (borders.size() > 1) continue;  // a bay that closed around a hole
      const auto exact = geos.buffer(shape, by);
      const auto ours = geos.polygon(borders.front());
      EXPECT_NEAR(geos.area(ours), geos.area(exact), 0.03 * geos.area(exact));
      EXPECT_TRUE(geos.covers(geos.buffer(shape, by + tolerance(cell)), ours)) << instance;
      EXPECT_TRUE(geos.covers(ours, geos.buffer(shape, by - tolerance(cell)))) << instance;
      // And no farther than it must.
      EXPECT_FALSE(geos.covers(geos.buffer(shape, by - tolerance(cell)), ours)) << instance;
    }
  }
}

TEST(Offset, Closing_lies_near_the_buffer_out_and_in) {
  const support::Geos geos;
  std::mt19937 random(9);
  const double cell = 0.25;
  const int side = 280;
  for (int instance = 0; instance < 4; ++instance) {
    // Without tips narrower than a cell, which no cell's centre lies in.
    const auto shape = geos.buffer(geos.polygon(blob(random, side * cell / 2, 20)), 1);
    const Cells cells = cells_of(geos, shape, side, cell);
    const auto borders = outlines(closed(cells, 4));
    const auto exact = geos.buffer(geos.buffer(shape, 4), -4);
    ASSERT_EQ(borders.size(), 1u);
    // Grown and shrunk: the rounding of both.
    EXPECT_LE(geos.apart(geos.boundary(geos.polygon(borders.front())), geos.boundary(exact)),
              2 * tolerance(cell))
        << instance;
  }
}

}  // namespace
}  // namespace platewright::place
