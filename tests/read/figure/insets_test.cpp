// Insets: what they cover, through any transform, and those that show nothing.
#include <gtest/gtest.h>

#include "reading.hpp"

namespace platewright::read {
namespace {

TEST(Insets, Cover_what_they_paint_as_the_renderer_sees_it) {
  const auto result = read_svg(svg_of(
      "<rect width=\"90\" height=\"90\"/><g transform=\"translate(10 20) scale(2)\">"
      "<g data-inset=\"yes\"><rect x=\"5\" y=\"5\" width=\"10\" height=\"4\"/>"
      "<g data-inset=\"yes\"><rect x=\"20\" y=\"5\" width=\"1\" height=\"10\"/></g></g></g>"));
  ASSERT_TRUE(result.ok());
  ASSERT_EQ(result->insets.size(), 1U) << "one within another is a part of it";
  EXPECT_NEAR(result->insets[0].x, 20, 1e-3);  // librsvg measures in single precision
  EXPECT_NEAR(result->insets[0].y, 30, 1e-3);
  EXPECT_NEAR(result->insets[0].w, 32, 1e-3);
  EXPECT_NEAR(result->insets[0].h, 20, 1e-3);
}

TEST(Insets, That_show_nothing_are_a_warning) {
  const auto result = read_svg(svg_of("<rect width=\"90\" height=\"90\"/><g data-inset=\"yes\"/>"));
  ASSERT_TRUE(result.ok());
  EXPECT_TRUE(result->insets.empty());
  ASSERT_EQ(result.findings().size(), 1U);
  EXPECT_EQ(result.findings().front().code, "inset-empty");
  EXPECT_GT(result.findings().front().at.line, 0);
}

}  // namespace
}  // namespace platewright::read
