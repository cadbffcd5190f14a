#include "reading.hpp"

namespace platewright::read {
namespace {

struct Placed {
  const char* body;
  double x, y;
};

class Marker : public testing::TestWithParam<Placed> {};

// Expected points are worked out by hand from SVG 1.1, chapter 7.
TEST_P(Marker, Lies_where_the_renderer_sees_it) {
  const auto result = read_svg(svg_of(paper + GetParam().body));
  expect_near(point_of(result, "a"), GetParam().x, GetParam().y, 0.02);
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->svg.find("pw-"), std::string::npos) << result->svg;
}

INSTANTIATE_TEST_SUITE_P(
    Anchors, Marker,
    testing::Values(
        Placed{"<circle id=\"anchor-a\" cx=\"30\" cy=\"40\" r=\"2\"/>", 30, 40},
        Placed{"<circle data-anchor-point=\"a\" cx=\"30\" cy=\"40\" r=\"0\"/>", 30, 40},
        Placed{"<circle data-anchor-point=\"a\" cx=\"30%\" cy=\"1in\" r=\"0\"/>", 30, 96},
        Placed{"<g id=\"anchor-a\" transform=\"translate(12 13)\"/>", 12, 13},
        Placed{"<g id=\"anchor-a\" transform=\"translate(12 13)\"><circle cx=\"5\" cy=\"6\" "
               "r=\"0\"/></g>",
               17, 19},
        Placed{"<g id=\"anchor-a\"><rect x=\"10\" y=\"10\" width=\"4\" height=\"4\"/><rect "
               "x=\"30\" y=\"20\" "
               "width=\"4\" height=\"4\"/></g>",
               22, 17},
        Placed{
            "<rect id=\"anchor-a\" x=\"10\" y=\"20\" width=\"6\" height=\"4\" display=\"none\"/>",
            13, 22},
        Placed{"<rect id=\"anchor-a\" x=\"10\" y=\"20\" width=\"6\" height=\"4\" "
               "style=\"display:none !important;visibility:hidden !important\"/>",
               13, 22},
        Placed{"<g display=\"none\"><g visibility=\"hidden\"><circle id=\"anchor-a\" cx=\"7\" "
               "cy=\"8\" r=\"1\"/></g></g>",
               7, 8},
        Placed{"<style>.m{display:none !important}</style><circle class=\"m\" id=\"anchor-a\" "
               "cx=\"7\" cy=\"8\" r=\"1\"/>",
               7, 8},
        Placed{"<g transform=\"translate(50 50) rotate(90) scale(2)\"><circle id=\"anchor-a\" "
               "cx=\"10\" cy=\"5\" "
               "r=\"0\"/></g>",
               40, 70},
        Placed{"<g style=\"transform:translate(10px,20px)\"><circle id=\"anchor-a\" cx=\"1\" "
               "cy=\"2\" r=\"1\"/></g>",
               11, 22},
        Placed{"<svg x=\"10\" y=\"20\" width=\"40\" height=\"40\" viewBox=\"0 0 10 10\"><circle "
               "id=\"anchor-a\" cx=\"5\" "
               "cy=\"2\" r=\"0\"/></svg>",
               30, 28},
        Placed{"<path id=\"anchor-a\" d=\"m12.5,7.5\"/>", 12.5, 7.5},
        Placed{"<line id=\"anchor-a\" x1=\"10\" y1=\"10\" x2=\"20\" y2=\"10\"/>", 15, 10},
        Placed{"<defs><circle id=\"dot\" r=\"1\"/></defs><use href=\"#dot\" "
               "data-anchor-point=\"a\" x=\"33\" y=\"44\"/>",
               33, 44},
        Placed{"<defs><g id=\"s\"><circle data-anchor-point=\"a\" cx=\"2\" cy=\"3\" "
               "r=\"1\"/></g></defs><use href=\"#s\" "
               "x=\"10\" y=\"20\" transform=\"scale(2)\"/>",
               24, 46},
        Placed{"<symbol id=\"s\" viewBox=\"0 0 10 10\"><circle data-anchor-point=\"a\" cx=\"5\" "
               "cy=\"2\" r=\"0\"/></symbol>"
               "<use href=\"#s\" x=\"20\" y=\"30\" width=\"50\" height=\"50\"/>",
               45, 40},
        Placed{"<defs><g id=\"s\"><circle data-anchor-point=\"a\" r=\"1\"/></g><g id=\"t\"><use "
               "href=\"#s\" x=\"3\"/></g></defs>"
               "<use href=\"#t\" y=\"4\"/>",
               3, 4}));

TEST(Anchors, Points_are_in_viewbox_units_with_its_corner_kept) {
  const auto result =
      read_svg(svg_of("<rect x=\"-50\" y=\"200\" width=\"100\" height=\"100\"/><circle "
                      "id=\"anchor-a\" cx=\"-20\" cy=\"250\" r=\"1\"/>",
                      "viewBox=\"-50 200 100 100\" width=\"10cm\" height=\"20cm\" "
                      "preserveAspectRatio=\"xMinYMin slice\""));
  expect_near(point_of(result, "a"), -20, 250, 0.02);
  EXPECT_EQ(result->view_box, (FigureBox{-50, 200, 100, 100}));
}

TEST(Anchors, Points_are_exact_in_a_figure_of_one_unit) {
  const auto result =
      read_svg(svg_of("<rect width=\"1\" height=\"1\"/><g transform=\"translate(.1 .1)\"><circle "
                      "id=\"anchor-a\" cx=\".3333\" cy=\".2\" r=\".0123\"/></g>",
                      "viewBox=\"0 0 1 1\""));
  expect_near(point_of(result, "a"), 0.4333, 0.3, 1e-4);
}

TEST(Anchors, One_marker_reused_has_several_points) {
  const auto result = read_svg(svg_of(
      paper +
      "<symbol id=\"s\"><circle data-anchor-point=\"lung\" cx=\"5\" cy=\"5\" r=\"1\"/></symbol>"
      "<use href=\"#s\" x=\"10\" y=\"10\"/><use href=\"#s\" x=\"60\" y=\"10\"/>"));
  ASSERT_TRUE(result.ok()) << texts(result.findings());
  const Anchor* lung = result->find("lung");
  ASSERT_NE(lung, nullptr);
  EXPECT_EQ(lung->kind, AnchorKind::points);
  ASSERT_EQ(lung->points.size(), 2u);
  expect_near(lung->points[0].at, 15, 15, 0.02);
  expect_near(lung->points[1].at, 65, 15, 0.02);
}

TEST(Anchors, Added_points_and_regions_join_those_of_the_figure) {
  const auto result =
      read_svg(svg_of(paper + "<rect id=\"liver\" x=\"10\" y=\"10\" width=\"30\" height=\"20\"/>"),
               {{"apex", {{20, 30}}, "", {"t.yaml", 3, 1}},
                {"lungs", {{10, 20}, {70, 20}}, "", {"t.yaml", 4, 1}},
                {"liver", {}, "liver", {"t.yaml", 5, 1}}});
  ASSERT_TRUE(result.ok()) << texts(result.findings());
  EXPECT_EQ(result->find("apex")->kind, AnchorKind::point);
  EXPECT_EQ(result->find("lungs")->kind, AnchorKind::points);
  EXPECT_EQ(result->find("lungs")->box, (FigureBox{10, 20, 60, 0}));
  EXPECT_EQ(result->find("liver")->kind, AnchorKind::region);
  EXPECT_EQ(result->find("liver")->element_id, "liver");
  expect_near(point_of(result, "liver"), 25, 20, 1.0);
}

TEST(Anchors, An_unknown_region_is_told_with_the_nearest_id) {
  const auto result = read_svg(svg_of(paper + "<rect id=\"path-liver\" width=\"9\" height=\"9\"/>"),
                               {{"liver", {}, "path-livr", {"t.yaml", 5, 3}}});
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"anchor-unknown-region"});
  EXPECT_EQ(result.findings()[0].at, (SourcePosition{"t.yaml", 5, 3}));
  EXPECT_NE(result.findings()[0].advice.find("path-liver"), std::string::npos);
}

