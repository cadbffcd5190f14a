// Labels inside their regions. Reference: GEOS (geos_rules.hpp) for the hard rules, a search
// through all places for who fits at all.
#include "place/inside.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "describe.hpp"
#include "geos_rules.hpp"
#include "place/verify.hpp"
#include "random.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using namespace place;

// An oval of free cells around the anchor, with a line across it now and then.
std::shared_ptr<const FigureRoom> oval(Random& random, FigurePoint at) {
  auto room = std::make_shared<FigureRoom>();
  const double w = random.in(10, 60), h = random.in(8, 40);
  room->box = {at.x - w / 2, at.y - h / 2, w, h};
  room->columns = random.whole(20, 49);
  room->rows = random.whole(20, 49);
  const int line = random.chance(1.0 / 3) ? random.whole(0, room->rows - 1) : -1;
  for (int r = 0; r < room->rows; ++r)
    for (int c = 0; c < room->columns; ++c) {
      const double x = 2 * (c + 0.5) / room->columns - 1, y = 2 * (r + 0.5) / room->rows - 1;
      room->free.push_back(x * x + y * y < 1 && r != line ? 1 : 0);
    }
  return room;
}

FitRequest request(Random& random, int labels) {
  FitRequest r;
  r.area = {12, 30, 190, 220};
  r.painted = {0, 0, 160, 200};
  r.text_pt = {14, 10};
  r.weights.unit = 19;
  for (int i = 0; i < labels; ++i) {
    FitLabel l;
    l.anchor = std::string("anchor-").append(std::to_string(100 + i));
    const double letters = random.in(3, 12);
    for (const double pt : r.text_pt) {
      const double em = pt * 25.4 / 72;
      l.variants.push_back({{letters * 0.5 * em, 1.25 * em, 0.625 * em, 0}});
    }
    l.number = {7, 4.5, 2.25, 0};
    const FigurePoint at{random.in(10, 150), random.in(10, 190)};
    l.targets.push_back({{at}, 0});
    if (random.chance(0.5)) l.room = oval(random, at);
    r.labels.push_back(std::move(l));
  }
  return r;
}

TEST(Inside, Keeps_every_rule_by_GEOS_too) {
  int inside = 0, beside = 0;
  for (int seed = 1; seed <= support::instances(150); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    const FitRequest r = request(random, random.whole(2, 10));
    const auto answer = fit(r, {20'000, 0});
    const Fit* found = std::get_if<Fit>(&answer);
    ASSERT_NE(found, nullptr) << seed;
    ASSERT_EQ(found->solution.placements.size(), r.labels.size());
    for (const Violation& v : verify(found->problem, found->solution))
      ADD_FAILURE() << seed << " " << v.rule << " " << v.first << " " << v.second << " " << v.amount;
    for (const Broken& b : geos_rules(found->problem, found->solution.placements))
      ADD_FAILURE() << seed << " " << b.rule << " " << b.first << " " << b.second;
    for (std::size_t i = 0; i < r.labels.size(); ++i) {
      const bool in = found->solution.placements[i].side == Side::inside;
      inside += in;
      beside += !in;
      if (in) {
        EXPECT_NE(r.labels[i].room, nullptr);
        EXPECT_EQ(found->text_step, 0);
      }
    }
  }
  EXPECT_GE(inside, support::at_least(151));
  EXPECT_GE(beside, support::at_least(301));
}

TEST(Inside, Finds_a_place_whenever_there_is_one) {
  int fits = 0;
  for (int seed = 1; seed <= support::instances(300); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Label label;
    label.anchor = "one";
    const FigurePoint at{random.in(20, 40), random.in(20, 40)};
    label.room = on_page(*oval(random, at), FigureToPage{1, {0, 0}});
    const double w = random.in(4, 30), h = random.in(3, 12);
    label.variants.push_back({w, h, h / 2, 0});
    label.targets.push_back({{{at.x, at.y}}, 0});
    Label other;
    other.anchor = "other";
    other.targets.push_back({{{at.x + random.in(-9, 9), at.y + random.in(-9, 9)}}, 0});
    const Rules rules;
    const auto place = place_inside(label, {other}, {}, {}, rules);
    // Every place whose surroundings are whole cells, by looking at each cell.
    const Room& room = *label.room;
    const double cw = room.box.w / room.columns, ch = room.box.h / room.rows;
    bool any = false;
    for (int r = 0; r < room.rows && !any; ++r)
      for (int c = 0; c < room.columns && !any; ++c) {
        const PageBox around{room.box.x + c * cw, room.box.y + r * ch,
                             std::ceil((w + 3 - 1e-9) / cw) * cw, std::ceil((h + 3 - 1e-9) / ch) * ch};
        const PagePoint middle = around.centre();
        const PageBox kept = kept_free({middle.x - w / 2, middle.y - h / 2, w, h}, rules);
        const PagePoint p = other.targets[0].points[0];
        const double dx = std::max({kept.left() - p.x, 0.0, p.x - kept.right()}),
                     dy = std::max({kept.top() - p.y, 0.0, p.y - kept.bottom()});
        any = holds(room, around) && std::hypot(dx, dy) >= rules.anchor_gap + 1e-6;
      }
    EXPECT_EQ(place.has_value(), any) << seed;
    fits += any;
    EXPECT_TRUE(!place || holds(room, place->box)) << seed;
  }
  EXPECT_GE(fits, support::at_least(51));
  EXPECT_LT(fits, 250);
}

}  // namespace
}  // namespace platewright::oracle
