// Reference: every assignment of labels to slots, columns, variants and targets
// (brute_force.hpp), on the grid stated in slot_model.hpp. Written without sight
// of the solver.
#include "brute_force.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <variant>

#include "describe.hpp"
#include "instances.hpp"
#include "place/cost.hpp"
#include "place/place.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Infeasible;
using place::Problem;
using place::Solution;

struct Tally {
  int optimal = 0, feasible = 0, infeasible = 0;
  int at_optimum = 0;  // of the merely feasible
  int left_the_grid = 0;  // though it has a placement
  int refined = 0, unchecked = 0;  // of these: solved on a finer grid; finer than brute force goes
};

bool keeps_the_rules(const Problem& problem, const Solution& solution) {
  std::vector<Option> held;
  for (std::size_t i = 0; i < problem.labels.size(); ++i)
    held.push_back(option_of(problem, i, solution.placements[i]));
  for (std::size_t i = 0; i < held.size(); ++i) {
    if (!stands_alone(problem, held[i], 2 * tolerance)) return false;
    for (std::size_t j = 0; j < i; ++j)
      if (!compatible(problem, held[i], held[j], 2 * tolerance)) return false;
  }
  return true;
}

// Where the grid has no placement the solver may halve the slot and try again
// (seen from outside; DESIGN: infeasible on the grid is not infeasible). What it
// then proves is the optimum of the first halved grid that has one.
std::optional<Best> on_the_first_grid_that_fits(Problem problem, int halvings) {
  for (int h = 0; h <= halvings; ++h, problem.slot /= 2)
    if (auto best = brute_force(problem)) return best;
  return std::nullopt;
}

void compare(const Problem& problem, int seed, Tally& tally) {
  auto best = brute_force(problem);
  const auto answer = place::solve(problem);
  if (const auto* no = std::get_if<Infeasible>(&answer)) {
    ++tally.infeasible;
    if (best)
      ADD_FAILURE() << "seed " << seed << ": called infeasible (" << no->witness
                    << ") but brute force has cost " << best->cost << "\n"
                    << describe(problem, best->placements);
    return;
  }
  const Solution& solution = std::get<Solution>(answer);
  const Certificate& c = solution.certificate;
  if (!keeps_the_rules(problem, solution))
    ADD_FAILURE() << "seed " << seed << ": a hard rule is broken\n" << describe(problem, solution.placements);
  if (!best) {
    ++tally.refined;
    best = on_the_first_grid_that_fits(problem, 3);
    if (!best) {
      // Finer than we can go through: nothing proven here but the rules.
      ++tally.unchecked;
      return;
    }
  }
  const double tight = 1e-9 * std::max(1.0, best->cost);
  if (c.status == SolveStatus::optimal)
    ++tally.optimal;
  else
    ++tally.feasible;
  tally.at_optimum += c.status != SolveStatus::optimal && std::abs(c.cost - best->cost) <= tight;
  // A search that overlooked this grid's placements may have gone on to a finer
  // one; the certificate is then one of that grid. (That it should not is
  // Brute_force.Grid_with_a_placement_is_not_left_for_a_finer_one.)
  Problem finer = problem;
  double least = best->cost;
  bool proven = std::abs(c.cost - least) <= tight;
  for (int h = 0; h < 3 && c.cost < least - tight && !proven; ++h) {
    finer.slot /= 2;
    if (const auto better = brute_force(finer)) {
      least = std::min(least, better->cost);
      proven = std::abs(c.cost - better->cost) <= tight;
    }
    tally.left_the_grid += h == 0;
  }
  if (c.cost < least - tight || (c.status == SolveStatus::optimal && !proven))
    ADD_FAILURE() << "seed " << seed << ": called " << (c.status == SolveStatus::optimal ? "optimal" : "feasible")
                  << " at " << c.cost << ", bound " << c.bound << "; brute force " << least << "\n"
                  << describe(problem, best->placements) << "solver's:\n"
                  << describe(problem, solution.placements);
  if (c.bound > best->cost + tight)
    ADD_FAILURE() << "seed " << seed << ": bound " << c.bound << " above brute force " << best->cost;
}

void run(Shape shape, int first_seed, int count, int least_infeasible = 0) {
  Tally tally;
  for (int seed = first_seed;
       seed < first_seed + support::instances(count) && !::testing::Test::HasFatalFailure();
       ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape now = shape;
    now.labels = random.whole(1, shape.labels);
    now.scatter = static_cast<Scatter>(random.whole(0, 4));
    now.height = shape.height + 5 * random.whole(0, 4);
    compare(make_problem(random, now), seed, tally);
  }
  ::testing::Test::RecordProperty("optimal", tally.optimal);
  ::testing::Test::RecordProperty("feasible", tally.feasible);
  ::testing::Test::RecordProperty("infeasible", tally.infeasible);
  ::testing::Test::RecordProperty("refined", tally.refined);
  ::testing::Test::RecordProperty("unchecked", tally.unchecked);
  std::cout << "optimal " << tally.optimal << ", feasible " << tally.feasible << " (" << tally.at_optimum
            << " of them at the optimum all the same), infeasible "
            << tally.infeasible << ", refined " << tally.refined << ", unchecked " << tally.unchecked
            << ", left the grid " << tally.left_the_grid << '\n';
  EXPECT_GE(tally.infeasible, support::at_least(least_infeasible));
}

