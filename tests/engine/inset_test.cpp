// An inset in the drawing: leaders go around it, but for those that end there.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "platewright/engine.hpp"
#include "support/scratch.hpp"

namespace {

using platewright::Layout;
using platewright::PagePoint;

// A stem with five parts, all to be labelled on the right, where an inset with one more stands;
// with `named`, the inset's ground has a label that stands in it.
Layout layout(const std::string& mark, bool named = false) {
  const support::Scratch scratch;
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 200 200\">"
      "<rect x=\"40\" y=\"10\" width=\"30\" height=\"180\" fill=\"#9ab973\"/>"
      "<g " + mark + "><rect " + (named ? "data-anchor=\"ground\" " : "") + "x=\"110\" y=\"60\" width=\"80\" height=\"80\" fill=\"#eee\"/>"
      "<circle id=\"anchor-cell\" cx=\"150\" cy=\"100\" r=\"2\"/></g>";
  std::string terms =
      "figure: stem.svg\nsets:\n  all: {ages: 11-14, language: en}\nterms:\n"
      "  cell: {all: Cell}\n";
  if (named) terms += "  ground: {all: Close-up, inside: yes}\n";
  for (int i = 0; i < 5; ++i) {
    const std::string name = "part-" + std::to_string(i);
    svg += "<circle id=\"anchor-" + name + "\" cx=\"55\" cy=\"" + std::to_string(40 + 30 * i) +
           "\" r=\"2\"/>";
    terms += "  " + name + ": {all: Part " + std::to_string(i) + ", side: right}\n";
  }
  support::write(scratch / "stem.svg", svg + "</svg>");
  support::write(scratch / "stem.terms.yaml", terms);
  platewright::SheetRequest request;
  request.figure = scratch / "stem.svg";
  request.terms = scratch / "stem.terms.yaml";
  request.set = "all";
  request.paper = "a4";
  auto solved = platewright::solve_layout(request, platewright::usual_environment());
  EXPECT_TRUE(solved.ok()) << platewright::to_json(solved.findings());
  return solved.ok() ? *solved : Layout{};
}

// Of the leaders of all parts: how many points (of 200 on each) lie in the inset.
int over_the_inset(const Layout& layout) {
  const PagePoint a = layout.figure_to_page(platewright::FigurePoint{110.5, 60.5}),
                  b = layout.figure_to_page(platewright::FigurePoint{189.5, 139.5});
  int count = 0;
  for (const auto& label : layout.labels) {
    if (label.anchor == "cell") continue;
    for (const auto& leader : label.leaders)
      for (std::size_t k = 1; k < leader.size(); ++k)
        for (int i = 0; i <= 200; ++i) {
          const double t = i / 200.0;
          const double x = leader[k - 1].x + t * (leader[k].x - leader[k - 1].x);
          const double y = leader[k - 1].y + t * (leader[k].y - leader[k - 1].y);
          count += x > a.x && x < b.x && y > a.y && y < b.y;
        }
  }
  return count;
}

TEST(Inset, Is_crossed_by_no_leader_but_to_what_it_shows) {
  EXPECT_GT(over_the_inset(layout("id=\"close-up\"")), 0) << "this figure asks for no way around";
  const Layout kept = layout("data-inset=\"yes\"");
  EXPECT_EQ(kept.labels.size(), 6U);
  EXPECT_EQ(over_the_inset(kept), 0);
}

TEST(Inset, May_have_a_label_within_and_is_crossed_no_more_for_it) {
  const Layout kept = layout("data-inset=\"yes\"", true);
  ASSERT_EQ(kept.labels.size(), 7U);
  int within = 0;
  for (const auto& label : kept.labels) within += label.side == platewright::Side::inside;
  EXPECT_EQ(within, 1);
  EXPECT_EQ(over_the_inset(kept), 0);
}

}  // namespace
