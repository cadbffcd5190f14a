#include "read/thick_lines.hpp"

#include <algorithm>

#include "reading.hpp"

namespace platewright::read {
namespace {

const FigureBox view{0, 0, 100, 100};

std::string figure_of(const std::string& body) {
  const auto figure = read_svg(svg_of(body));
  EXPECT_TRUE(figure.ok()) << texts(figure.findings());
  return figure.ok() ? figure->svg : "";
}

std::vector<double> widths_of(const std::string& svg) {
  const auto lines = line_widths(svg, view);
  EXPECT_TRUE(lines.has_value());
  return lines ? lines->widths : std::vector<double>{};
}

void expect_widths(const std::string& body, std::vector<double> wanted) {
  const std::vector<double> widths = widths_of(figure_of(body));
  ASSERT_EQ(widths.size(), wanted.size()) << body;
  for (std::size_t i = 0; i < wanted.size(); ++i)
    EXPECT_NEAR(widths[i], wanted[i], 0.003) << i << " in " << body;
}

const std::string curve = "d=\"M20 20C60 0 90 40 50 60S10 90 70 80\"";

TEST(Thick_lines, Are_measured_whichever_way_their_width_is_said) {
  expect_widths("<path " + curve + " stroke=\"#000\" fill=\"none\" stroke-width=\".3\"/>", {0.3});
  expect_widths("<path " + curve + " stroke=\"#000\"/>", {1});
  expect_widths(
      "<style>.hair{stroke:#000;stroke-width:.2}</style><path class=\"hair\" " + curve + "/>",
      {0.2});
  expect_widths("<g style=\"stroke:red;stroke-width:.4\"><path " + curve + "/><path " + curve +
                    " stroke-width=\"2\"/></g>",
                {0.4, 2});
  expect_widths("<path " + curve + " stroke=\"#000\" stroke-width=\".1mm\"/>", {0.1 * 96 / 25.4});
  expect_widths("<path " + curve + " stroke=\"#000\" stroke-width=\".5%\"/>", {0.5});
}

TEST(Thick_lines, Are_measured_as_transforms_symbols_and_view_boxes_draw_them) {
  const std::string line = "<path " + curve + " stroke=\"#000\" fill=\"none\"/>";
  expect_widths("<g transform=\"scale(.25)\">" + line + "</g>", {0.25});
  expect_widths("<g transform=\"rotate(30 50 50) scale(.5)\">" + line + "</g>", {0.5});
  expect_widths("<svg width=\"50\" height=\"50\" viewBox=\"0 0 200 200\">" + line + "</svg>",
                {0.25});
  expect_widths("<defs><g id=\"a\">" + line +
                    "</g></defs><use href=\"#a\"/>"
                    "<use href=\"#a\" transform=\"scale(.1)\"/>",
                {1, 0.1});
}

TEST(Thick_lines, Are_measured_however_a_path_begins) {
  for (const std::string d :
       {"M20,20 60,0 90,40", "M20-5-3 8z", "M.5.5L9 9", "m 10 10 20 20 30-5", "M1e1 20L9 9",
        "M 20\n20\tC60 0 90 40 50 60", "M-80 50H250", "M20 20L20 20"}) {
    const auto lines = line_widths(
        figure_of(
            "<path d=\"" + d +
            "\" stroke=\"#000\" fill=\"none\" stroke-width=\".3\" stroke-linecap=\"round\"/>"),
        view);
    ASSERT_TRUE(lines && lines->widths.size() == 1) << d;
    EXPECT_NEAR(lines->widths[0], 0.3, 0.003) << d;
  }
}

TEST(Thick_lines, Are_none_where_nothing_is_stroked) {
  expect_widths(
      "<path " + curve +
          "/><circle cx=\"50\" cy=\"50\" r=\"9\" stroke=\"none\"/>"
          "<rect x=\"9\" y=\"9\" width=\"9\" height=\"9\" stroke=\"#000\" stroke-width=\"0\"/>",
      {0, 0, 0});
}

TEST(Thick_lines, Are_measured_without_their_dashes_ends_and_clips) {
  expect_widths(
      "<clipPath id=\"c\"><rect width=\"30\" height=\"30\"/></clipPath>"
      "<g clip-path=\"url(#c)\"><path d=\"M10 50H90\" stroke=\"#000\" stroke-width=\".3\" "
      "stroke-dasharray=\"3 2\"/></g><path d=\"M50 10L51 90\" stroke=\"#000\" "
      "stroke-width=\".6\" stroke-linecap=\"square\" stroke-opacity=\".4\"/>",
      {0.3, 0.6});
}

TEST(Thick_lines, Come_out_as_wide_as_asked_and_the_others_as_they_are) {
  const std::string svg = figure_of(
      "<style>path{stroke:#000;fill:none;stroke-width:.2}.bold{stroke-width:3}</style>"
      "<path " +
      curve + "/><path class=\"bold\" " + curve +
      "/><g transform=\"scale(.5)\">"
      "<path style=\"stroke-width:.3\" " +
      curve + "/></g><path style=\"stroke:none\" " + curve + "/>");
  const auto lines = line_widths(svg, view);
  ASSERT_TRUE(lines.has_value());
  const auto thick = with_least_line(*lines, 0.8);
  ASSERT_TRUE(thick.has_value());
  // What is measured may not be held fast.
  std::string loose = *thick;
  for (std::size_t at; (at = loose.find(" !important")) != std::string::npos;) loose.erase(at, 11);
  const std::vector<double> widths = widths_of(loose);
  ASSERT_EQ(widths.size(), 4U);
  EXPECT_NEAR(widths[0], 0.8, 0.003);
  EXPECT_NEAR(widths[1], 3, 0.003);
  EXPECT_NEAR(widths[2], 0.8, 0.003);
  EXPECT_EQ(widths[3], 0);
  EXPECT_FALSE(with_least_line(*lines, 0.1).has_value());
}

TEST(Thick_lines, Are_surely_wide_only_where_none_is_thinner) {
  for (const char* body :
       {"<path d=\"M1 1H9\" stroke=\"#000\" stroke-width=\".7\"/>",
        "<style>path{stroke:#000;stroke-width:.2}</style><path d=\"M1 1H9\"/>",
        "<path d=\"M1 1H9\" stroke=\"#000\" style=\"stroke-width : .05mm\"/>",
        "<path d=\"M1 1H9\" stroke=\"#000\" stroke-width=\"1e-1\"/>",
        "<g transform=\"scale(.3)\"><path d=\"M1 1H9\" stroke=\"#000\" stroke-width=\"2\"/></g>",
        "<defs><path id=\"a\" d=\"M1 1H9\" stroke=\"#000\" stroke-width=\"3\"/></defs>"
        "<use href=\"#a\" transform=\"scale(.1)\"/>",
        "<path d=\"M1 1H9\" stroke=\"#000\"/>"}) {
    const std::string svg = figure_of(body);
    for (const double least : {0.01, 0.1, 0.25, 0.5, 0.9, 1.1}) {
      const std::vector<double> widths = widths_of(svg);
      const bool wide = std::all_of(widths.begin(), widths.end(),
                                    [&](double w) { return w == 0 || w > least - 0.002; });
      EXPECT_TRUE(wide || !surely_wide(svg, least)) << least << " " << body;
    }
  }
  // Said without measuring, where it can be.
  EXPECT_TRUE(
      surely_wide(figure_of("<path d=\"M1 1H9\" stroke=\"#000\" stroke-width=\"2\"/>"), 0.5));
  EXPECT_TRUE(surely_wide(
      figure_of("<g transform=\"scale(.6)\"><path d=\"M1 1H9\" stroke=\"#000\"/></g>"), 0.5));
}

}  // namespace
}  // namespace platewright::read
