#include <pugixml.hpp>

#include "read/svg_drawing.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

// The outline version drawn on 400 x 400 pixels for a figure of 100 x 100 units.
struct Drawn {
  std::string svg;
  Pixels pixels;
  // 'i' ink, 'w' white paint, ' ' nothing, '?' anything else.
  char at(double x, double y) const {
    const std::uint32_t p = pixels.at(static_cast<int>(x * 4), static_cast<int>(y * 4));
    if (p >> 24 == 0) return ' ';
    if (p == 0xff000000) return 'i';
    return p == 0xffffffff ? 'w' : '?';
  }
};

Drawn outline(const std::string& body, double width = 2) {
  const auto figure = read_svg(svg_of(body));
  EXPECT_TRUE(figure.ok()) << texts(figure.findings());
  Drawn drawn;
  if (!figure.ok()) return drawn;
  const auto art = outline_art(*figure, width);
  EXPECT_TRUE(art.ok()) << texts(art.findings());
  if (!art.ok()) return drawn;
  drawn.svg = *art;
  std::string why;
  const auto drawing = Drawing::load(*art, {}, why);
  EXPECT_TRUE(drawing.has_value()) << why;
  if (drawing)
    drawing->render(raster_frame({0, 0, 100, 100}, 400), {0, 0, 400, 400}, "", {}, drawn.pixels);
  return drawn;
}

TEST(Outline, A_filled_shape_is_white_with_an_ink_line_of_the_width_asked_for) {
  const Drawn d = outline(
      "<rect x=\"20\" y=\"20\" width=\"60\" height=\"60\" fill=\"#a33\" opacity=\".5\"/>", 4);
  EXPECT_EQ(d.at(50, 50), 'w');
  for (const double x : {18.5, 20.0, 21.5}) EXPECT_EQ(d.at(x, 50), 'i') << x;
  EXPECT_EQ(d.at(17.5, 50), ' ');
  EXPECT_EQ(d.at(22.5, 50), 'w');
}

TEST(Outline, No_css_of_the_figure_wins) {
  const Drawn d = outline(
      "<style>rect{fill:#a33 !important;stroke:#0a0 !important;stroke-width:9 "
      "!important;fill-opacity:.2 !important}</style>"
      "<rect x=\"20\" y=\"20\" width=\"60\" height=\"60\"/>"
      "<rect x=\"2\" y=\"2\" width=\"10\" height=\"10\" style=\"fill:#00f !important\"/>");
  EXPECT_EQ(d.at(50, 50), 'w');
  EXPECT_EQ(d.at(20, 50), 'i');
  EXPECT_EQ(d.at(22, 50), 'w');
  EXPECT_EQ(d.at(7, 7), 'w');
}

TEST(Outline, A_line_without_fill_stays_a_line) {
  const Drawn d =
      outline(paper + "<path d=\"M20 20H80V80\" style=\"fill:none;stroke:#a33;stroke-width:8\"/>");
  EXPECT_EQ(d.at(50, 20), 'i');
  EXPECT_EQ(d.at(50, 22.5), 'w');
  EXPECT_EQ(d.at(70, 40), 'w');
}

TEST(Outline, Transforms_do_not_change_the_width) {
  const Drawn d = outline(
      "<g transform=\"scale(10)\"><svg width=\"10\" height=\"10\" viewBox=\"0 0 5 5\"><rect "
      "x=\"1\" y=\"1\" width=\"3\" height=\"3\"/></svg></g>",
      4);
  for (const double x : {18.5, 21.5}) EXPECT_EQ(d.at(x, 50), 'i') << x;
  for (const double x : {17.0, 23.0}) EXPECT_NE(d.at(x, 50), 'i') << x;
}

