// The published cost on cases worked out by hand, and the detail integral.
#include "place/cost.hpp"

#include <gtest/gtest.h>

#include "instances.hpp"
#include "place/cost_terms.hpp"
#include "place/detail.hpp"
#include "place/place.hpp"

namespace platewright::place {
namespace {

Problem one_label() {
  Problem p;
  p.columns.push_back({Side::left, 10, 0, 100, 20});
  p.weights.unit = 1;
  Label l;
  l.anchor = "a";
  l.variants.push_back({10, 4, 2, 0.25});
  l.targets.push_back({{{13, 54}}, 0.5});
  p.labels.push_back(l);
  return p;
}

TEST(Cost, Adds_length_slope_and_penalties_of_a_three_four_five_leader) {
  const Problem p = one_label();
  Placement at;
  at.side = Side::left;
  at.port = {10, 50};
  at.box = {0, 48, 10, 4};
  const CostParts c = cost(p, {at});
  EXPECT_DOUBLE_EQ(c.length, p.weights.length * 5);
  EXPECT_DOUBLE_EQ(c.slope, p.weights.slope * 16.0 / 25);  // sine 4/5
  EXPECT_DOUBLE_EQ(c.penalties, 0.75);
  EXPECT_DOUBLE_EQ(c.balance, p.weights.balance);  // all on one side
}
TEST(Cost, Adds_what_is_steeper_than_asked_for) {
  Problem p = one_label();
  p.weights.slope = 2;
  p.weights.steep = 10;
  Placement at;
  at.side = Side::left;
  at.port = {10, 50};
  at.box = {0, 48, 10, 4};
  p.weights.steep_from = 0.6;
  EXPECT_DOUBLE_EQ(cost(p, {at}).slope, 2 * 0.64 + 10 * 0.04);  // sine 4/5
  p.weights.steep_from = 0.64;
  EXPECT_DOUBLE_EQ(cost(p, {at}).slope, 2 * 0.64);
  // Of a fork each branch by itself, and their mean: one is level here.
  p.weights.steep_from = 0.6;
  p.labels[0].targets[0].points.push_back({20, 50});
  EXPECT_DOUBLE_EQ(cost(p, {at}).slope, (2 * 0.64 + 10 * 0.04) / 2);
}
TEST(Cost, Counts_the_side_that_was_not_asked_for) {
  Problem p = one_label();
  p.labels[0].preferred = 1;
  Placement at;
  at.side = Side::left;
  at.port = {10, 54};
  at.box = {0, 52, 10, 4};
  EXPECT_DOUBLE_EQ(cost(p, {at}).side, p.weights.wrong_side);
}
TEST(Cost, Is_least_for_gaps_that_are_fair) {
  Weights w;
  w.gap = 1;
  EXPECT_DOUBLE_EQ(gap_cost(w, 6, 6), 0);
  EXPECT_DOUBLE_EQ(gap_cost(w, 3, 6), 0.25);
  EXPECT_DOUBLE_EQ(gap_cost(w, 60, 6), 1);
}
TEST(Detail, Integrates_a_piecewise_constant_field_exactly) {
  DetailField f;
  f.box = {10, 10, 4, 2};
  f.columns = 4;
  f.rows = 2;
  f.values = {0, 1, 0, 1, 0.5f, 0, 0, 0.5f};
  EXPECT_NEAR(f.along({10, 10.5}, {14, 10.5}), 2, 1e-12);
  EXPECT_NEAR(f.along({0, 10.5}, {20, 10.5}), 2, 1e-12);
  EXPECT_NEAR(f.along({20, 10.5}, {0, 10.5}), 2, 1e-12);
  EXPECT_NEAR(f.along({11.5, 10}, {11.5, 12}), 1, 1e-12);
  EXPECT_NEAR(f.along({0, 0}, {5, 5}), 0, 1e-12);
  EXPECT_NEAR(f.along({3, 3}, {3, 3}), 0, 1e-12);
}
TEST(Detail, Agrees_with_a_fine_sum_along_slanting_lines) {
  Dice dice(3);
  DetailField f;
  f.box = {5, 5, 30, 20};
  f.columns = 15;
  f.rows = 9;
  for (int i = 0; i < 15 * 9; ++i) f.values.push_back(static_cast<float>(dice.between(0, 1)));
  for (int k = 0; k < 40; ++k) {
    const PagePoint a{dice.between(0, 40), dice.between(0, 30)},
        b{dice.between(0, 40), dice.between(0, 30)};
    double sum = 0;
    const int steps = 20000;
    for (int s = 0; s < steps; ++s) {
      const double t = (s + 0.5) / steps, x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y);
      if (x < 5 || x >= 35 || y < 5 || y >= 25) continue;
      sum += static_cast<double>(f.values[static_cast<std::size_t>((y - 5) / 20 * 9) * 15 +
                                          static_cast<std::size_t>((x - 5) / 30 * 15)]);
    }
    EXPECT_NEAR(f.along(a, b), sum * distance(a, b) / steps, 0.02);
  }
}
TEST(Detail, Is_the_same_by_sums_of_rows_and_columns) {
  Dice dice(7);
  DetailField f;
  f.box = {5, 5, 30, 20};
  f.columns = 100;
  f.rows = 64;
  for (int i = 0; i < f.columns * f.rows; ++i)
    f.values.push_back(dice.between(0, 1) < 0.5 ? 0.0F : static_cast<float>(dice.between(0, 1)));
  const DetailSums sums(f);
  // Ends anywhere, inside or out, on the walls between cells, and at their corners.
  const auto end = [&](int kind) {
    PagePoint p{dice.between(0, 40), dice.between(0, 30)};
    if (kind % 3 == 1) p.x = 5 + 0.3 * std::floor(dice.between(0, 101));
    if (kind % 5 == 1) p.y = 5 + 0.3125 * std::floor(dice.between(0, 65));
    return p;
  };
  for (int k = 0; k < 20'000; ++k) {
    const PagePoint a = end(k);
    PagePoint b = end(k / 2);
    if (k % 7 == 0) b.x = a.x;
    if (k % 11 == 0) b.y = a.y;
    ASSERT_NEAR(sums.along(a, b), f.along(a, b), 1e-9)
        << a.x << ' ' << a.y << ' ' << b.x << ' ' << b.y;
  }
  EXPECT_EQ(DetailSums(DetailField{}).along({0, 0}, {9, 9}), 0);
}

}  // namespace
}  // namespace platewright::place
