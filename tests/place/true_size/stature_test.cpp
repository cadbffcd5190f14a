// Stature for age against rows of the CDC 2000 growth charts (statage table,
// Vital and Health Statistics series 11, number 246; public domain).
#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "platewright/true_size.hpp"

namespace platewright {
namespace {

TEST(Lms, Gives_the_published_percentiles) {
  // Boys, 24.5 months: L 1.00720807, M 86.86160934, S 0.040395626.
  EXPECT_NEAR(lms_value(1.00720807, 86.86160934, 0.040395626, normal_quantile(0.05)), 81.08868489,
              1e-5);
  EXPECT_NEAR(lms_value(1.00720807, 86.86160934, 0.040395626, normal_quantile(0.95)), 92.63176749,
              1e-5);
  // Girls, 96.5 months: L -0.079283065, M 127.8262759, S 0.045968169.
  EXPECT_NEAR(lms_value(-0.079283065, 127.8262759, 0.045968169, normal_quantile(0.05)), 118.5443251,
              1e-5);
  EXPECT_NEAR(lms_value(-0.079283065, 127.8262759, 0.045968169, normal_quantile(0.95)), 137.8974887,
              1e-5);
  EXPECT_NEAR(lms_value(0, 100, 0.05, 0), 100, 1e-12);
}

TEST(Normal_quantile, Inverts_the_distribution) {
  for (const double p : {0.001, 0.05, 0.3, 0.5, 0.8, 0.95, 0.999})
    EXPECT_NEAR(0.5 * std::erfc(-normal_quantile(p) / std::sqrt(2.0)), p, 1e-14);
}

TEST(Stature, Is_the_published_median_at_birthdays) {
  const double boys[] = {86.45,  94.96,  102.22, 108.90, 115.39, 121.77, 127.88,
                         133.51, 138.62, 143.52, 149.05, 156.09, 163.84};
  const double girls[] = {84.98,  93.92,  100.75, 107.66, 114.71, 121.49, 127.59,
                          132.92, 137.99, 143.98, 151.19, 157.15, 160.39};
  for (int age = 2; age <= 14; ++age) {
    EXPECT_NEAR(stature(age, Sex::boy)->cm(), boys[age - 2], 0.02) << age;
    EXPECT_NEAR(stature(age, Sex::girl)->cm(), girls[age - 2], 0.02) << age;
  }
}

TEST(Stature, Of_no_sex_is_the_mean_and_outside_the_table_a_finding) {
  EXPECT_NEAR(stature(6, std::nullopt)->cm(), (115.39 + 114.71) / 2, 0.02);
  for (const double age : {1.9, 20.1, -3.0}) {
    const auto none = stature(age, Sex::girl);
    ASSERT_FALSE(none.ok());
    EXPECT_EQ(none.findings().front().code, "age-range");
  }
  EXPECT_FALSE(stature(6, Sex::boy, 0).ok());
  EXPECT_LT(stature(6, Sex::boy, 10)->cm(), stature(6, Sex::boy, 90)->cm());
}

}  // namespace
}  // namespace platewright
