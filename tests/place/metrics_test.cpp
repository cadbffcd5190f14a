// What a layout's metrics tell, against every place tried one by one.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <variant>

#include "instances.hpp"
#include "place/leader.hpp"
#include "place/place.hpp"

namespace platewright::place {
namespace {

Problem busy_problem(std::uint64_t seed) {
  Recipe recipe;
  recipe.labels = 5;
  recipe.right = true;
  recipe.height = 60;
  recipe.targets = 3;
  recipe.branches = 2;
  Problem p = make_problem(seed, recipe);
  Dice dice(seed + 1000);
  if (seed % 2 == 0) p.stub = dice.between(1, 6);
  if (seed % 3 == 0) p.rows.push_back({Side::top, -4, 35, 85, 10});
  p.detail.box = {35, 2, 50, 56};
  p.detail.columns = 7;
  p.detail.rows = 6;
  for (int k = 0; k < 42; ++k) p.detail.values.push_back(static_cast<float>(dice.between(0, 1)));
  return p;
}

double crossed_from(const Problem& p, const Label& label, Side side, PagePoint port) {
  double least = 1e300;
  for (const Target& target : label.targets) {
    double sum = 0;
    for (const PagePoint& t : target.points) sum += p.detail.along(stub_end(side, port, p.stub), t);
    least = std::min(least, sum);
  }
  return least;
}

TEST(Metrics, Least_detail_is_that_of_the_calmest_leaders_one_by_one) {
  int solved = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const Problem p = busy_problem(seed);
    double least = 0;
    for (const Label& label : p.labels) {
      double calmest = 1e300;
      for (const Column& c : p.columns)
        for (int k = 0; c.top + k * p.slot <= c.bottom; ++k)
          calmest = std::min(calmest, crossed_from(p, label, c.side, {c.edge, c.top + k * p.slot}));
      for (const Row& r : p.rows)
        for (int k = 0; r.left + k * p.slot <= r.right; ++k)
          calmest =
              std::min(calmest, crossed_from(p, label, r.side, {r.left + k * p.slot, r.edge}));
      least += calmest;
    }
    const auto answer = solve(p, {20'000});
    if (!std::holds_alternative<Solution>(answer)) continue;
    ++solved;
    Solution solution = std::get<Solution>(answer);
    EXPECT_NEAR(least_detail(p, solution), least, 1e-6) << seed;
    // No placement on the slots crosses less; those of the search are some.
    ASSERT_FALSE(solution.on_grid.placements.empty()) << seed;
    solution.placements = solution.on_grid.placements;
    EXPECT_GE(metrics(p, solution).detail_crossed, least - 1e-6) << seed;
  }
  EXPECT_GE(solved, 30);
}

}  // namespace
}  // namespace platewright::place
