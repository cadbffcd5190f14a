// Pages that are not calm: columns that are moved, figures that are shifted. What they promise,
// over random pages.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <variant>

#include "instances.hpp"
#include "place/cost.hpp"
#include "place/place.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

// A figure whose anchors lie between a tenth and half of its height, from the top or, `low`, from
// the foot, with labels so high on both sides.
FitRequest page(std::uint64_t seed, bool low, double high) {
  Dice dice(seed);
  FitRequest r;
  r.area = {12.7, 30, 190.5, 220};
  r.painted = {0, 0, 100, 100};
  r.text_pt = {12};
  r.weights.unit = 15;
  for (int i = 0; i < 12; ++i) {
    FitLabel l;
    l.anchor = "anchor-" + std::to_string(1000 + i);
    l.variants.push_back({{dice.between(15, 40), high, high / 2, 0}});
    l.number = {7, 4.5, 2.25, 0};
    l.targets.push_back({{{dice.between(5, 95), low ? dice.between(50, 90) : dice.between(10, 50)}}, 0});
    r.labels.push_back(l);
  }
  return r;
}

// Solved, and not calm by a little: its steepest leaders are so much steeper than they may be.
Fit nearly_calm(FitRequest& r, double steeper) {
  Fit found = std::get<Fit>(fit(r, {20'000}));
  r.calm = {9, spreads(found.problem, found.solution).angle_p95 / steeper, 9, 1, 1};
  return found;
}

double unrest_of(const FitRequest& r, const Problem& problem, const Solution& solution) {
  return unrest(metrics(problem, solution), r.calm);
}

TEST(Calm, Spreads_are_the_metrics_but_for_what_leaders_cross) {
  const FitRequest r = page(1, true, 12);
  const Fit f = std::get<Fit>(fit(r, {20'000}));
  LayoutMetrics all = metrics(f.problem, f.solution), some = spreads(f.problem, f.solution);
  EXPECT_GT(some.leader_length, 0);
  for (const auto part :
       {&LayoutMetrics::leader_length, &LayoutMetrics::shortest_length, &LayoutMetrics::angle_p95,
        &LayoutMetrics::gap_variation, &LayoutMetrics::balance, &LayoutMetrics::least_balance})
    EXPECT_EQ(all.*part, some.*part);
}

TEST(Calm, Columns_are_moved_whole_and_only_where_that_halves_unrest_for_hardly_any_cost) {
  int moved = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    FitRequest r = page(seed, seed % 2 == 0, 12);
    const Fit before = nearly_calm(r, 1.01);
    Solution after = before.solution;
    ease(before.problem, r.calm, after);
    EXPECT_TRUE(verify(before.problem, after).empty()) << "seed " << seed;
    const Certificate &a = before.solution.certificate, &b = after.certificate;
    EXPECT_LE(b.polished_cost, b.cost + 1e-9) << "seed " << seed;
    EXPECT_LE(b.bound, b.cost + 1e-9) << "seed " << seed;
    EXPECT_EQ(b.bound, a.bound) << "seed " << seed;
    EXPECT_LE(b.cost, a.status == SolveStatus::optimal ? a.cost + 1e-9 : 1.005 * a.cost + 1e-9);
    EXPECT_NEAR(cost(before.problem, after.placements).total(), b.polished_cost, 1e-9);
    double by[2] = {0, 0};
    bool known[2] = {false, false}, any = false;
    for (std::size_t i = 0; i < after.placements.size(); ++i) {
      const Placement &p = before.solution.placements[i], &q = after.placements[i];
      const int side = p.side == Side::left ? 0 : 1;
      EXPECT_EQ(q.side, p.side);
      EXPECT_EQ(q.port.x, p.port.x);
      if (known[side]) {
        EXPECT_NEAR(q.port.y - p.port.y, by[side], 1e-9) << "seed " << seed;
      }
      by[side] = q.port.y - p.port.y, known[side] = true;
      any = any || std::abs(by[side]) > 1e-9;
    }
    const double least = unrest_of(r, before.problem, before.solution);
    if (any) {
      EXPECT_LE(unrest_of(r, before.problem, after), 0.5 * least + 1e-9) << "seed " << seed;
    }
    moved += any;
  }
  EXPECT_GT(moved, 3);
}

TEST(Calm, A_figure_is_shifted_towards_the_middle_of_its_labels) {
  int moved = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    FitRequest r = page(seed, seed % 2 == 0, 30);
    const Fit before = nearly_calm(r, 1.02);
    const double least = unrest_of(r, before.problem, before.solution);
    const auto after = shifted(r, before, {20'000});
    if (!after) continue;
    ++moved;
    EXPECT_TRUE(verify(after->problem, after->solution).empty()) << "seed " << seed;
    EXPECT_LE(unrest_of(r, after->problem, after->solution), 0.5 * least + 1e-9);
    const double by = after->figure_to_page.origin.y - before.figure_to_page.origin.y;
    EXPECT_GT(seed % 2 == 0 ? -by : by, 0) << "seed " << seed;
    const PageBox figure = after->figure_to_page(r.painted);
    EXPECT_GE(figure.top(), r.area.top() - 1e-9) << "seed " << seed;
    EXPECT_LE(figure.bottom(), r.area.bottom() + 1e-9) << "seed " << seed;
    EXPECT_EQ(after->figure_to_page.scale, before.figure_to_page.scale);
    // The problem is the one of the figure where it is now.
    for (std::size_t i = 0; i < r.labels.size(); ++i) {
      const PagePoint told = after->problem.labels[i].targets.front().points.front();
      const PagePoint is = after->figure_to_page(r.labels[i].targets.front().points.front());
      EXPECT_NEAR(distance(told, is), 0, 1e-9) << "seed " << seed;
    }
    const Certificate& c = after->solution.certificate;
    EXPECT_NEAR(cost(after->problem, after->solution.placements).total(), c.polished_cost, 1e-9);
    EXPECT_LE(c.bound, c.cost + 1e-9);
  }
  EXPECT_GT(moved, 3);
}

TEST(Calm, A_calm_page_stays_as_it_is) {
  FitRequest r = page(2, true, 12);
  const Fit before = nearly_calm(r, 0.99);
  Solution after = before.solution;
  ease(before.problem, r.calm, after);
  for (std::size_t i = 0; i < after.placements.size(); ++i)
    EXPECT_EQ(after.placements[i].port.y, before.solution.placements[i].port.y);
  EXPECT_FALSE(shifted(r, before, {20'000}).has_value());
}

}  // namespace
}  // namespace platewright::place