TEST(Grid, Ports_lie_on_whole_slots_from_the_top) {
  // One label, cost = its length: the cost tells where the nearest slot lies.
  for (const double slot : {10.0, 7.0, 3.0, 1.5})
    for (double y = 21; y < 80; y += 3.7) {
      Problem problem;
      problem.columns = {{Side::left, 60, 20, 80, 40}};
      problem.slot = slot;
      problem.weights = {1, 0, 0, 0, 0, 0, 0, 1};
      problem.labels = {{"a", {{20, 6, 2.5, 0}}, {{{{100, y}}, 0}}, 0, ""}};
      const auto best = brute_force(problem);
      const auto answer = place::solve(problem);
      ASSERT_TRUE(std::holds_alternative<Solution>(answer));
      ASSERT_TRUE(best);
      EXPECT_NEAR(std::get<Solution>(answer).certificate.cost, best->cost, 1e-9) << slot << ' ' << y;
    }
}

TEST(Cost, Agrees_with_its_second_writing) {
  for (int seed = 1; seed <= support::instances(300); ++seed) {
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape;
    shape.labels = random.whole(1, 8);
    shape.row = random.chance(0.3);
    const Problem problem = make_problem(random, shape);
    std::vector<place::Placement> anyhow;
    for (const auto& of_label : options(problem))
      if (!of_label.empty())
        anyhow.push_back(of_label[static_cast<std::size_t>(random.whole(0, static_cast<int>(of_label.size()) - 1))].placement);
    if (anyhow.size() != problem.labels.size()) continue;
    const double ours = total_cost(problem, anyhow);
    EXPECT_NEAR(place::cost(problem, anyhow).total(), ours, 1e-9 * std::max(1.0, ours)) << seed;
  }
}

TEST(Brute_force, Agrees_on_one_column) {
  run({.labels = 5, .right = false, .slot = 3, .height = 35}, 1, 300);
}

TEST(Brute_force, Agrees_on_two_columns) {
  run({.labels = 5, .slot = 4, .height = 30}, 1001, 350);
}

TEST(Brute_force, Agrees_on_six_plain_labels) {
  run({.labels = 6, .slot = 5, .height = 35, .rich = false}, 2001, 200);
}

TEST(Brute_force, Agrees_on_tight_and_infeasible_columns) {
  run({.labels = 6, .right = false, .slot = 3, .height = 22}, 3001, 250, 40);
}

TEST(Brute_force, Agrees_with_a_top_row) {
  run({.labels = 4, .right = false, .row = true, .slot = 6, .height = 25}, 4001, 150);
}

// Eight plain labels in two columns have a placement on the 5 mm grid (cost
// 93.1), which the search must not overlook: `cost`, `bound` and `optimal` are
// those "on the grid", and a finer one is only for grids that have none.
TEST(Brute_force, Grid_with_a_placement_is_not_left_for_a_finer_one) {
  Problem problem;
  problem.columns = {{Side::left, 60, 20, 80, 40}, {Side::right, 140, 20, 80, 40}};
  problem.slot = 5;
  problem.weights = {1, 1.677459898, 0, 8, 0, 0, 0, 2.94656302};
  const std::vector<std::pair<double, PagePoint>> given{
      {4.581500902, {121.83304, 61.44611848}},  {5.975965339, {116.8676589, 60.87253257}},
      {6.688224817, {114.3318962, 60.32360187}}, {4.2, {122.155234, 68.35251412}},
      {5.086905527, {123.2224118, 58.81582033}}, {4.445305759, {121.1877992, 64.14886673}},
      {4.2, {123.9514473, 63.78987836}},         {4.2, {118.0428843, 56.49748625}}};
  for (const auto& [height, at] : given)
    problem.labels.push_back({name_of(static_cast<int>(problem.labels.size())),
                              {{20, height, height / 2, 0}},
                              {{{at}, 0}},
                              0,
                              ""});
  const auto best = brute_force(problem);
  ASSERT_TRUE(best);
  const auto answer = place::solve(problem);
  ASSERT_TRUE(std::holds_alternative<Solution>(answer));
  EXPECT_GE(std::get<Solution>(answer).certificate.cost, best->cost - 1e-9)
      << "this grid's optimum is\n" << describe(problem, best->placements);
}

// Two labels, one placement: the outer column's forked leader passes above and
// below the inner label, whose leader runs between the fork's branches.
TEST(Brute_force, Staggered_fork_around_an_inner_label_is_not_infeasible) {
  Problem problem;
  problem.columns = {{Side::left, 60, 20, 60, 40}, {Side::left, 15, 20, 60, 30}};
  problem.slot = 4;
  problem.labels = {{"a", {{14.25, 5.4, 2.7, 0}}, {{{{97.16, 50.98}}, 0}}, 0, ""},
                    {"b", {{8.6, 4.8, 2.4, 0}}, {{{{90.6, 52.12}, {88.87, 35.26}}, 0}}, 0, ""}};
  const auto best = brute_force(problem);
  ASSERT_TRUE(best);
  EXPECT_TRUE(std::holds_alternative<Solution>(place::solve(problem)))
      << std::get<Infeasible>(place::solve(problem)).witness << "\n"
      << describe(problem, best->placements);
}

TEST(Brute_force, Agrees_with_a_staggered_second_column) {
  run({.labels = 4, .right = false, .staggered = true, .slot = 4, .height = 25}, 5001, 150);
}

}  // namespace
}  // namespace platewright::oracle
