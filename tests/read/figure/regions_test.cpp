#include <cmath>
#include <random>

#include "read/region_points.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

const Anchor& region(const Result<Figure>& figure, const std::string& name) {
  static const Anchor none = [] {
    Anchor anchor;
    anchor.points.push_back({{-1e9, -1e9}});
    return anchor;
  }();
  const Anchor* found = figure.ok() ? figure->find(name) : nullptr;
  if (!found) ADD_FAILURE() << name << "\n" << texts(figure.findings());
  return found ? *found : none;
}

TEST(Distance, Agrees_with_brute_force_on_random_masks) {
  std::mt19937 random(7);
  for (int round = 0; round < 40; ++round) {
    Mask mask{{0, 0, 1 + static_cast<int>(random() % 14), 1 + static_cast<int>(random() % 14)}, {}};
    for (int i = 0; i < mask.window.w * mask.window.h; ++i)
      mask.inside.push_back(random() % 5 != 0);
    const std::vector<double> fast = distance_to_edge(mask);
    for (int y = 0; y < mask.window.h; ++y)
      for (int x = 0; x < mask.window.w; ++x) {
        double best = 1e9;
        for (int v = -1; v <= mask.window.h; ++v)
          for (int u = -1; u <= mask.window.w; ++u)
            if (!mask.at(u, v)) best = std::min(best, std::hypot(u - x, v - y));
        EXPECT_NEAR(fast[static_cast<std::size_t>(y * mask.window.w + x)], best, 1e-9);
      }
  }
}

TEST(Region, Of_a_disc_is_pointed_at_in_its_middle) {
  const auto figure =
      read_svg(svg_of(paper + "<circle data-anchor=\"a\" cx=\"40\" cy=\"60\" r=\"20\"/>"));
  const Anchor& a = region(figure, "a");
  EXPECT_EQ(a.kind, AnchorKind::region);
  expect_near(a.points.front().at, 40, 60, 0.5);
  EXPECT_NEAR(a.points.front().clearance, 20, 0.5);
  EXPECT_EQ(a.points.front().penalty, 0);
  EXPECT_FALSE(a.element_id.empty());
  EXPECT_NE(figure->svg.find("id=\"" + a.element_id + "\""), std::string::npos);
}

TEST(Region, Of_an_l_is_pointed_at_inside_it) {
  const auto figure =
      read_svg(svg_of(paper + "<path data-anchor=\"a\" d=\"M10 10H20V80H90V90H10Z\"/>"));
  for (const AnchorPoint& p : region(figure, "a").points)
    EXPECT_TRUE((p.at.x > 10 && p.at.x < 20 && p.at.y > 10 && p.at.y < 90) ||
                (p.at.x > 10 && p.at.x < 90 && p.at.y > 80 && p.at.y < 90))
        << p.at.x << " " << p.at.y;
  EXPECT_GE(region(figure, "a").points.size(), 4u);
}

TEST(Region, That_is_partly_covered_is_pointed_at_where_it_shows) {
  const auto figure = read_svg(
      svg_of(paper +
             "<rect data-anchor=\"a\" x=\"10\" y=\"10\" width=\"80\" height=\"20\" fill=\"#a33\"/>"
             "<rect x=\"10\" y=\"5\" width=\"60\" height=\"40\" fill=\"#33a\"/>"));
  for (const AnchorPoint& p : region(figure, "a").points) EXPECT_GT(p.at.x, 70);
}

TEST(Region, That_is_white_on_white_counts_where_it_lies) {
  const auto figure =
      read_svg(svg_of("<rect width=\"100\" height=\"100\" fill=\"#fff\"/>"
                      "<rect data-anchor=\"a\" x=\"10\" y=\"10\" width=\"40\" height=\"40\" "
                      "fill=\"#fff\" stroke=\"#000\"/>"));
  expect_near(region(figure, "a").points.front().at, 30, 30, 0.6);
}

TEST(Region, That_paints_nothing_counts_by_its_geometry) {
  for (const char* style : {"fill=\"none\"", "opacity=\"0\"", "fill-opacity=\"0\"",
                            "visibility=\"hidden\"", "display=\"none\""}) {
    const auto figure = read_svg(
        svg_of(paper + "<circle data-anchor=\"a\" cx=\"30\" cy=\"30\" r=\"15\" " + style + "/>"));
    expect_near(region(figure, "a").points.front().at, 30, 30, 0.6);
  }
}

