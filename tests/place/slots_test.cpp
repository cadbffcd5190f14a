// The slots of a column: the problem's own, or longer ones where it is so long that they
// would be too many.
#include <gtest/gtest.h>

#include <cmath>
#include <variant>
#include <vector>

#include "instances.hpp"
#include "place/place.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

// One column of labels of one to three lines, a target beside each.
Problem column(Dice& dice, int labels, double length, double line, double fill) {
  Problem p;
  p.columns = {{Side::left, 60, 0, length, 55}};
  double taken = 0;
  for (int i = 0; i < labels; ++i) {
    Label label;
    label.anchor = std::to_string(1000 + i);
    const double height = line * (1 + dice.below(3)) + 0.7;
    label.variants = {{dice.between(15, 50), height, height / 2, 0}};
    taken += height + p.rules.label_gap;
    p.labels.push_back(label);
  }
  p.rules.label_gap += (fill * length - taken) / labels;  // as full as asked for
  double y = 0;
  for (Label& label : p.labels) {
    const double height = label.variants.front().height + p.rules.label_gap;
    label.targets = {{{{90, (y + height / 2) / fill}}, 0}};
    y += height;
  }
  p.weights.unit = 30;
  return p;
}

// The share of its length that rounding ports' distances up to slots takes, in this order.
double lost(const Problem& p, double slot) {
  double sum = 0;
  for (std::size_t i = 1; i < p.labels.size(); ++i) {
    const Variant &a = p.labels[i - 1].variants.front(), &b = p.labels[i].variants.front();
    const double apart = a.height - a.port + p.rules.label_gap + b.port;
    sum += slot * std::ceil(apart / slot - 1e-9) - apart;
  }
  return sum / (p.columns.front().bottom - p.columns.front().top);
}

TEST(Slots, Of_a_column_of_common_length_are_the_problems_own) {
  Dice dice(1);
  Problem p = column(dice, 40, 400, 5, 0.7);
  for (const double slot : {0.5, 1.0, 2.5}) {
    p.slot = slot;
    EXPECT_EQ(slot_of(p), slot);
  }
}

TEST(Slots, Of_a_very_long_column_are_such_that_boxes_lose_little_room_on_them) {
  double by_these = 0, by_the_least = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    const double length = dice.between(2500, 6000);
    const Problem p = column(dice, 300, length, dice.between(3, 8), dice.between(0.5, 0.9));
    const double slot = slot_of(p), least = length / 2000;
    EXPECT_GE(slot, least - 1e-12) << "seed " << seed;
    EXPECT_LT(slot, 1.7 * least) << "seed " << seed;
    // As much as longer slots may cost is what they must save.
    EXPECT_LE(lost(p, slot), lost(p, least) + 0.02) << "seed " << seed;
    by_these += lost(p, slot);
    by_the_least += lost(p, least);
  }
  EXPECT_LT(by_these, 0.5 * by_the_least);
}

TEST(Slots, Of_a_very_long_column_leave_room_for_labels_that_fill_it) {
  Dice dice(7);
  constexpr double length = 3300, fill = 0.92;
  Problem p;
  p.rules.label_gap = 1.5;
  p.weights.unit = 30;
  p.columns = {{Side::left, 60, 0, length, 55}};
  for (double y = 0; y < fill * length;) {
    Label label;
    label.anchor = std::to_string(1000 + p.labels.size());
    const double height = dice.below(2) == 0 ? 6 : 11;
    label.variants = {{30, height, height / 2, 0}};
    label.targets = {{{{90, (y + height / 2) / fill}}, 0}};
    p.labels.push_back(label);
    y += height + p.rules.label_gap;
  }
  // On the shortest slots that it may have there would be no room.
  EXPECT_GT(lost(p, length / 2000), 1 - fill);
  const auto answer = solve(p, Effort{20'000});
  const auto* solution = std::get_if<Solution>(&answer);
  ASSERT_TRUE(solution != nullptr) << std::get<Infeasible>(answer).witness;
  EXPECT_TRUE(verify(p, *solution).empty());
}

TEST(Slots, Of_a_page_are_longer_where_columns_are_long_and_labels_high) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    Dice dice(seed);
    Problem p = column(dice, 12, dice.between(500, 900), 8, 0.7);
    const double slot = slot_on_page(p), length = p.columns.front().bottom;
    EXPECT_GT(slot, 1) << "seed " << seed;
    EXPECT_LE(length / slot, 300 + 1e-9) << "seed " << seed;
    EXPECT_LE(lost(p, slot), lost(p, length / 300) + 0.02) << "seed " << seed;
    // Twice as large in all, it has the same slots twice as long: a large page is no more work.
    Problem twice = p;
    twice.rules.label_gap *= 2;
    twice.columns.front().bottom *= 2;
    for (Label& label : twice.labels)
      for (Variant& v : label.variants) v.width *= 2, v.height *= 2, v.port *= 2;
    EXPECT_NEAR(slot_on_page(twice), 2 * slot, 1e-9) << "seed " << seed;
  }
}

TEST(Slots, Of_a_page_are_its_own_where_columns_are_short_or_labels_low) {
  Dice dice(3);
  Problem shorter = column(dice, 12, 290, 12, 0.7), low = column(dice, 60, 800, 3, 0.7);
  EXPECT_EQ(slot_on_page(shorter), shorter.slot);
  low.rules.label_gap = 1.5;
  EXPECT_EQ(slot_on_page(low), low.slot);
}

}  // namespace
}  // namespace platewright::place
