// Pages so full of labels that leaders must be untangled.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "instances.hpp"
#include "place/assignment.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"
#include "place/place.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

// Numbers of 5 x 4.5 mm around a round figure on an A4 page's area.
Problem numbers(int count, std::uint64_t seed) {
  Problem p;
  p.columns = {{Side::left, 20, 10, 270, 8}, {Side::right, 190, 10, 270, 8}};
  p.rows = {{Side::top, 20, 22, 188, 6}, {Side::bottom, 260, 22, 188, 6}};
  Dice dice(seed);
  while (static_cast<int>(p.labels.size()) < count) {
    const PagePoint at{dice.between(35, 175), dice.between(70, 210)};
    if (std::hypot(at.x - 105, at.y - 140) > 70) continue;
    if (std::any_of(p.labels.begin(), p.labels.end(), [&](const Label& l) {
          return distance(l.targets.front().points.front(), at) < 6;
        }))
      continue;
    Label label;
    label.anchor = "a" + std::to_string(p.labels.size());
    label.variants = {{5, 4.5, 2.25, 0}};
    label.targets = {{{at}, 0}};
    p.labels.push_back(label);
  }
  p.weights.unit = 20;
  return p;
}

TEST(Matching, Is_the_cheapest_of_all_permutations) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Dice dice(seed);
    const auto rows = static_cast<std::size_t>(1 + dice.below(6));
    const std::size_t columns = rows + static_cast<std::size_t>(dice.below(3));
    std::vector<double> cost(rows * columns);
    for (double& c : cost) c = dice.below(5) == 0 ? 3.0 : dice.between(0, 10);  // ties among them
    const auto sum = [&](const std::vector<std::size_t>& of) {
      double total = 0;
      for (std::size_t i = 0; i < rows; ++i) total += cost[i * columns + of[i]];
      return total;
    };
    std::vector<std::size_t> order(columns);
    std::iota(order.begin(), order.end(), std::size_t{0});
    double least = 1e300;
    do least = std::min(least, sum(order));
    while (std::next_permutation(order.begin(), order.end()));
    std::vector<std::size_t> found = least_assignment(cost, rows, columns);
    EXPECT_NEAR(sum(found), least, 1e-9) << seed;
    std::sort(found.begin(), found.end());
    EXPECT_EQ(std::adjacent_find(found.begin(), found.end()), found.end()) << seed;
  }
}

TEST(Untangling, Frees_leaders_that_start_in_a_muddle) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const Problem p = numbers(45, seed);
    const Rulebook rules(p);
    const std::vector<Station> stations = make_stations(rules, 1.0, best_targets(p));
    Draft draft;
    ASSERT_TRUE(draft_by_matching(stations, best_targets(p), fair_gap(p), draft));
    // Everybody in the seat of somebody else.
    for (std::size_t i = 0; i + 7 < draft.size(); i += 3) {
      std::swap(draft[i], draft[i + 7]);
      std::swap(draft[i].choice.label, draft[i + 7].choice.label);
    }
    ASSERT_GT(draft_faults(stations, draft), 10);
    EXPECT_TRUE(untangle(stations, draft, 50'000'000)) << seed;
    EXPECT_EQ(draft_faults(stations, draft), 0);
    Solution solution;
    solution.placements = placements_of(stations, draft);
    EXPECT_TRUE(verify(p, solution).empty()) << seed;
  }
}

TEST(Untangling, Keeps_the_fewest_faults_where_no_way_out_exists) {
  Problem p = numbers(30, 1);
  p.rows.clear();
  p.columns = {{Side::left, 20, 10, 100, 8}};  // room for 15 of them
  const Rulebook rules(p);
  const std::vector<Station> stations = make_stations(rules, 1.0, best_targets(p));
  Draft draft(p.labels.size());
  for (std::size_t i = 0; i < draft.size(); ++i)
    draft[i] = {0, {static_cast<int>(i), 0, 0, 4 + static_cast<int>(i) * 2}};
  const int before = draft_faults(stations, draft);
  EXPECT_FALSE(untangle(stations, draft, 200'000));
  EXPECT_LE(draft_faults(stations, draft), before);
  EXPECT_GT(draft_faults(stations, draft), 0);
}

TEST(Dense_pages, Of_seventy_numbers_at_four_fifths_of_the_room_are_solved) {
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const Problem p = numbers(70, seed);
    const auto solved = solve(p);
    ASSERT_TRUE(std::holds_alternative<Solution>(solved)) << seed;
    EXPECT_TRUE(verify(p, std::get<Solution>(solved)).empty()) << seed;
  }
}

TEST(Dense_pages, Hand_on_labels_that_are_wider_than_a_column) {
  Problem p = numbers(12, 4);
  p.columns[0].width = 4;  // their boxes are 5 mm wide
  for (std::size_t i = 0; i < p.labels.size(); i += 2) p.labels[i].variants[0].width = 3.5;
  for (Column& c : p.columns) c.bottom = c.top + 34;  // both nearly full
  const auto solved = solve(p);
  if (const auto* found = std::get_if<Solution>(&solved)) {
    EXPECT_TRUE(verify(p, *found).empty());
    for (std::size_t i = 1; i < p.labels.size(); i += 2)
      EXPECT_FALSE(found->placements[i].side == Side::left && found->placements[i].box.w > 4);
  }
}

TEST(Dense_pages, Give_the_same_placement_every_time) {
  const Problem p = numbers(60, 9);
  const auto once = solve(p), again = solve(p);
  ASSERT_TRUE(std::holds_alternative<Solution>(once));
  const auto& a = std::get<Solution>(once).placements;
  const auto& b = std::get<Solution>(again).placements;
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_EQ(a[i].box, b[i].box);
}

}  // namespace
}  // namespace platewright::place