TEST(Region, Of_a_thin_line_is_pointed_at_on_the_line) {
  const auto figure =
      read_svg(svg_of(paper + "<path data-anchor=\"a\" d=\"M10 50H90\" fill=\"none\" "
                              "stroke=\"#000\" stroke-width=\"1\"/>"));
  const Anchor& a = region(figure, "a");
  EXPECT_GE(a.points.size(), 3u);
  for (const AnchorPoint& p : a.points) EXPECT_NEAR(p.at.y, 50, 0.6);
}

TEST(Region, Around_others_is_pointed_at_beside_them) {
  const auto figure = read_svg(svg_of(
      paper +
      "<g data-anchor=\"limb\"><rect x=\"10\" y=\"10\" width=\"20\" height=\"80\" fill=\"#da8\"/>"
      "<rect data-anchor=\"knee\" x=\"10\" y=\"30\" width=\"20\" height=\"40\" "
      "fill=\"#b86\"/></g>"));
  for (const AnchorPoint& p : region(figure, "limb").points)
    EXPECT_TRUE(p.at.y < 30 || p.at.y > 70);
  expect_near(region(figure, "knee").points.front().at, 20, 50, 0.7);
}

TEST(Region, Made_only_of_others_is_pointed_at_on_one_of_them) {
  const auto figure =
      read_svg(svg_of(
          paper + "<g data-anchor=\"both\"><circle data-anchor=\"l\" cx=\"25\" cy=\"50\" r=\"15\"/>"
                  "<circle data-anchor=\"r\" cx=\"75\" cy=\"50\" r=\"10\"/></g>"));
  EXPECT_LT(distance(region(figure, "both").points.front().at, FigurePoint{25, 50}), 15);
}

TEST(Region, Of_an_image_or_a_use_counts_like_a_shape) {
  const auto figure = read_svg(
      svg_of(paper + "<defs><rect id=\"r\" width=\"20\" height=\"20\" fill=\"#a33\"/></defs>"
                     "<use data-anchor=\"u\" href=\"#r\" x=\"10\" y=\"10\"/><rect x=\"5\" y=\"5\" "
                     "width=\"15\" height=\"40\"/>"));
  for (const AnchorPoint& p : region(figure, "u").points) EXPECT_GT(p.at.x, 20);
}

TEST(Region, Reused_has_one_end_on_each_copy) {
  const auto figure = read_svg(
      svg_of(paper +
             "<symbol id=\"s\"><circle data-anchor=\"k\" cx=\"10\" cy=\"10\" r=\"9\"/></symbol>"
             "<use href=\"#s\" x=\"5\" y=\"5\"/><use href=\"#s\" x=\"65\" y=\"5\"/>"));
  const Anchor& k = region(figure, "k");
  EXPECT_EQ(k.kind, AnchorKind::points);
  ASSERT_EQ(k.points.size(), 2u);
  expect_near(k.points[0].at, 15, 15, 0.6);
  expect_near(k.points[1].at, 75, 15, 0.6);
}

TEST(Region, Candidates_keep_off_the_points_of_other_anchors) {
  const auto figure =
      read_svg(svg_of(paper + "<circle data-anchor=\"a\" cx=\"50\" cy=\"50\" r=\"30\"/>"),
               {{"p", {{50, 50}}, "", {}}});
  for (const AnchorPoint& p : region(figure, "a").points)
    EXPECT_GT(distance(p.at, FigurePoint{50, 50}), 0.3);
}

TEST(Region, Twelve_overlapping_ones_are_all_told_apart) {
  std::string body = paper;
  for (int i = 0; i < 12; ++i)
    body += "<rect data-anchor=\"r" + std::to_string(i) + "\" x=\"" + std::to_string(5 + 6 * i) +
            "\" y=\"10\" width=\"20\" height=\"20\" fill=\"#" + std::string(i % 2 ? "f0f" : "c84") +
            "\"/>";
  const auto figure = read_svg(svg_of(body));
  for (int i = 0; i < 11; ++i)
    for (const AnchorPoint& p : region(figure, "r" + std::to_string(i)).points) {
      EXPECT_GT(p.at.x, 5 + 6 * i) << i;
      EXPECT_LT(p.at.x, 11 + 6 * i) << i;  // the next one covers the rest
    }
}