TEST(Outline, Shading_images_and_the_invisible_are_left_out) {
  const Drawn d = outline(
      paper +
      "<g class=\"soft shade\"><rect x=\"20\" y=\"20\" width=\"60\" height=\"60\"/></g>"
      "<path class=\"light\" d=\"M10 10H30V30Z\"/><path class=\"texture\" d=\"M10 60H30V90Z\"/>"
      "<rect x=\"40\" y=\"40\" width=\"5\" height=\"5\" opacity=\"0\"/><g opacity=\".5\"><rect "
      "x=\"50\" y=\"40\" width=\"5\" height=\"5\" fill=\"none\"/></g>"
      "<rect x=\"60\" y=\"40\" width=\"5\" height=\"5\" display=\"none\"/><image width=\"9\" "
      "height=\"9\"/>");
  pugi::xml_document tree;
  ASSERT_TRUE(tree.load_string(d.svg.c_str()));
  int shapes = 0;
  for (const auto& node : tree.select_nodes(
           "//*[local-name()='rect' or local-name()='path' or local-name()='image']")) {
    (void)node;
    ++shapes;
  }
  EXPECT_EQ(shapes, 1) << d.svg;
}

TEST(Outline, What_lies_above_hides_the_lines_below) {
  const Drawn d = outline(
      "<rect x=\"10\" y=\"10\" width=\"40\" height=\"40\" fill=\"#a33\"/><rect x=\"30\" y=\"30\" "
      "width=\"40\" height=\"40\" fill=\"#33a\"/>");
  EXPECT_EQ(d.at(50, 40), 'w');
  EXPECT_EQ(d.at(50, 20), 'i');
}

TEST(Outline, What_is_reused_is_outlined_too) {
  const Drawn d = outline(
      "<defs><rect id=\"r\" width=\"20\" height=\"20\"/></defs><use href=\"#r\" x=\"20\" y=\"20\" "
      "fill=\"#a33\"/>"
      "<use href=\"#r\" x=\"60\" y=\"20\" fill=\"none\" stroke=\"#000\"/>");
  EXPECT_EQ(d.at(30, 30), 'w');
  EXPECT_EQ(d.at(70, 30), ' ');
  EXPECT_EQ(d.at(60, 30), 'i');
}

TEST(Outline, What_a_clip_cuts_off_is_closed_along_the_cut) {
  const std::string clip =
      "<clipPath id=\"c\"><rect x=\"20\" y=\"20\" width=\"40\" height=\"60\"/></clipPath>";
  const std::string shape = "x=\"10\" y=\"40\" width=\"80\" height=\"20\"";
  // Cut by its own clip, by that of a group, by both ways of writing it, moved or not.
  for (const std::string& body : std::vector<std::string>{
           "<rect clip-path=\"url(#c)\" fill=\"#a33\" " + shape + "/>",
           "<rect style=\"clip-path:url(#c);fill:#a33\" " + shape + "/>",
           "<g clip-path=\"url(#c)\"><g><rect fill=\"#a33\" " + shape + "/></g></g>",
           "<g clip-path=\"url(#c)\"><rect fill=\"#a33\" transform=\"translate(10 40)\" "
           "width=\"80\" "
           "height=\"20\"/></g>",
           std::string(
               "<g transform=\"translate(5 5)\"><rect fill=\"#a33\" transform=\"translate(-5 "
               "-5)\" clip-path=\"url(#c)\" ") +
               shape + "/></g>"}) {
    const Drawn d = outline(clip + body);
    for (const double x : {20.5, 59.5}) EXPECT_EQ(d.at(x, 50), 'i') << x << " in " << body;
    for (const double y : {40.5, 59.5}) EXPECT_EQ(d.at(40, y), 'i') << y << " in " << body;
    EXPECT_EQ(d.at(40, 50), 'w') << body;
    for (const double x : {15.0, 65.0}) EXPECT_EQ(d.at(x, 50), ' ') << x << " in " << body;
    // Along the clip where there is nothing to cut: no line.
    EXPECT_EQ(d.at(20.5, 30), ' ') << body;
    EXPECT_EQ(d.at(40, 20.5), ' ') << body;
  }
}

TEST(Outline, A_width_that_is_none_is_a_finding) {
  const auto figure = read_svg(svg_of(paper));
  EXPECT_EQ(codes(outline_art(*figure, 0).findings()), std::vector<std::string>{"outline-width"});
  EXPECT_EQ(codes(outline_art(*figure, -1).findings()), std::vector<std::string>{"outline-width"});
}

}  // namespace
}  // namespace platewright::read
