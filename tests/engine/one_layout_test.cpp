// One layout for all label sets of a table: what two sets both label has the same
// leader on both sheets, and every sheet is as good as one by itself.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <tuple>

#include "platewright/engine.hpp"
#include "support/demo.hpp"

namespace {

using platewright::Layout;
using platewright::PageBox;
using platewright::PagePoint;
using platewright::PlacedLabel;

// Each solved once for all tests of this process.
const Layout& layout(const std::string& figure, const std::string& set, bool one_layout) {
  static std::map<std::tuple<std::string, std::string, bool>, Layout> known;
  const auto [at, is_new] = known.try_emplace({figure, set, one_layout});
  if (!is_new) return at->second;
  platewright::SheetRequest request;
  request.figure = support::demo_svg(figure);
  request.terms = support::demo_terms(figure);
  request.set = set;
  request.paper = "a4";
  request.one_layout = one_layout;
  auto solved = platewright::solve_layout(request, platewright::usual_environment());
  EXPECT_TRUE(solved.ok()) << figure << " " << set;
  if (solved.ok()) at->second = *solved;
  return at->second;
}

class One_layout : public testing::TestWithParam<std::string> {};

TEST_P(One_layout, Gives_an_anchor_the_same_leader_in_every_set) {
  std::map<std::string, PlacedLabel> first;
  platewright::FigureToPage where;
  int shared = 0;
  for (const std::string& set : support::demo_sets(GetParam())) {
    const Layout& solved = layout(GetParam(), set, true);
    if (first.empty()) where = solved.figure_to_page;
    EXPECT_EQ(solved.figure_to_page, where) << set;
    for (const PlacedLabel& label : solved.labels) {
      const auto [known, is_new] = first.emplace(label.anchor, label);
      shared += !is_new;
      EXPECT_EQ(label.leaders, known->second.leaders) << set << " " << label.anchor;
      EXPECT_EQ(label.side, known->second.side) << set << " " << label.anchor;
      EXPECT_EQ(label.as_number, known->second.as_number) << set << " " << label.anchor;
    }
  }
  EXPECT_GT(shared, 20);
}

TEST_P(One_layout, Keeps_labels_apart_on_the_page_and_at_each_reader_s_size) {
  for (const std::string& set : support::demo_sets(GetParam())) {
    const Layout& solved = layout(GetParam(), set, true);
    const double floor = set == "little" || set == "klein" ? 14
                         : set == "middle" || set == "mitte" ? 10 : 8;
    EXPECT_GE(solved.text_size.pt(), floor - 1e-9) << set;
    for (const PlacedLabel& a : solved.labels) {
      EXPECT_GE(a.box.left(), 3);
      EXPECT_LE(a.box.right(), solved.paper.width.mm() - 3);
      EXPECT_GE(a.box.top(), 3);
      EXPECT_LE(a.box.bottom(), solved.paper.height.mm() - 3);
      for (const PlacedLabel& b : solved.labels)
        if (a.anchor < b.anchor) {
          EXPECT_FALSE(overlap(a.box.grown(0.45), b.box.grown(0.45)))
              << set << " " << a.anchor << " " << b.anchor;
        }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Demo, One_layout, testing::Values("heart", "tooth", "eye"),
                         [](const auto& figure) { return figure.param; });

TEST(One_layout_of_a_set, Is_smaller_than_its_own_only_for_its_siblings_sake) {
  // The smallest set alone gets a larger figure than beside the largest set's many labels, or as large.
  EXPECT_GE(layout("heart", "little", false).figure_to_page.scale,
            layout("heart", "little", true).figure_to_page.scale - 1e-9);
}

}  // namespace