TEST(Silhouette, Leaves_out_a_white_background) {
  const auto figure =
      read_svg(svg_of("<rect width=\"100\" height=\"100\" fill=\"#fff\"/><circle cx=\"50\" "
                      "cy=\"50\" r=\"20\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"/>"));
  ASSERT_TRUE(figure.ok());
  EXPECT_NEAR(figure->painted.x, 29, 0.5);
  EXPECT_NEAR(figure->painted.w, 42, 0.6);
  const FigureGrid& grid = figure->silhouette;
  EXPECT_EQ(grid.at(grid.columns / 2, grid.rows / 2), 255);  // white, but within the drawing
  EXPECT_EQ(grid.at(2, 2), 0);
}

TEST(Detail, Is_high_on_hatching_and_nothing_on_a_flat_tone) {
  std::string body = "<rect width=\"100\" height=\"100\" fill=\"#ccc\"/>";
  for (int i = 0; i < 20; ++i)
    body += "<path stroke=\"#000\" d=\"M" + std::to_string(60 + 2 * i) + " 10V90\"/>";
  const auto figure = read_svg(svg_of(body));
  ASSERT_TRUE(figure.ok());
  const FigureGrid& grid = figure->detail;
  EXPECT_GT(grid.at(grid.columns * 8 / 10, grid.rows / 2), 200);
  EXPECT_EQ(grid.at(grid.columns * 3 / 10, grid.rows / 2), 0);
}

TEST(Figure, Reads_the_same_twice) {
  const std::string svg = svg_of(paper +
                                 "<circle data-anchor=\"a\" cx=\"40\" cy=\"60\" r=\"20\"/><path "
                                 "data-anchor=\"b\" d=\"M0 0L50 9\" stroke=\"#000\"/>");
  const auto one = read_svg(svg), two = read_svg(svg);
  ASSERT_TRUE(one.ok() && two.ok());
  EXPECT_EQ(one->svg, two->svg);
  EXPECT_EQ(one->silhouette.values, two->silhouette.values);
  for (std::size_t i = 0; i < one->anchors.size(); ++i)
    for (std::size_t k = 0; k < one->anchors[i].points.size(); ++k)
      EXPECT_EQ(one->anchors[i].points[k].at, two->anchors[i].points[k].at);
}

// What was read is safe to read again, and says the same.
TEST(Figure, Read_from_its_own_document_paints_the_same) {
  const auto one =
      read_svg(svg_of(paper + "<g fill=\"red\" id=\"g\"><use href=\"#x\"/></g><defs><circle "
                              "id=\"x\" cx=\"9\" cy=\"9\" r=\"4\"/></defs>"));
  ASSERT_TRUE(one.ok());
  const auto two = read_svg(one->svg);
  ASSERT_TRUE(two.ok());
  EXPECT_TRUE(two.findings().empty()) << texts(two.findings());
  EXPECT_EQ(one->svg, two->svg);
  EXPECT_EQ(one->silhouette.values, two->silhouette.values);
}

TEST(Region_parts, Of_an_anchor_that_is_no_drawn_shape_are_a_finding_each) {
  const auto one = read_svg(svg_of(paper + "<circle id=\"anchor-tip\" cx=\"9\" cy=\"9\" r=\"1\"/>"));
  ASSERT_TRUE(one.ok());
  const auto parts = region_parts(*one, {"tip", "nowhere"});
  EXPECT_FALSE(parts.ok());
  EXPECT_EQ(codes(parts.findings()), (std::vector<std::string>{"region-missing", "region-missing"}));
}

// Values of a region's room at a place in figure units.
int room_at(const Anchor& a, double x, double y) {
  const FigureGrid& room = a.text_room;
  return room.at(static_cast<int>((x - room.box.x) / room.cell),
                 static_cast<int>((y - room.box.y) / room.cell));
}

TEST(Region, Has_room_for_words_where_its_paint_is_calm) {
  const auto figure = read_svg(svg_of(
      paper + "<rect data-anchor=\"a\" x=\"10\" y=\"10\" width=\"80\" height=\"60\" fill=\"#808080\"/>"
              "<path d=\"M10 40H90\" stroke=\"#000\"/>"));
  const Anchor& a = region(figure, "a");
  // #808080 has a relative luminance of 0.2159 (WCAG 2.2's formula).
  EXPECT_NEAR(room_at(a, 50, 25), 1 + 254 * 0.2159, 1.5);
  EXPECT_NEAR(room_at(a, 50, 60), 1 + 254 * 0.2159, 1.5);
  EXPECT_EQ(room_at(a, 50, 40), 0) << "on the line";
  EXPECT_EQ(room_at(a, 50, 40.7), 0) << "at its edge";
  EXPECT_EQ(room_at(a, 50, 80), 0) << "outside";
  EXPECT_TRUE(region(read_svg(svg_of(paper + "<circle id=\"anchor-a\" cx=\"5\" cy=\"5\" r=\"2\"/>")), "a")
                  .text_room.values.empty());
}

}  // namespace
}  // namespace platewright::read
