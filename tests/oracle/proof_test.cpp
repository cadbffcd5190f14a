// References: the same problem seen otherwise. A proven optimum is one number, so
// a figure in a mirror, with its labels in another order, or given a placement to
// beat has the same one; and no placement found anywhere off the grid costs less
// than the continuous bound. Written without sight of the solver.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <variant>

#include "describe.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "place/verify.hpp"
#include "slot_model.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Problem;
using place::Solution;

// Figures of a size that only the proof can settle: no order of so many labels
// could be tried one by one.
Problem middling(int seed, bool rich) {
  Random random(static_cast<std::uint64_t>(seed));
  Shape shape;
  shape.labels = random.whole(14, 26);
  shape.slot = 2;
  shape.height = std::round(shape.labels * random.in(5.0, 7.0) / 2) * 2;
  shape.rich = rich;
  shape.scatter = static_cast<Scatter>(random.whole(0, 3));
  Problem problem = make_problem(random, shape);
  problem.obstacles.clear();  // a mirror would have to turn them
  problem.detail = {};
  return problem;
}

Problem in_a_mirror(const Problem& problem) {
  Problem other = problem;
  for (place::Column& c : other.columns) {
    c.edge = 200 - c.edge;
    c.side = c.side == Side::left ? Side::right : Side::left;
  }
  for (place::Label& l : other.labels) {
    l.preferred = -l.preferred;
    for (place::Target& t : l.targets)
      for (PagePoint& p : t.points) p.x = 200 - p.x;
  }
  return other;
}

const Solution* proven(const std::variant<Solution, place::Infeasible>& answer) {
  const auto* s = std::get_if<Solution>(&answer);
  return s != nullptr && s->certificate.status == SolveStatus::optimal ? s : nullptr;
}

TEST(Proof, Optimum_is_the_same_in_a_mirror_and_in_another_order) {
  int compared = 0;
  for (int seed = 1; seed <= support::instances(16); ++seed) {
    const Problem problem = middling(seed, seed % 2 == 0);
    Problem turned = in_a_mirror(problem);
    std::reverse(turned.labels.begin(), turned.labels.end());
    const auto one = place::solve(problem), two = place::solve(turned);
    const Solution *a = proven(one), *b = proven(two);
    if (!a || !b) continue;
    ++compared;
    EXPECT_NEAR(a->certificate.cost, b->certificate.cost, 1e-6) << "seed " << seed << '\n'
                                                                << describe(problem, a->placements);
  }
  std::cout << compared << " of 16 pairs proven\n";
  EXPECT_GE(compared, support::at_least(6));
}

TEST(Proof, No_bound_exceeds_what_another_grid_finds) {
  int looked_at = 0;
  for (int seed = 101; seed <= 100 + support::instances(8); ++seed) {
    const Problem problem = middling(seed, seed % 2 == 0);
    const auto answer = place::solve(problem);
    const auto* s = std::get_if<Solution>(&answer);
    if (!s) continue;
    for (const double shift : {0.3, 0.9, 1.6}) {
      // Columns that start a little lower: their placements are placements here too.
      Problem moved = problem;
      for (place::Column& c : moved.columns) c.top += shift;
      const auto other = place::solve(moved);
      const auto* t = std::get_if<Solution>(&other);
      if (!t || !place::verify(problem, *t).empty()) continue;
      ++looked_at;
      const double cost = total_cost(problem, t->placements);
      EXPECT_LE(s->certificate.continuous_bound, cost + 1e-6)
          << "seed " << seed << " shift " << shift;
    }
  }
  std::cout << looked_at << " placements of other grids\n";
  EXPECT_GE(looked_at, support::at_least(8));
}

}  // namespace
}  // namespace platewright::oracle
