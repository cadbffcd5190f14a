// What a table and a style may ask of a layout, each on a real sheet: sides, forks, stubs,
// rows, labels inside their regions.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "platewright/engine.hpp"
#include "support/scratch.hpp"

namespace {

using platewright::Layout;
using platewright::PageBox;
using platewright::PlacedLabel;
using platewright::Side;

// A pale pond 160 x 100 with a dark stone, and anchors by name.
class Sheets {
 public:
  Sheets() {
    support::write(scratch_ / "pond.svg", R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 140">
<rect x="20" y="20" width="160" height="100" fill="#cfe8f5" data-anchor="water"/>
<rect x="30" y="90" width="30" height="20" fill="#333333" data-anchor="stone"/>
<rect x="100" y="95" width="6" height="5" fill="#ffffff" data-anchor="pebble"/>
<circle id="anchor-frog" cx="50" cy="40" r="2"/><circle id="anchor-newt" cx="150" cy="40" r="2"/>
<circle id="anchor-snail" cx="150" cy="100" r="2"/>
</svg>)");
  }
  Layout layout(const std::string& rows, const std::string& style = {}, const std::string& paper = "a4",
                std::vector<platewright::SheetKind> kinds = {platewright::SheetKind::poster}) {
    support::write(scratch_ / "pond.terms.yaml", "figure: pond.svg\nsets: {m: {ages: 11-14, language: en}}\nterms:\n" + rows);
    support::write(scratch_ / "asked.yaml", "extends: classroom\n" + style);
    platewright::SheetRequest request;
    request.figure = scratch_ / "pond.svg";
    request.terms = scratch_ / "pond.terms.yaml";
    request.set = "m";
    request.paper = paper;
    request.style = scratch_ / "asked.yaml";
    request.kinds = std::move(kinds);
    if (printed_) request.report = scratch_ / "pond.json";
    auto solved = platewright::solve_layout(request, platewright::usual_environment());
    EXPECT_TRUE(solved.ok()) << (solved.ok() ? "" : to_text(solved.findings().front()));
    return solved.ok() ? *solved : Layout{};
  }
  // Prints a poster with a report, which later layouts keep to.
  void print(const std::string& rows) {
    layout(rows);
    platewright::SheetRequest request;
    request.figure = scratch_ / "pond.svg";
    request.terms = scratch_ / "pond.terms.yaml";
    request.set = "m";
    request.style = scratch_ / "asked.yaml";
    request.kinds = {platewright::SheetKind::poster};
    request.out = scratch_ / "pond-poster.svg";
    request.report = scratch_ / "pond.json";
    EXPECT_TRUE(platewright::make_sheets(request, platewright::usual_environment()).ok());
    printed_ = true;
  }

