// Reference: with fixed ports and pure Euclidean length, a matching of least
// total length is free of crossings (Bekos, Kaufmann, Symvonis, Wolff, "Boundary
// labeling: models and efficient algorithms for rectangular maps", 2007; two
// crossing leaders could be exchanged for two shorter ones). So the least cost
// is that of an assignment problem, whose linear program has whole-numbered
// corners (Birkhoff); GLPK's simplex solves it. Written without sight of the solver.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <variant>
#include <vector>

#include "describe.hpp"
#include "glpk_model.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "slot_model.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

struct Matching {
  double length = 0;
  std::vector<Stroke> leaders;
};

Matching shortest_matching(const std::vector<PagePoint>& targets, const std::vector<PagePoint>& ports) {
  GlpkModel model;
  const std::size_t n = targets.size();
  std::vector<Terms> row(n), column(ports.size());
  std::vector<std::vector<int>> x(n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < ports.size(); ++j) {
      x[i].push_back(model.at_least_zero(distance(targets[i], ports[j])));
      row[i].emplace_back(x[i][j], 1.0);
      column[j].emplace_back(x[i][j], 1.0);
    }
  for (const Terms& r : row) model.equal(r, 1);
  for (const Terms& c : column) model.equal(c, 1);
  EXPECT_EQ(glp_simplex(model.get(), nullptr), 0);
  EXPECT_EQ(glp_get_status(model.get()), GLP_OPT);
  Matching matching;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < ports.size(); ++j)
      if (glp_get_col_prim(model.get(), x[i][j]) > 0.5) {
        matching.leaders.push_back({ports[j], targets[i]});
        matching.length += distance(targets[i], ports[j]);  // exact, not the simplex's sum
      }
  EXPECT_EQ(matching.leaders.size(), n);
  return matching;
}

// Labels of 6 mm with gaps of 3 mm fill each column to the last mm, so that only
// n ports can be used.
void compare(int first_seed, int count, int most, bool both) {
  int optimal = 0, feasible = 0;
  for (int seed = first_seed; seed < first_seed + support::instances(count); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    const int per_column = random.whole(1, most);
    place::Problem problem;
    const double top = 20, bottom = top + 9 * per_column - 3;
    problem.columns.push_back({Side::left, 60, top, bottom, 40});
    if (both) problem.columns.push_back({Side::right, 140, top, bottom, 40});
    problem.slot = 3;
    problem.rules = {3, 0, 0};
    problem.weights = {1, 0, 0, 0, 0, 0, 0, 1};
    std::vector<PagePoint> targets, ports;
    for (const auto& column : problem.columns)
      for (int k = 0; k < per_column; ++k) ports.push_back({column.edge, top + 3 + 9 * k});
    for (std::size_t i = 0; i < ports.size(); ++i) {
      targets.push_back({random.in(90, 110), random.in(top, bottom)});
      problem.labels.push_back({name_of(static_cast<int>(i)), {{20, 6, 3, 0}}, {{{targets[i]}, 0}}, 0, ""});
    }
    const Matching matching = shortest_matching(targets, ports);
    for (std::size_t i = 0; i < matching.leaders.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        ASSERT_FALSE(meet(matching.leaders[i], matching.leaders[j])) << "the theorem fails at seed " << seed;
    const auto answer = place::solve(problem);
    ASSERT_TRUE(std::holds_alternative<place::Solution>(answer))
        << "seed " << seed << ": " << std::get<place::Infeasible>(answer).witness << '\n'
        << describe(problem, {});
    const Certificate& c = std::get<place::Solution>(answer).certificate;
    const double tight = 1e-9 * matching.length;
    EXPECT_GE(c.cost, matching.length - tight) << "seed " << seed;
    EXPECT_LE(c.bound, matching.length + tight) << "seed " << seed;
    if (c.status == SolveStatus::optimal) {
      ++optimal;
      EXPECT_NEAR(c.cost, matching.length, tight) << "seed " << seed;
    } else {
      ++feasible;
    }
  }
  std::cout << "optimal " << optimal << ", feasible " << feasible << '\n';
}

TEST(Matching, Shortest_leaders_on_one_column_are_the_shortest_matching) { compare(1, 150, 14, false); }

TEST(Matching, Shortest_leaders_on_two_columns_are_the_shortest_matching) { compare(501, 100, 7, true); }

}  // namespace
}  // namespace platewright::oracle
