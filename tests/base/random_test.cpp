#include "base/random.hpp"

#include <gtest/gtest.h>

#include <array>
#include <vector>

namespace platewright {
namespace {

// First outputs of SplitMix64 for seed 1234567, as published with the Java and C
// reference code and repeated by the tests of many libraries (from memory).
TEST(Random, Is_SplitMix64_as_published) {
  Random random(1234567);
  EXPECT_EQ(random.next(), 6457827717110365317ULL);
  EXPECT_EQ(random.next(), 3203168211198807973ULL);
  EXPECT_EQ(random.next(), 9817491932198370423ULL);
}

TEST(Random, A_purpose_makes_a_stream_of_its_own) {
  EXPECT_EQ(Random(1, "bingo").next(), Random(1, "bingo").next());
  EXPECT_NE(Random(1, "bingo").next(), Random(1, "maze").next());
}

// Chi-square with 5 degrees of freedom: 20.5 is passed by chance once in a thousand.
TEST(Random, A_shuffle_of_three_gives_each_order_equally_often) {
  std::array<int, 27> seen{};
  Random random(7);
  for (int i = 0; i < 60000; ++i) {
    std::vector<int> v{0, 1, 2};
    shuffle(v, random);
    ++seen[static_cast<std::size_t>(9 * v[0] + 3 * v[1] + v[2])];
  }
  double chi2 = 0;
  int orders = 0;
  for (const int n : seen)
    if (n > 0) {
      chi2 += (n - 10000.0) * (n - 10000.0) / 10000.0;
      ++orders;
    }
  EXPECT_EQ(orders, 6);
  EXPECT_LT(chi2, 20.5);
}

}  // namespace
}  // namespace platewright
