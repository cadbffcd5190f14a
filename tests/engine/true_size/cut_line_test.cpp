// The cut line of a piece, from an SVG to the finished line, against GEOS's
// buffer of the drawn shape: never more than the stated half millimetre off.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/piece_shapes.hpp"
#include "platewright/engine.hpp"
#include "support/geos.hpp"
#include "support/scratch.hpp"

namespace platewright {
namespace {

// A kidney of sixty corners; units of the figure.
support::Geos::Ring kidney() {
  support::Geos::Ring ring;
  for (int i = 0; i < 60; ++i) {
    const double t = 2 * M_PI * i / 60;
    const double r = 60 + 14 * std::cos(2 * t) - 26 * std::exp(-std::pow((t - M_PI) / 0.45, 2));
    ring.push_back({150 + r * std::cos(t), 120 + 1.2 * r * std::sin(t)});
  }
  return ring;
}

class CutLine : public testing::TestWithParam<double> {};

TEST_P(CutLine, Lies_within_half_a_millimetre_of_the_exact_offset) {
  const double k = GetParam();  // mm a unit
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 300 240\"><polygon "
      "data-anchor=\"part\" fill=\"#a65\" points=\"";
  for (const PagePoint& p : kidney()) svg += std::to_string(p.x) + "," + std::to_string(p.y) + " ";
  svg += "\"/></svg>";
  const support::Scratch scratch;
  support::write(scratch / "figure.svg", svg);
  const auto figure = read_figure(scratch / "figure.svg");
  ASSERT_TRUE(figure.ok());
  const support::Geos geos;
  for (const double by : {1.5, 2.5, 4.0})
    for (const bool smooth : {false, true}) {
      const auto shaped = shaped_piece(*figure, "part", figure->svg, k, {by, smooth, 0});
      ASSERT_TRUE(shaped.ok());
      ASSERT_EQ(shaped->piece.cut.size(), 1u);
      support::Geos::Ring ring;
      for (const PagePoint& p : kidney())
        ring.push_back({(p.x - shaped->piece.corner.x) * k, (p.y - shaped->piece.corner.y) * k});
      auto exact = geos.buffer(geos.polygon(ring), smooth ? 2 * by : by);
      if (smooth) exact = geos.buffer(exact, -by);
      EXPECT_LE(geos.apart(geos.boundary(geos.polygon(shaped->piece.cut.front())),
                           geos.boundary(exact)),
                cut_line_tolerance)
          << by << (smooth ? " mm, smooth" : " mm");
    }
}

INSTANTIATE_TEST_SUITE_P(Scales, CutLine, testing::Values(0.3, 0.7, 1.4));

}  // namespace
}  // namespace platewright
