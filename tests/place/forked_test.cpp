// Figures with a fork whose points lie far apart on the left: its leader's branches
// shut other labels off from that side, so it belongs there only when these move over.
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <tuple>
#include <variant>
#include <vector>

#include "place/place.hpp"

namespace platewright::place {
namespace {

Problem with_a_fork(int seed) {
  std::mt19937_64 engine(static_cast<std::uint64_t>(seed) * 7919 + 1);
  const auto in = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1.0p-53;
  };
  Problem problem;
  problem.columns = {{Side::left, 50, 20, 130, 40}, {Side::right, 210, 20, 130, 40}};
  for (int i = 0; i < 11; ++i) {
    Label label;
    label.anchor = "a" + std::to_string(10 + i);
    const double height = in(0, 1) < 0.6 ? 6 : 11;
    label.variants = {{30, height, height / 2, 0}};
    const double x = i < 5 ? in(70, 120) : in(120, 195);
    label.targets = {{{{x, in(35, 115)}}, 0}};
    problem.labels.push_back(label);
  }
  Label fork;
  fork.anchor = "fork";
  fork.variants = {{30, 11, 5.5, 0}};
  std::vector<PagePoint> points;
  for (const auto& [left, right, top, bottom] :
       {std::tuple{60, 70, 80, 100}, std::tuple{70, 80, 40, 60}, std::tuple{85, 95, 40, 60}}) {
    const double x = in(left, right);
    points.push_back({x, in(top, bottom)});
  }
  fork.targets = {{points, 0}};
  problem.labels.push_back(fork);
  problem.weights.unit = std::hypot(160.0, 110.0) / 100;
  return problem;
}

TEST(Forks, Far_apart_are_placed_at_a_glance_near_the_best_that_a_proof_finds) {
  int proven = 0;
  for (const int seed : {5, 15, 18, 21, 26, 28}) {
    const Problem problem = with_a_fork(seed);
    const auto glance = solve(problem, {5000, 0}), best = solve(problem);
    ASSERT_TRUE(std::holds_alternative<Solution>(glance)) << seed;
    ASSERT_TRUE(std::holds_alternative<Solution>(best)) << seed;
    const Certificate& found = std::get<Solution>(best).certificate;
    proven += found.status == SolveStatus::optimal;
    EXPECT_LE(std::get<Solution>(glance).certificate.cost, 1.02 * found.cost) << seed;
  }
  EXPECT_GE(proven, 5);
}

}  // namespace
}  // namespace platewright::place
