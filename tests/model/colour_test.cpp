#include "platewright/colour.hpp"

#include <gtest/gtest.h>

namespace platewright {
namespace {

constexpr Colour white{255, 255, 255};

// Values computed from the formulas of WCAG 2.2 ("relative luminance",
// "contrast ratio"), to two decimals.
TEST(Colour, Contrast_on_white_agrees_with_published_values) {
  const auto on_white = [](const char* hex) { return contrast(*parse_colour(hex), white); };
  EXPECT_NEAR(on_white("#767676"), 4.54, 0.005);
  EXPECT_NEAR(on_white("#777777"), 4.48, 0.005);
  EXPECT_NEAR(on_white("#595959"), 7.00, 0.005);
  EXPECT_NEAR(on_white("#FF0000"), 4.00, 0.005);
  EXPECT_NEAR(on_white("#000"), 21.0, 1e-12);
  EXPECT_DOUBLE_EQ(contrast(white, white), 1.0);
}

// Palette of Okabe & Ito 2002 (colour-vision safe), contrast with white.
TEST(Colour, Contrast_of_the_colour_vision_safe_palette) {
  const std::pair<const char*, double> palette[] = {
      {"#E69F00", 2.25}, {"#56B4E9", 2.31}, {"#009E73", 3.42}, {"#F0E442", 1.32},
      {"#0072B2", 5.19}, {"#D55E00", 3.87}, {"#CC79A7", 3.06}};
  for (const auto& [hex, ratio] : palette)
    EXPECT_NEAR(contrast(*parse_colour(hex), white), ratio, 0.005) << hex;
}

TEST(Colour, Reads_short_and_long_and_writes_long) {
  EXPECT_EQ(*parse_colour("#1a2b3c"), (Colour{0x1a, 0x2b, 0x3c}));
  EXPECT_EQ(*parse_colour(" #AbC "), (Colour{0xaa, 0xbb, 0xcc}));
  EXPECT_EQ(to_hex({0x1a, 0x2b, 0x3c}), "#1a2b3c");
}

TEST(Colour, Refuses_what_is_no_hex_colour) {
  for (const char* bad : {"", "#", "#12", "#1234", "#12345g", "123456", "red", "#1234567"}) {
    const auto colour = parse_colour(bad);
    ASSERT_FALSE(colour) << bad;
    EXPECT_EQ(colour.findings().front().code, "colour-invalid");
  }
}

}  // namespace
}  // namespace platewright
