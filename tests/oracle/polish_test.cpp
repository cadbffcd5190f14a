// Reference: the convex program of ports off the grid for the solver's own order
// and choices, solved by a barrier method with a duality gap below 1e-9
// (convex_reference.hpp), and its Karush-Kuhn-Tucker conditions checked here.
// The reference knows no leaders: it is a lower bound always, and the optimum
// wherever its placement also keeps the rules of leaders. Written without sight
// of the solver.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>
#include <variant>

#include "convex_reference.hpp"
#include "describe.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "slot_model.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Placement;
using place::Problem;
using place::Solution;

bool legal(const Problem& problem, const std::vector<Placement>& placements) {
  std::vector<Option> held;
  for (std::size_t i = 0; i < placements.size(); ++i) held.push_back(option_of(problem, i, placements[i]));
  for (std::size_t i = 0; i < held.size(); ++i) {
    if (!stands_alone(problem, held[i])) return false;
    for (std::size_t j = 0; j < i; ++j)
      if (!compatible(problem, held[i], held[j])) return false;
  }
  return true;
}

// For length only. Boxes that touch form runs; within a run, each contact's
// multiplier follows from the slopes on the side where the run is free, must not
// be negative (boxes push, they do not pull), and be 0 where nothing is touched.
void expect_kkt(const Problem& problem, const std::vector<Placement>& placements, int seed) {
  constexpr double touching = 1e-4, small = 2e-3;
  for (std::size_t c = 0; c < problem.columns.size(); ++c) {
    std::map<double, std::size_t> by_y;
    for (std::size_t i = 0; i < placements.size(); ++i)
      if (static_cast<std::size_t>(placements[i].column) == c) by_y[placements[i].port.y] = i;
    struct Box {
      double top, bottom, slope;
    };
    std::vector<std::vector<Box>> runs;
    for (const auto& [y, i] : by_y) {
      const Placement& p = placements[i];
      Box box{p.box.top(), p.box.bottom(), 0};
      for (const PagePoint& q : problem.labels[i].targets[static_cast<std::size_t>(p.target)].points)
        box.slope += problem.weights.length / problem.weights.unit * (y - q.y) /
                     std::hypot(std::abs(q.x - p.port.x) - problem.stub, y - q.y);
      if (runs.empty() || box.top - runs.back().back().bottom > problem.rules.label_gap + touching)
        runs.emplace_back();
      runs.back().push_back(box);
    }
    for (auto& run : runs) {
      const bool at_top = run.front().top - problem.columns[c].top < touching;
      const bool at_foot = problem.columns[c].bottom - run.back().bottom < touching;
      double force = 0;
      if (at_top) std::reverse(run.begin(), run.end());  // from the free end
      for (const Box& box : run) {
        force += at_top ? box.slope : -box.slope;
        EXPECT_GE(force, -small) << "seed " << seed << ": boxes pull at each other";
      }
      if (!at_top && !at_foot) {
        EXPECT_NEAR(force, 0, small) << "seed " << seed << ": a free run is pushed";
      }
    }
  }
}

struct Found {
  int all = 0, sharp = 0, over = 0;
  double worst = 0;  // relative excess of polished cost over the reference, where sharp
};

Found compare(int first_seed, int count, bool gaps, double allowed) {
  Found found;
  for (int seed = first_seed; seed < first_seed + support::instances(count); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape;
    shape.labels = random.whole(1, 9);
    shape.right = random.chance(0.5);
    shape.slot = random.in(1, 4);
    shape.height = random.in(60, 110);
    shape.scatter = static_cast<Scatter>(random.whole(0, 3));
    shape.rich = false;
    shape.pairs = false;
    Problem problem = make_problem(random, shape);
    problem.weights.slope = 0;
    problem.weights.gap = gaps ? random.in(0.2, 2) : 0;
    const auto answer = place::solve(problem);
    if (!std::holds_alternative<Solution>(answer)) continue;
    const Solution& solution = std::get<Solution>(answer);
    const Certificate& c = solution.certificate;
    EXPECT_LE(c.polished_cost, c.cost + 1e-9 * c.cost) << seed;
    EXPECT_NEAR(c.polished_cost, total_cost(problem, solution.placements), 1e-9 * c.cost) << seed;
    const auto best = convex_best(problem, solution.placements);
    if (!best) continue;
    ++found.all;
    if (!gaps) {
      EXPECT_GE(c.polished_cost, best->cost - best->slackness - 1e-7 * c.cost) << seed;
      expect_kkt(problem, best->placements, seed);
    }
    if (!legal(problem, best->placements)) continue;  // leaders bind: no more than a bound
    if (gaps) {
      // The published gap cost is clipped; the program's is not. The same where no gap is clipped.
      const double wish = wished_gap(problem);
      const auto clipped = [&](const std::vector<Placement>& placements) {
        for (std::size_t i = 0; i < placements.size(); ++i)
          for (std::size_t j = 0; j < placements.size(); ++j)
            if (i != j && placements[i].column == placements[j].column &&
                placements[j].box.top() - placements[i].box.bottom() > 2 * wish)
              return true;
        return false;
      };
      if (clipped(solution.placements) || clipped(best->placements)) continue;
    }
    ++found.sharp;
    const double excess = (c.polished_cost - best->cost) / best->cost;
    found.worst = std::max(found.worst, excess);
    if (excess > allowed) {
      ++found.over;
      if (found.over <= 2)
        ADD_FAILURE() << "seed " << seed << ": polished " << c.polished_cost << ", best " << best->cost << " ("
                      << excess << " more)\n"
                      << describe(problem, solution.placements) << "best:\n"
                      << describe(problem, best->placements);
    }
  }
  std::cout << found.all << " compared, " << found.sharp << " sharp, " << found.over
            << " over, worst relative excess " << found.worst << '\n';
  EXPECT_GE(found.sharp, support::at_least(count / 10));
  EXPECT_EQ(found.over, 0);
  return found;
}

// One label near its column's top: the best port is the top itself.
TEST(Polish, Reaches_the_end_of_a_column) {
  Problem problem;
  problem.columns = {{Side::left, 60, 10, 97, 50}};
  problem.slot = 10;
  problem.weights = {1, 0, 0, 0, 0, 0, 0, 1};
  problem.labels = {{"a", {{20, 6, 3, 0}}, {{{{100, 8}}, 0}}, 0, ""}};
  const auto answer = place::solve(problem);
  ASSERT_TRUE(std::holds_alternative<Solution>(answer));
  EXPECT_NEAR(std::get<Solution>(answer).placements[0].port.y, 13, 1e-3);
}

TEST(Polish, Is_the_convex_optimum_for_leader_length) { compare(1, 400, false, 1e-4); }

TEST(Polish, Is_the_convex_optimum_for_leader_length_and_even_gaps) { compare(1001, 300, true, 1e-4); }

}  // namespace
}  // namespace platewright::oracle
