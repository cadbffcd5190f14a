// References: the certificate's own definitions (layout.hpp), brute force on the
// solver's grid for `bound`, and brute force on a four times finer grid for
// `continuous_bound`, which no placement off the grid may undercut. Written
// without sight of the solver.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <variant>

#include "brute_force.hpp"
#include "describe.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Problem;
using place::Solution;

void expect_consistent(const Problem& problem, const Solution& solution, const std::string& where) {
  const Certificate& c = solution.certificate;
  const double tight = 1e-9 * std::max(1.0, c.cost);
  for (const double x : {c.cost, c.bound, c.gap, c.polished_cost, c.continuous_bound, c.continuous_gap})
    EXPECT_TRUE(std::isfinite(x) && x >= 0) << where << ": " << x;
  EXPECT_LE(c.bound, c.cost + tight) << where;
  EXPECT_LE(c.polished_cost, c.cost + tight) << where;
  EXPECT_LE(c.continuous_bound, c.polished_cost + tight) << where;
  EXPECT_LE(c.continuous_bound, c.bound + tight) << where << ": the grid is a part of the plane";
  EXPECT_NEAR(c.gap, c.status == SolveStatus::optimal ? 0 : (c.cost - c.bound) / std::max(c.cost, 1e-9), 1e-9) << where;
  EXPECT_NEAR(c.continuous_gap, (c.polished_cost - c.continuous_bound) / std::max(c.polished_cost, 1e-9), 1e-9)
      << where;
  if (c.status == SolveStatus::optimal) {
    EXPECT_NEAR(c.bound, c.cost, tight) << where;
  }
  EXPECT_NEAR(c.polished_cost, total_cost(problem, solution.placements), tight) << where << "\n"
      << describe(problem, solution.placements);
}

Problem small(int seed) {
  Random random(static_cast<std::uint64_t>(seed));
  Shape shape;
  shape.labels = random.whole(1, 4);
  shape.right = random.chance(0.6);
  shape.row = random.chance(0.2);
  shape.slot = 6;
  shape.height = 30 + 6 * random.whole(0, 3);
  shape.scatter = static_cast<Scatter>(random.whole(0, 4));
  return make_problem(random, shape);
}

TEST(Certificate, Says_what_layout_hpp_says_at_any_effort) {
  for (const long nodes : {1L, 50L, 1'000L, 20'000L})
    for (int seed = 1; seed <= support::instances(40); ++seed) {
      Random random(static_cast<std::uint64_t>(seed));
      Shape shape;
      shape.labels = random.whole(1, 14);
      shape.slot = random.in(1.5, 4);
      shape.height = shape.labels * 7.0 + 20;
      shape.row = random.chance(0.2);
      shape.scatter = static_cast<Scatter>(random.whole(0, 4));
      const Problem problem = make_problem(random, shape);
      const auto answer = place::solve(problem, {nodes});
      if (const auto* s = std::get_if<Solution>(&answer))
        expect_consistent(problem, *s, "seed " + std::to_string(seed) + " nodes " + std::to_string(nodes));
    }
}

TEST(Certificate, Bound_never_exceeds_brute_force_at_any_effort) {
  for (const long nodes : {1L, 20L, 400L, 200'000L})
    for (int seed = 101; seed <= 100 + support::instances(120); ++seed) {
      const Problem problem = small(seed);
      const auto best = brute_force(problem);
      const auto answer = place::solve(problem, {nodes});
      const auto* s = std::get_if<Solution>(&answer);
      if (!s || !best) continue;
      EXPECT_LE(s->certificate.bound, best->cost + 1e-9 * best->cost)
          << "seed " << seed << " nodes " << nodes << '\n' << describe(problem, best->placements);
    }
}

TEST(Certificate, Continuous_bound_never_exceeds_a_finer_grids_optimum) {
  for (int seed = 301; seed <= 300 + support::instances(120); ++seed) {
    const Problem problem = small(seed);
    const auto answer = place::solve(problem);
    const auto* s = std::get_if<Solution>(&answer);
    if (!s) continue;
    Problem fine = problem;
    fine.slot /= 4;
    const auto best = brute_force(fine);
    if (!best) continue;
    EXPECT_LE(s->certificate.continuous_bound, best->cost + 1e-9 * best->cost)
        << "seed " << seed << '\n' << describe(problem, best->placements);
  }
}

TEST(Certificate, Same_input_gives_the_same_answer) {
  for (int seed = 501; seed <= 500 + support::instances(30); ++seed) {
    const Problem problem = small(seed);
    const auto one = place::solve(problem), two = place::solve(problem);
    ASSERT_EQ(one.index(), two.index());
    const auto* a = std::get_if<Solution>(&one);
    const auto* b = std::get_if<Solution>(&two);
    if (!a) continue;
    EXPECT_EQ(a->certificate.cost, b->certificate.cost);
    for (std::size_t i = 0; i < a->placements.size(); ++i) EXPECT_EQ(a->placements[i].box, b->placements[i].box);
  }
}

}  // namespace
}  // namespace platewright::oracle