TEST(Anchors, A_name_in_figure_and_terms_is_told_with_both_places) {
  const auto result = read_svg(svg_of(paper + "<circle id=\"anchor-a\" r=\"1\"/>"),
                               {{"a", {{1, 1}}, "", {"t.yaml", 2, 2}}});
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(codes(result.findings()), std::vector<std::string>{"anchor-duplicate"});
  ASSERT_EQ(result.findings()[0].notes.size(), 1u);
  EXPECT_EQ(result.findings()[0].notes[0].at.file, "test.svg");
}

TEST(Anchors, A_point_far_outside_is_a_warning) {
  const auto result = read_svg(svg_of(paper), {{"a", {{1000, 1}}, "", {"t.yaml", 2, 2}}});
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"anchor-outside"});
}

TEST(Anchors, Names_of_any_script_are_names) {
  const auto result =
      read_svg(svg_of(paper + "<circle data-anchor-point=\"Größe_καρδιά-сердце.心臓\" r=\"1\"/>"));
  ASSERT_TRUE(result.ok()) << texts(result.findings());
  EXPECT_EQ(result->anchors.size(), 1u);
}

TEST(Anchors, All_faults_are_told_at_once) {
  const auto result = read_svg(
      svg_of(paper +
             "<circle data-anchor-point=\"a b\" r=\"1\"/><circle data-anchor-point=\"\" r=\"1\"/>"
             "<circle id=\"anchor-c\" r=\"1\"/><circle data-anchor-point=\"c\" r=\"1\"/>"));
  EXPECT_EQ(codes(result.findings()),
            (std::vector<std::string>{"anchor-duplicate", "anchor-name", "anchor-name"}));
}

}  // namespace
}  // namespace platewright::read
