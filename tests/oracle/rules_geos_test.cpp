// Reference: every hard rule rechecked by GEOS (geos_rules.hpp) on what the
// solver returns, and place::verify against it on placements that were spoilt on
// purpose. Written without sight of the solver or of verify.cpp.
#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <set>
#include <tuple>
#include <variant>

#include "describe.hpp"
#include "geos_rules.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "place/verify.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Placement;
using place::Problem;
using place::Solution;

Shape any_shape(Random& random, int labels) {
  Shape shape;
  shape.labels = labels;
  shape.left = random.chance(0.9);
  shape.right = !shape.left || random.chance(0.7);
  shape.row = random.chance(0.15);
  shape.staggered = labels <= 8 && shape.left && random.chance(0.15);
  // Clusters and lines of many targets have no placement; proving so says nothing of rules.
  shape.scatter = static_cast<Scatter>(labels <= 30 ? random.whole(0, 4) : random.chance(0.7) ? 0 : 2);
  shape.slot = labels <= 30 ? random.in(1.5, 5) : 1.5;
  const bool many = labels > 8;  // plain enough to have a placement
  if (labels > 30 || (many && random.chance(0.6))) shape.rich = false;
  if (labels > 30) shape.left = shape.right = true;
  const int columns = (shape.left ? 1 : 0) + (shape.right ? 1 : 0);
  shape.height = labels * 7.5 / columns / (many ? random.in(0.3, 0.7) : random.in(0.5, 0.95)) + 8;
  return shape;
}

void expect_rules_kept(int first_seed, int count, int fewest, int most, place::Effort effort) {
  int solved = 0, infeasible = 0;
  for (int seed = first_seed; seed < first_seed + support::instances(count); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    const Shape shape = any_shape(random, random.whole(fewest, most));
    const Problem problem = make_problem(random, shape);
    const auto answer = place::solve(problem, effort);
    if (!std::holds_alternative<Solution>(answer)) {
      ++infeasible;
      continue;
    }
    ++solved;
    const auto& placements = std::get<Solution>(answer).placements;
    const auto broken = geos_rules(problem, placements, 2e-6);
    ASSERT_TRUE(broken.empty()) << "seed " << seed << ": " << broken.front().rule << ' ' << broken.front().first
                                << ' ' << broken.front().second << '\n'
                                << describe(problem, placements);
  }
  std::cout << solved << " solved, " << infeasible << " infeasible\n";
  EXPECT_GT(solved, 0);
}

TEST(Rules_by_geos, Hold_for_one_to_eight_labels) { expect_rules_kept(1, 10'000, 1, 8, {20'000}); }
TEST(Rules_by_geos, Hold_for_nine_to_thirty_labels) { expect_rules_kept(20001, 80, 9, 30, {5'000}); }
TEST(Rules_by_geos, Hold_for_sixty_labels) { expect_rules_kept(30001, 20, 40, 60, {2'000}); }
TEST(Rules_by_geos, Hold_for_a_hundred_and_twenty_labels) { expect_rules_kept(31001, 4, 120, 120, {1'000}); }
TEST(Rules_by_geos, Hold_for_five_hundred_labels) { expect_rules_kept(32001, 2, 500, 500, {500}); }

// Moves, swaps or resizes something, so that some rule breaks more often than not.
void spoil(Random& random, Problem& problem, std::vector<Placement>& placements) {
  const auto pick = [&] { return static_cast<std::size_t>(random.whole(0, static_cast<int>(placements.size()) - 1)); };
  Placement& p = placements[pick()];
  const auto shift = [](Placement& q, double dx, double dy) {
    q.box.x += dx;
    q.box.y += dy;
    q.port.x += dx;
    q.port.y += dy;
  };
  switch (random.whole(0, 7)) {
    case 0: shift(p, 0, random.in(-12, 12)); break;
    case 1: shift(p, random.in(-3, 3), 0); break;
    case 2: {
      Placement& q = placements[pick()];
      const double dy = q.port.y - p.port.y;
      if (p.side == q.side) {
        shift(p, 0, dy);
        shift(q, 0, -dy);
      }
      break;
    }
    case 3: p.box.h += random.in(-2, 2); break;
    case 4: p.port.y += random.in(-2, 2); break;
    case 5: {  // a target is moved beside another
      const PagePoint at = problem.labels[pick()].targets[0].points[0];
      problem.labels[pick()].targets[0].points[0] = {at.x + random.in(-3, 3), at.y + random.in(-3, 3)};
      break;
    }
    case 6:
      problem.obstacles.push_back({random.in(40, 130), random.in(20, 60), random.in(2, 10), random.in(2, 10)});
      break;
    default: {  // the whole page's worth of disorder
      for (Placement& q : placements) shift(q, 0, random.in(-6, 6));
    }
  }
}

using Said = std::set<std::tuple<std::string, std::string, std::string>>;

Said ordered(std::string rule, std::string a, std::string b) {
  if (rule == "leader-crossing") rule = "leader-gap";
  if (b < a && !b.empty()) std::swap(a, b);
  if (rule == "obstacle" || rule == "outside") b.clear();
  return {{rule, a, b}};
}

TEST(Rules_by_geos, Agree_with_verify_on_planted_violations) {
  int compared = 0, broken_ones = 0, complaints = 0;
  for (int seed = 50001; seed < 50001 + support::instances(4000) && complaints < 5; ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape = any_shape(random, random.whole(2, 7));
    shape.staggered = shape.row = false;
    Problem problem = make_problem(random, shape);
    const auto answer = place::solve(problem, {2'000});
    if (!std::holds_alternative<Solution>(answer)) continue;
    Solution solution = std::get<Solution>(answer);
    spoil(random, problem, solution.placements);
    Said strict, loose, theirs;
    for (const Broken& b : geos_rules(problem, solution.placements, 1e-4)) loose.merge(ordered(b.rule, b.first, b.second));
    for (const Broken& b : geos_rules(problem, solution.placements, -1e-4)) strict.merge(ordered(b.rule, b.first, b.second));
    for (const place::Violation& v : place::verify(problem, solution)) theirs.merge(ordered(v.rule, v.first, v.second));
    ++compared;
    broken_ones += !loose.empty();
    // What is broken by more than 1e-4 mm must be said; what is kept by as much must not.
    for (const auto& [rule, a, b] : loose)
      if (theirs.count({rule, a, b}) == 0 && ++complaints < 5)
        ADD_FAILURE() << "seed " << seed << ": verify is silent on " << rule << ' ' << a << ' ' << b << '\n'
                      << describe(problem, solution.placements);
    for (const auto& [rule, a, b] : theirs)
      if (strict.count({rule, a, b}) == 0 && ++complaints < 5)
        ADD_FAILURE() << "seed " << seed << ": only verify says " << rule << ' ' << a << ' ' << b << '\n'
                      << describe(problem, solution.placements);
  }
  std::cout << compared << " compared, " << broken_ones << " of them broken\n";
  EXPECT_GE(broken_ones, support::at_least(1000));
}

}  // namespace
}  // namespace platewright::oracle
