// Reference: an integer program of the slot model solved by GLPK's branch and
// cut (integer_program.cpp). Written without sight of the solver. GLPK keeps its
// own rules to some 1e-7, so costs are compared to 1e-6.
#include "integer_program.hpp"

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

using place::Infeasible;
using place::Problem;
using place::Solution;

struct Family {
  Shape shape;
  int first_seed = 0, count = 0;
  int fewest = 1;      // labels
  bool successors = false;
  int most_given_up = 0;
};

void compare(const Family& family) {
  int optimal = 0, feasible = 0, infeasible = 0, given_up = 0, largest = 0;
  int at_optimum = 0, left_the_grid = 0;
  for (int seed = family.first_seed; seed < family.first_seed + support::instances(family.count);
       ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape = family.shape;
    shape.labels = random.whole(family.fewest, family.shape.labels);
    shape.scatter = static_cast<Scatter>(random.whole(0, 3));
    Problem problem = make_problem(random, shape);
    auto exact = integer_program(problem, family.successors);
    largest = std::max(largest, exact.binaries);
    if (exact.kind == IntegerAnswer::Kind::gave_up) {
      ++given_up;
      continue;
    }
    const auto answer = place::solve(problem);
    if (const auto* no = std::get_if<Infeasible>(&answer)) {
      ++infeasible;
      EXPECT_EQ(exact.kind, IntegerAnswer::Kind::infeasible)
          << "seed " << seed << ": called infeasible (" << no->witness << "), GLPK has " << exact.cost << '\n'
          << describe(problem, {});
      continue;
    }
    const Certificate& c = std::get<Solution>(answer).certificate;
    if (exact.kind == IntegerAnswer::Kind::infeasible) {
      // Nothing on this grid: what was found lies on a finer one.
      ++infeasible;
      continue;
    }
    const double tight = 1e-6 * std::max(1.0, exact.cost);
    (c.status == SolveStatus::optimal ? optimal : feasible) += 1;
    at_optimum += c.status != SolveStatus::optimal && std::abs(c.cost - exact.cost) <= tight;
    if (c.cost < exact.cost - tight) {
      // A search that overlooked the grid's placements may have gone on to a
      // finer one (see Brute_force.Grid_with_a_placement_is_not_left_for_a_finer_one).
      ++left_the_grid;
      problem.slot /= 2;
      exact = integer_program(problem, family.successors);
      if (exact.kind != IntegerAnswer::Kind::optimal) continue;
    }
    if (c.status == SolveStatus::optimal) {
      EXPECT_NEAR(c.cost, exact.cost, tight) << "seed " << seed << '\n'
                                             << describe(problem, std::get<Solution>(answer).placements);
    } else {
      EXPECT_GE(c.cost, exact.cost - tight) << "seed " << seed;
    }
    EXPECT_LE(c.bound, exact.cost + tight) << "seed " << seed;
  }
  std::cout << "optimal " << optimal << ", feasible " << feasible << " (" << at_optimum
            << " of them at the optimum all the same, " << left_the_grid << " left the grid), infeasible " << infeasible
            << ", given up " << given_up << "; up to " << largest << " binaries\n";
  EXPECT_LE(given_up, family.most_given_up);
}

TEST(Integer_program, Agrees_with_brute_force) {
  // The reference against the other reference, so that neither is trusted alone.
  for (int seed = 1; seed <= support::instances(40); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape{.labels = random.whole(1, 4), .slot = 6, .height = 30};
    const Problem problem = make_problem(random, shape);
    const auto exact = integer_program(problem, true);
    const auto best = brute_force(problem);
    if (exact.kind == IntegerAnswer::Kind::gave_up) continue;
    ASSERT_EQ(exact.kind == IntegerAnswer::Kind::optimal, best.has_value()) << seed;
    if (best) {
      EXPECT_NEAR(exact.cost, best->cost, 1e-6 * std::max(1.0, best->cost)) << seed;
    }
  }
}

TEST(Integer_program, Agrees_on_one_column_without_pair_costs) {
  compare({{.labels = 8, .right = false, .slot = 4, .height = 62, .tallest = 7, .pairs = false}, 101, 70, 4});
}

TEST(Integer_program, Agrees_on_two_columns_without_pair_costs) {
  compare({{.labels = 14, .slot = 5, .height = 60, .tallest = 7, .rich = false, .pairs = false}, 301, 70, 7, false, 3});
}

TEST(Integer_program, Agrees_on_two_rich_columns_without_pair_costs) {
  compare({{.labels = 10, .slot = 6, .height = 54, .tallest = 7, .pairs = false}, 501, 50, 5, false, 3});
}

TEST(Integer_program, Agrees_with_successors_on_one_column) {
  compare({{.labels = 6, .right = false, .slot = 5, .height = 45, .tallest = 6, .rich = false}, 701, 40, 3, true, 2});
}

TEST(Integer_program, Agrees_with_successors_on_two_columns) {
  compare({{.labels = 6, .slot = 6, .height = 36, .tallest = 6, .rich = false}, 901, 40, 3, true, 2});
}

}  // namespace
}  // namespace platewright::oracle
