// Brackets along neighbours of one group: who gets one, and that no leader and no
// label is ever in their way.
#include "compose/brackets.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/random.hpp"

namespace platewright::compose {
namespace {

// A page with labels on two columns at x = 50 and x = 150, the figure between them.
struct Page_of_labels {
  Style style;
  Plan plan;
  text::Typesetter typesetter;
  SheetInput input;

  Page_of_labels() {
    style.groups.bracket = true;
    plan.frame.area = {10, 20, 180, 240};
    plan.heading_font = heading_font(style, Length::pt(12), Length::pt(8));
    input.plan = &plan;
    input.style = &style;
    input.typesetter = &typesetter;
    input.matter.language = "en";
  }
  void add(Side side, double y, const std::string& group, double width = 20) {
    PlacedLabel l;
    l.anchor = "anchor-" + std::to_string(100 + plan.layout.labels.size());
    l.side = side;
    l.group = group;
    l.port = {side == Side::left ? 50.0 : 150.0, y};
    l.box = {side == Side::left ? 49 - width : 151, y - 3, width, 6};
    l.targets = {{100, y}};
    l.leaders = {{l.port, l.targets.front()}};
    plan.layout.labels.push_back(l);
  }
};

TEST(Brackets, Run_along_neighbours_of_one_group) {
  Page_of_labels page;
  page.add(Side::left, 30, "veins");
  page.add(Side::left, 40, "veins");
  page.add(Side::left, 50, "valves");
  page.add(Side::left, 60, "veins");  // apart from the others
  page.add(Side::right, 30, "walls");
  page.add(Side::right, 40, "walls");
  page.add(Side::right, 50, "walls");
  page.add(Side::right, 60, "");
  page.add(Side::right, 70, "");
  const auto all = brackets(page.input);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].group, "veins");
  EXPECT_EQ(all[0].anchors, (std::vector<std::string>{"anchor-100", "anchor-101"}));
  EXPECT_EQ(all[0].from.y, 27);
  EXPECT_EQ(all[0].to.y, 43);
  EXPECT_EQ(all[1].group, "walls");
  EXPECT_EQ(all[1].anchors.size(), 3U);
  EXPECT_GT(all[1].from.x, 171);
  page.style.groups.bracket = false;
  EXPECT_TRUE(brackets(page.input).empty());
}

TEST(Brackets, Are_crossed_by_no_leader_and_stand_off_all_labels) {
  int headings = 0, without = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Random random(seed, "brackets");
    const auto dice = [&](std::size_t n) { return static_cast<double>(random.below(n)); };
    Page_of_labels page;
    const char* names[] = {"Veins: blood to the heart", "Valves", "Walls and coverings", ""};
    for (const Side side : {Side::left, Side::right})
      for (double y = 25 + dice(8); y < 255; y += 7 + dice(12))
        page.add(side, y, names[random.below(4)], 8 + dice(20));
    const auto all = brackets(page.input);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Bracket& b = all[i];
      EXPECT_EQ(b.from.x, b.to.x);
      for (const PlacedLabel& l : page.plan.layout.labels) {
        if (l.side != b.side) continue;
        // The line lies beyond every box, and so beyond every port and leader.
        if (b.side == Side::left) {
          EXPECT_LT(b.from.x, l.box.left() - 1);
        } else {
          EXPECT_GT(b.from.x, l.box.right() + 1);
        }
        EXPECT_FALSE(overlap(b.heading, l.box));
        for (const auto& leader : l.leaders)
          for (const PagePoint& p : leader) EXPECT_GT(std::abs(p.x - b.from.x), 1);
      }
      (b.lines.empty() ? without : headings) += 1;
      if (b.lines.empty()) continue;
      EXPECT_GE(b.heading.top(), page.plan.frame.area.top() - 1e-9);
      EXPECT_LE(b.heading.bottom(), page.plan.frame.area.bottom() + 1e-9);
      for (std::size_t j = 0; j < i; ++j)
        EXPECT_FALSE(!all[j].lines.empty() && overlap(b.heading, all[j].heading));
      EXPECT_LE(b.heading.w, bracket_room({b.group}, page.style, page.plan.heading_font, "en",
                                          page.typesetter));
    }
  }
  EXPECT_GT(headings, 300);
  EXPECT_LT(without, headings / 10);
}

}  // namespace
}  // namespace platewright::compose
