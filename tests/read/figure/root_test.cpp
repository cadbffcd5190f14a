#include "read/svg_root.hpp"
#include "read/svg_transform.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

// CSS Values and Units 3, section 6.2: 1in = 96px = 2.54cm = 72pt = 6pc.
TEST(User_units, Are_those_of_css) {
  EXPECT_DOUBLE_EQ(*user_units("1in"), 96);
  EXPECT_DOUBLE_EQ(*user_units("2.54cm"), 96);
  EXPECT_DOUBLE_EQ(*user_units("25.4mm"), 96);
  EXPECT_DOUBLE_EQ(*user_units("72pt"), 96);
  EXPECT_DOUBLE_EQ(*user_units("6pc"), 96);
  EXPECT_DOUBLE_EQ(*user_units(" 12px "), 12);
  EXPECT_DOUBLE_EQ(*user_units("+7"), 7);
  for (const char* text : {"", "50%", "wide", "1 2", "nan", "inf", "1e999"})
    EXPECT_FALSE(user_units(text)) << text;
}

TEST(Root, Width_and_height_give_the_view_box_when_there_is_none) {
  const auto result = read_svg(svg_of(paper, "width=\"1in\" height=\"2in\""));
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->view_box, (FigureBox{0, 0, 96, 192}));
  EXPECT_NE(result->svg.find("viewBox=\"0 0 96 192\""), std::string::npos);
  EXPECT_NE(result->svg.find("width=\"96\""), std::string::npos);
}

TEST(Root, Without_any_size_what_is_painted_is_the_figure) {
  const auto result = read_svg(svg_of("<circle cx=\"300\" cy=\"-40\" r=\"25\"/>", ""));
  ASSERT_TRUE(result.ok()) << texts(result.findings());
  EXPECT_NEAR(result->view_box.x, 275, 0.1);
  EXPECT_NEAR(result->view_box.y, -65, 0.1);
  EXPECT_NEAR(result->view_box.w, 50, 0.1);
}

TEST(Root, A_size_in_its_style_does_not_win) {
  const auto result =
      read_svg(svg_of(paper, "viewBox=\"0 0 100 100\" style=\"width:30px;height:1px;color:red\""));
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->painted.w, 98, 0.5);
  EXPECT_NE(result->svg.find("style=\"color:red\""), std::string::npos);
}

TEST(Transform_scale, Is_the_mean_enlargement) {
  EXPECT_DOUBLE_EQ(transform_scale(""), 1);
  EXPECT_DOUBLE_EQ(transform_scale("translate(3,4) rotate(30)"), 1);
  EXPECT_DOUBLE_EQ(transform_scale("scale(2) scale(3)"), 6);
  EXPECT_DOUBLE_EQ(transform_scale("scale(4,9)"), 6);
  EXPECT_DOUBLE_EQ(transform_scale("matrix(0 -3 3 0 7 8)"), 3);
  EXPECT_DOUBLE_EQ(transform_scale("scale(0)"), 1);
}

}  // namespace
}  // namespace platewright::read
