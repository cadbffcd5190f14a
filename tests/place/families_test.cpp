// Random families: whatever `solve` returns keeps every rule.
#include <gtest/gtest.h>

#include "instances.hpp"
#include "place/place.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

void expect_valid(std::uint64_t seed, const Recipe& recipe, int& solved) {
  const Problem problem = make_problem(seed, recipe);
  const auto result = solve(problem);
  if (const auto* no = std::get_if<Infeasible>(&result)) {
    EXPECT_FALSE(no->witness.empty());
    return;
  }
  ++solved;
  const Solution& s = std::get<Solution>(result);
  for (const Violation& v : verify(problem, s))
    ADD_FAILURE() << "seed " << seed << ": " << v.rule << " " << v.first << " " << v.second << " "
                  << v.amount;
  const Certificate& c = s.certificate;
  EXPECT_LE(c.bound, c.cost + 1e-6);
  EXPECT_LE(c.polished_cost, c.cost + 1e-9);
  EXPECT_LE(c.continuous_bound, c.polished_cost + 1e-9);
  if (c.status == SolveStatus::optimal) {
    EXPECT_NEAR(c.gap, 0, 1e-12);
  }
}

void family(Spread spread, int least_solved) {
  int solved = 0;
  std::uint64_t seed = 100;
  for (const int n : {1, 2, 3, 5, 8, 13, 20}) {
    for (int k = 0; k < 3; ++k) {
      Recipe r{.labels = n, .spread = spread, .left = true, .right = true};
      r.height = std::max(20.0, n * 4.5);
      r.slot = 1;
      r.targets = 1 + k;
      r.branches = k == 2 ? 2 : 1;
      r.variants = 1 + k % 2;
      expect_valid(seed++, r, solved);
    }
  }
  EXPECT_GE(solved, least_solved);
}

TEST(Families, Uniform_anchors) { family(Spread::uniform, 15); }
TEST(Families, Clustered_anchors) { family(Spread::clustered, 12); }
TEST(Families, Anchors_on_a_midline) { family(Spread::midline, 15); }
TEST(Families, Anchors_on_a_level_line) { family(Spread::level, 6); }
TEST(Families, Coincident_anchors) { family(Spread::coincident, 15); }

TEST(Families, Many_labels) {
  int solved = 0;
  for (const int n : {40, 72, 120}) {
    Recipe r{.labels = n, .left = true, .right = true};
    r.height = n * 4.0;
    r.slot = 1;
    expect_valid(static_cast<std::uint64_t>(n), r, solved);
  }
  EXPECT_EQ(solved, 3);
}

TEST(Solve, No_labels_need_no_columns) {
  const auto result = solve(Problem{});
  ASSERT_TRUE(std::holds_alternative<Solution>(result));
  EXPECT_EQ(std::get<Solution>(result).certificate.status, SolveStatus::optimal);
}
TEST(Solve, Says_which_label_is_wider_than_every_column) {
  Problem p = make_problem(1, {.labels = 2});
  p.labels[1].variants.front().width = 99;
  const auto result = solve(p);
  ASSERT_TRUE(std::holds_alternative<Infeasible>(result));
  EXPECT_NE(std::get<Infeasible>(result).witness.find("label-001"), std::string::npos);
}
TEST(Solve, Says_how_much_height_is_missing) {
  const auto result = solve(make_problem(1, {.labels = 12, .height = 20}));
  ASSERT_TRUE(std::holds_alternative<Infeasible>(result));
  EXPECT_NE(std::get<Infeasible>(result).witness.find("mm"), std::string::npos);
}

}  // namespace
}  // namespace platewright::place
