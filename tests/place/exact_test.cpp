// The exact program against every placement tried (brute_force.hpp).
#include <gtest/gtest.h>

#include <stop_token>
#include <variant>

#include "brute_force.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "place/rulebook.hpp"
#include "place/two_sides.hpp"

namespace platewright::place {
namespace {

struct Tally {
  int feasible = 0, infeasible = 0, optimal = 0;
};

void expect_brute_force(std::uint64_t seed, const Recipe& recipe, Tally& tally) {
  const Problem problem = make_problem(seed, recipe);
  const Brute brute = brute_force(problem);
  const Rulebook rules(problem);
  const GridAnswer answer = solve_grid(rules, problem.slot, {});
  ASSERT_EQ(answer.found, brute.feasible) << "seed " << seed << " " << answer.witness;
  if (!brute.feasible) {
    ++tally.infeasible;
    return;
  }
  ++tally.feasible;
  EXPECT_TRUE(verify(problem, {answer.placements, {}}).empty()) << "seed " << seed;
  EXPECT_LE(answer.bound, brute.cost + 1e-6) << "seed " << seed;
  EXPECT_GE(answer.cost, brute.cost - 1e-6) << "seed " << seed;
  if (answer.cost <= answer.bound + 1e-6) ++tally.optimal;
  if (problem.columns.size() == 1) {
    EXPECT_NEAR(answer.cost, brute.cost, 1e-6) << "seed " << seed;
    EXPECT_NEAR(answer.bound, brute.cost, 1e-6) << "seed " << seed;
  }
}

TEST(Stations, Know_the_least_of_each_block_of_lines) {
  std::size_t blocks = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const Problem problem = make_problem(seed, {});
    const Rulebook rules(problem);
    for (const Station& s : make_stations(rules, problem.slot / 4, all_targets(problem)))
      for (const StationLabel& label : s.labels) {
        ASSERT_EQ(label.lines.size(), label.targets.size() * static_cast<std::size_t>(s.slots));
        ASSERT_GE(label.blocks.size() * lines_in_block, label.lines.size());
        std::vector<double> least(label.blocks.size(), never);
        for (std::size_t i = 0; i < label.lines.size(); ++i)
          least[i / lines_in_block] = std::min(least[i / lines_in_block], label.lines[i]);
        EXPECT_EQ(least, label.blocks);
        blocks += least.size();
      }
  }
  EXPECT_GT(blocks, 100U);
}

void sweep(std::uint64_t first, std::uint64_t count, const Recipe& recipe, int least_of_each) {
  Tally tally;
  for (std::uint64_t seed = first; seed < first + count; ++seed)
    expect_brute_force(seed, recipe, tally);
  EXPECT_GE(tally.feasible, least_of_each);
}

TEST(One_side, Equals_brute_force_over_all_orders_and_slots) {
  sweep(1, 80, {.labels = 4, .height = 27.5}, 40);
}
TEST(One_side, Equals_brute_force_where_columns_are_nearly_full) {
  Recipe recipe{.labels = 4, .height = 20};
  Tally tally;
  for (std::uint64_t seed = 1000; seed < 1060; ++seed) {
    recipe.height = seed % 2 == 0 ? 20 : 22.5;
    expect_brute_force(seed, recipe, tally);
  }
  EXPECT_GE(tally.infeasible, 5);  // infeasible ones are among them
  EXPECT_GE(tally.feasible, 5);
}
TEST(One_side, Equals_brute_force_with_five_labels) {
  sweep(2000, 40, {.labels = 5, .height = 27.5}, 10);
}
TEST(One_side, Equals_brute_force_on_the_right_side) {
  sweep(2500, 40, {.labels = 4, .left = false, .right = true, .height = 20}, 10);
}
TEST(One_side, Equals_brute_force_with_variants_and_regions) {
  sweep(3000, 40, {.labels = 3, .height = 17.5, .variants = 2, .targets = 3}, 20);
}
TEST(One_side, Equals_brute_force_with_forked_leaders) {
  sweep(4000, 80, {.labels = 3, .height = 20, .branches = 3}, 20);
}
TEST(One_side, Equals_brute_force_with_groups_and_preferred_sides) {
  sweep(5000, 60, {.labels = 4, .height = 25, .groups = true, .sides = true}, 20);
}
TEST(One_side, Equals_brute_force_with_stubs) {
  for (std::uint64_t seed = 5500; seed < 5540; ++seed) {
    Problem problem = make_problem(seed, {.labels = 4, .height = 20});
    problem.stub = 4;
    const Brute brute = brute_force(problem);
    const GridAnswer answer = solve_grid(Rulebook(problem), problem.slot, {});
    ASSERT_EQ(answer.found, brute.feasible) << seed;
    if (brute.feasible) {
      EXPECT_NEAR(answer.cost, brute.cost, 1e-6) << seed;
    }
  }
}
TEST(One_side, Equals_brute_force_with_an_obstacle) {
  for (std::uint64_t seed = 5600; seed < 5640; ++seed) {
    Problem problem = make_problem(seed, {.labels = 3, .height = 25});
    problem.obstacles.push_back({8, 9, 10, 4});
    const Brute brute = brute_force(problem);
    const GridAnswer answer = solve_grid(Rulebook(problem), problem.slot, {});
    ASSERT_EQ(answer.found, brute.feasible) << seed;
    if (brute.feasible) {
      EXPECT_NEAR(answer.cost, brute.cost, 1e-6) << seed;
    }
  }
}
TEST(One_side, Equals_brute_force_when_all_anchors_lie_on_one_line) {
  sweep(6000, 30, {.labels = 4, .spread = Spread::midline, .height = 22.5}, 5);
  sweep(6100, 30, {.labels = 3, .spread = Spread::level, .height = 22.5}, 1);
}
TEST(One_side, Equals_brute_force_when_all_anchors_are_one_point) {
  sweep(6200, 30, {.labels = 4, .spread = Spread::coincident, .height = 22.5}, 5);
}

TEST(Two_sides, Never_beats_brute_force_and_its_bound_never_exceeds_it) {
  sweep(7000, 30, {.labels = 4, .left = true, .right = true, .height = 12.5}, 10);
}
TEST(Two_sides, Certified_optima_are_brute_forces_optima) {
  int equal = 0, feasible = 0, certified = 0;
  for (std::uint64_t seed = 8000; seed < 8030; ++seed) {
    const Problem problem =
        make_problem(seed, {.labels = 4, .left = true, .right = true, .height = 15});
    const Brute brute = brute_force(problem);
    const GridAnswer answer = solve_grid(Rulebook(problem), problem.slot, {});
    ASSERT_EQ(answer.found, brute.feasible) << seed;
    if (!brute.feasible) continue;
    ++feasible;
    equal += answer.cost <= brute.cost + 1e-6;
    if (answer.cost <= answer.bound + 1e-6) {
      ++certified;
      EXPECT_NEAR(answer.cost, brute.cost, 1e-6) << seed;
    }
  }
  EXPECT_GE(certified, feasible * 8 / 10);  // the others' sides meet when each is at its best
  EXPECT_GE(equal, feasible * 9 / 10);
}
TEST(Two_sides, Fill_both_columns_when_all_anchors_lie_on_one_side_and_one_column_is_too_short) {
  Problem problem =
      make_problem(42, {.labels = 8, .left = true, .right = true, .height = 26, .slot = 1});
  for (Label& l : problem.labels) {
    l.targets.front().points.front().x = 40 + l.targets.front().points.front().x / 20;
  }
  const auto solved = solve(problem);
  ASSERT_TRUE(std::holds_alternative<Solution>(solved)) << std::get<Infeasible>(solved).witness;
  int left = 0;
  for (const Placement& p : std::get<Solution>(solved).placements) left += p.side == Side::left;
  EXPECT_GT(left, 0);
  EXPECT_LT(left, 8);
}

// Metamorphic: what must not change the optimum.
double one_side_cost(const Problem& problem) {
  return solve_grid(Rulebook(problem), problem.slot, {}).cost;
}
TEST(One_side, Cost_does_not_change_when_the_page_is_mirrored) {
  for (std::uint64_t seed = 9000; seed < 9010; ++seed) {
    const Problem problem = make_problem(seed, {.labels = 6, .height = 40, .slot = 1});
    Problem mirrored = problem;
    mirrored.columns.front().side = Side::right;
    mirrored.columns.front().edge = -problem.columns.front().edge;
    for (Label& l : mirrored.labels)
      for (Target& t : l.targets)
        for (PagePoint& p : t.points) p.x = -p.x;
    EXPECT_NEAR(one_side_cost(problem), one_side_cost(mirrored), 1e-6) << seed;
  }
}
TEST(One_side, Cost_does_not_change_when_labels_are_listed_in_another_order) {
  for (std::uint64_t seed = 9100; seed < 9110; ++seed) {
    const Problem problem = make_problem(seed, {.labels = 6, .height = 40, .slot = 1});
    Problem turned = problem;
    std::reverse(turned.labels.begin(), turned.labels.end());
    std::swap(turned.labels[1], turned.labels[4]);
    EXPECT_NEAR(one_side_cost(problem), one_side_cost(turned), 1e-6) << seed;
  }
}
TEST(One_side, Cost_does_not_change_when_everything_is_moved) {
  for (std::uint64_t seed = 9200; seed < 9210; ++seed) {
    const Problem problem = make_problem(seed, {.labels = 6, .height = 40, .slot = 1});
    Problem moved = problem;
    moved.columns.front().edge += 64;
    moved.columns.front().top += 32;
    moved.columns.front().bottom += 32;
    for (Label& l : moved.labels)
      for (Target& t : l.targets)
        for (PagePoint& p : t.points) p.x += 64, p.y += 32;
    EXPECT_NEAR(one_side_cost(problem), one_side_cost(moved), 1e-6) << seed;
  }
}

TEST(Solve, Gives_the_same_placement_every_time) {
  const Problem problem =
      make_problem(5, {.labels = 14, .left = true, .right = true, .height = 70, .slot = 1});
  const auto a = solve(problem), b = solve(problem);
  ASSERT_TRUE(std::holds_alternative<Solution>(a));
  const auto& x = std::get<Solution>(a).placements;
  const auto& y = std::get<Solution>(b).placements;
  for (std::size_t i = 0; i < x.size(); ++i) EXPECT_EQ(x[i].port, y[i].port);
}

TEST(Exact, A_search_that_is_asked_to_stop_finds_nothing_and_one_that_is_not_the_same_as_ever) {
  std::stop_source vain, never_asked;
  vain.request_stop();
  Effort stopped, going;
  stopped.stop = vain.get_token();
  going.stop = never_asked.get_token();
  for (const int labels : {6, 14, 24}) {
    const Problem problem = make_problem(
        7, {.labels = labels, .left = true, .right = true, .height = 6.0 * labels, .slot = 1});
    EXPECT_TRUE(std::holds_alternative<Infeasible>(solve(problem, stopped))) << labels;
    const auto usual = solve(problem), same = solve(problem, going);
    ASSERT_TRUE(std::holds_alternative<Solution>(usual)) << labels;
    ASSERT_TRUE(std::holds_alternative<Solution>(same)) << labels;
    EXPECT_EQ(std::get<Solution>(same).certificate.polished_cost,
              std::get<Solution>(usual).certificate.polished_cost);
  }
}

// One of fifteen labels more stands on one side whatever is done: a bound that mixes placements
// with one more on the left and one more on the right would think that balanced.
TEST(Proof_of_few, Knows_that_an_odd_number_of_labels_stands_unevenly) {
  int proven = 0, placed = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Problem problem =
        make_problem(seed, {.labels = 15, .right = true, .height = 80, .slot = 1, .targets = 3});
    problem.weights.balance = 15;
    const auto answer = solve(problem, {20'000, 1000});
    const auto* s = std::get_if<Solution>(&answer);
    if (s == nullptr) continue;
    ++placed;
    proven += s->certificate.status == SolveStatus::optimal;
  }
  EXPECT_GE(placed, 15);
  EXPECT_GE(proven, placed / 3);
}

}  // namespace
}  // namespace platewright::place
