// Colours as others see them, and how far apart they are.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/proof_rules.hpp"

namespace platewright::proofing {
namespace {

TEST(Vision, Leaves_greys_as_they_are) {
  for (const Vision vision : {Vision::grey, Vision::protan, Vision::deutan, Vision::tritan})
    for (const int v : {0, 40, 128, 200, 255}) {
      const auto g = static_cast<std::uint8_t>(v);
      const Colour seen = seen_by(vision, {g, g, g});
      EXPECT_NEAR(seen.red, v, 1);
      EXPECT_NEAR(seen.green, v, 1);
      EXPECT_NEAR(seen.blue, v, 1);
    }
}

TEST(Vision, Without_red_or_green_cones_takes_red_and_green_together_but_not_blue) {
  // Okabe and Ito 2002: their vermilion and blue stay apart for all.
  const Colour red{0xc0, 0x50, 0x30}, green{0x80, 0x78, 0x30}, blue{0x00, 0x72, 0xb2},
      vermilion{0xd5, 0x5e, 0x00};
  const double before = difference(red, green);
  EXPECT_LT(difference(seen_by(Vision::deutan, red), seen_by(Vision::deutan, green)), before / 3);
  for (const Vision vision : {Vision::protan, Vision::deutan, Vision::tritan})
    EXPECT_GT(difference(seen_by(vision, blue), seen_by(vision, vermilion)), 25);
}

TEST(Difference, Is_that_of_CIE_1976) {
  EXPECT_NEAR(difference({0, 0, 0}, {255, 255, 255}), 100, 0.1);
  // sRGB red is L* 53.24, a* 80.09, b* 67.20 (published conversions, D65, from memory).
  EXPECT_NEAR(difference({255, 0, 0}, {0, 0, 0}),
              std::sqrt(53.24 * 53.24 + 80.09 * 80.09 + 67.20 * 67.20), 0.3);
}

TEST(Ink, Of_full_colours_is_a_hundred_per_cent_each) {
  const auto page = [](std::uint32_t rgb) {
    return ink_percent({1, 1, 1, {rgb}});
  };
  EXPECT_EQ(page(0xFFFFFF), 0);
  EXPECT_NEAR(page(0x000000), 100, 1e-9);
  EXPECT_NEAR(page(0x00FFFF), 100, 1e-9);  // cyan
  EXPECT_NEAR(page(0x0000FF), 200, 1e-9);  // cyan and magenta
  EXPECT_NEAR(page(0x808080), 100 * (1 - 128 / 255.0), 1e-9);
}

}  // namespace
}  // namespace platewright::proofing