 private:
  support::Scratch scratch_;
  bool printed_ = false;
};

const PlacedLabel& label(const Layout& layout, const std::string& anchor) {
  static const PlacedLabel none;
  const PlacedLabel* found = layout.find(anchor);
  EXPECT_NE(found, nullptr) << anchor;
  return found ? *found : none;
}

TEST(Model_sheets, A_row_s_side_wins_over_the_nearer_one) {
  Sheets sheets;
  EXPECT_EQ(label(sheets.layout("  frog: {m: Frog}\n  newt: {m: Newt}\n"), "frog").side, Side::left);
  const Layout asked = sheets.layout("  frog: {m: Frog, side: right}\n  newt: {m: Newt, side: left}\n");
  EXPECT_EQ(label(asked, "frog").side, Side::right);
  EXPECT_EQ(label(asked, "newt").side, Side::left);
}

TEST(Model_sheets, A_stub_runs_level_before_the_oblique_part) {
  Sheets sheets;
  const Layout layout = sheets.layout("  frog: {m: Frog}\n  newt: {m: Newt}\n  snail: {m: Snail}\n  stone: {m: Stone}\n",
                                      "leader: {stub: 4 mm}\n");
  for (const PlacedLabel& l : layout.labels) {
    ASSERT_EQ(l.leaders.front().size(), 3U) << l.anchor;
    EXPECT_EQ(l.leaders.front()[0].y, l.leaders.front()[1].y);
    EXPECT_NEAR(std::abs(l.leaders.front()[1].x - l.leaders.front()[0].x), 4, 1e-9);
  }
}

TEST(Model_sheets, One_label_points_to_all_its_points) {
  Sheets sheets;
  const Layout layout = sheets.layout("  frog: {m: Frog}\n  legs: {m: Legs}\nanchors: {legs: {at: [[70, 60], [70, 75], [75, 90]]}}\n");
  EXPECT_EQ(label(layout, "legs").leaders.size(), 3U);
  EXPECT_EQ(label(layout, "legs").targets.size(), 3U);
}

TEST(Model_sheets, Rows_take_what_full_columns_leave) {
  Sheets sheets;
  std::string rows, anchors = "anchors:\n";
  for (int i = 0; i < 36; ++i) {
    const std::string name = "p" + std::to_string(10 + i);
    rows += "  " + name + ": {m: Plant " + std::to_string(i) + "}\n";
    anchors += "  " + name + ": {at: [" + std::to_string(25 + 30 * (i % 6)) + ", " + std::to_string(25 + 17 * (i / 6)) + "]}\n";
  }
  const Layout layout = sheets.layout(rows + anchors, "leader: {gutter: 4 mm}\n", "a6");
  const auto across = std::count_if(layout.labels.begin(), layout.labels.end(), [](const PlacedLabel& l) {
    return l.side == Side::top || l.side == Side::bottom;
  });
  EXPECT_GT(across, 3);
  EXPECT_TRUE(std::any_of(layout.fallbacks.begin(), layout.fallbacks.end(), [](const auto& f) { return f.step == "rows"; }));
}

// Of either side of the straight line through the first two.
double turn(platewright::PagePoint a, platewright::PagePoint b, platewright::PagePoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

TEST(Model_sheets, A_second_column_takes_what_columns_and_rows_leave) {
  Sheets sheets;
  std::string rows, anchors = "anchors:\n";
  for (int i = 0; i < 18; ++i) {
    const std::string name = "p" + std::to_string(10 + i);
    rows += "  " + name + ": {m: Long name of water plant " + std::to_string(10 + i) + "}\n";
    anchors += "  " + name + ": {at: [" + std::to_string(25 + 150 * (i * 7 % 18) / 18) + ", " +
               std::to_string(25 + 5 * i) + "]}\n";
  }
  const Layout layout = sheets.layout(rows + anchors, {}, "500x100mm");
  EXPECT_TRUE(std::any_of(layout.fallbacks.begin(), layout.fallbacks.end(),
                          [](const auto& f) { return f.step == "second-column"; }));
  // Boxes end at two lines on a side.
  std::map<Side, std::set<long>> lines;
  for (const PlacedLabel& l : layout.labels)
    lines[l.side].insert(std::lround(10 * (l.side == Side::left ? l.box.right() : l.box.left())));
  std::size_t columns = 0;
  for (const auto& [side, at] : lines) {
    EXPECT_TRUE(side == Side::left || side == Side::right);
    columns += at.size();
  }
  EXPECT_GE(columns, 3U);
  EXPECT_LE(columns, 4U);
  // Leaders from the outer column run between the inner labels, and cross none.
  for (const PlacedLabel& l : layout.labels) {
    const auto from = l.leaders.front().front(), to = l.leaders.front().back();
    for (const PlacedLabel& other : layout.labels) {
      if (&other == &l) continue;
      EXPECT_FALSE(overlap(l.box, other.box)) << l.anchor << ' ' << other.anchor;
      for (int k = 0; k <= 2000; ++k) {
        const platewright::PagePoint p{from.x + (to.x - from.x) * k / 2000,
                                       from.y + (to.y - from.y) * k / 2000};
        ASSERT_FALSE(other.box.contains(p)) << l.anchor << " runs over " << other.anchor;
      }
      const auto a = other.leaders.front().front(), b = other.leaders.front().back();
      EXPECT_FALSE(turn(from, to, a) * turn(from, to, b) < 0 && turn(a, b, from) * turn(a, b, to) < 0)
          << l.anchor << " crosses " << other.anchor;
    }
  }
}

TEST(Model_sheets, A_label_stands_inside_a_calm_light_region_with_room_for_it) {
  Sheets sheets;
  const std::string rows = "  frog: {m: Frog}\n  newt: {m: Newt}\n  snail: {m: Snail}\n  stone: {m: Stone, inside: yes}\n";
  const Layout beside = sheets.layout(rows + "  water: {m: Water}\n");
  EXPECT_NE(label(beside, "water").side, Side::inside);
  for (const auto& layout : {sheets.layout(rows + "  water: {m: Water, inside: yes}\n"),
                             sheets.layout(rows + "  water: {m: Water}\n", "leader: {inside: yes}\n")}) {
    const PlacedLabel& water = label(layout, "water");
    EXPECT_EQ(water.side, Side::inside);
    EXPECT_TRUE(water.leaders.empty());
    const PageBox pond = layout.figure_to_page(platewright::FigureBox{20, 20, 160, 100});
    const PageBox stone = layout.figure_to_page(platewright::FigureBox{30, 90, 30, 20});
    EXPECT_TRUE(pond.contains({water.box.left(), water.box.top()}));
    EXPECT_TRUE(pond.contains({water.box.right(), water.box.bottom()}));
    EXPECT_FALSE(overlap(stone, water.box));
    // Black ink on a dark stone could not be read.
    EXPECT_NE(label(layout, "stone").side, Side::inside);
    for (const PlacedLabel& other : layout.labels)
      for (const auto& t : other.targets)
        EXPECT_FALSE(other.anchor != "water" && water.box.grown(0.99).contains(t)) << other.anchor;
  }
  const Layout refused = sheets.layout(rows + "  water: {m: Water, inside: no}\n", "leader: {inside: yes}\n");
  EXPECT_NE(label(refused, "water").side, Side::inside);
}

TEST(Model_sheets, A_label_inside_stays_when_a_term_is_added) {
  Sheets sheets;
  const std::string rows = "  frog: {m: Frog}\n  newt: {m: Newt}\n  water: {m: Water, inside: yes}\n";
  const Layout before = sheets.layout(rows);
  sheets.print(rows);
  const Layout after = sheets.layout(rows + "  snail: {m: Snail}\n");
  EXPECT_EQ(after.figure_to_page.scale, before.figure_to_page.scale);
  EXPECT_EQ(label(after, "water").side, Side::inside);
  EXPECT_NEAR(label(after, "water").box.x, label(before, "water").box.x, 0.05);
  EXPECT_NEAR(label(after, "water").box.y, label(before, "water").box.y, 0.05);
  for (const char* name : {"frog", "newt"})
    EXPECT_NEAR(label(after, name).port.y, label(before, name).port.y, 0.05) << name;
}

TEST(Model_sheets, A_label_too_large_for_its_region_stands_beside) {
  Sheets sheets;
  const Layout layout = sheets.layout("  frog: {m: Frog}\n  pebble: {m: Round pebble, inside: yes}\n");
  EXPECT_NE(label(layout, "pebble").side, Side::inside);
  EXPECT_FALSE(label(layout, "pebble").leaders.empty());
}

}  // namespace
