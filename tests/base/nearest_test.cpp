#include "base/nearest.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace platewright {
namespace {

// The definition itself, by recursion over the last characters (Damerau 1964,
// each substring edited at most once).
std::size_t distance_by_definition(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return a.size() + b.size();
  const auto cut = [](std::string_view t, std::size_t n) { return t.substr(0, t.size() - n); };
  std::size_t best =
      std::min({distance_by_definition(cut(a, 1), b) + 1, distance_by_definition(a, cut(b, 1)) + 1,
                distance_by_definition(cut(a, 1), cut(b, 1)) + (a.back() == b.back() ? 0U : 1U)});
  if (a.size() > 1 && b.size() > 1 && a.back() == b[b.size() - 2] && b.back() == a[a.size() - 2])
    best = std::min(best, distance_by_definition(cut(a, 2), cut(b, 2)) + 1);
  return best;
}

TEST(Nearest, Distance_is_what_its_definition_says) {
  std::mt19937 random(7);
  const auto word = [&] {
    std::string text(random() % 6, 'a');
    for (char& c : text) c = static_cast<char>('a' + random() % 3);
    return text;
  };
  for (int i = 0; i < 2000; ++i) {
    const std::string a = word(), b = word();
    ASSERT_EQ(edit_distance(a, b), distance_by_definition(a, b)) << a << ' ' << b;
  }
}

TEST(Nearest, Counts_a_swap_once_and_no_capitals) {
  EXPECT_EQ(edit_distance("aotra", "aorta"), 1U);
  EXPECT_EQ(edit_distance("Aorta", "aorta"), 0U);
  EXPECT_EQ(edit_distance("kitten", "sitting"),
            3U);  // the textbook example of Levenshtein's distance
}

TEST(Nearest, Offers_near_names_nearest_first_and_no_far_ones) {
  const std::vector<std::string_view> known = {"midline", "middle", "upper"};
  EXPECT_EQ(nearest("midle", known), (std::vector<std::string_view>{"middle"}));
  EXPECT_TRUE(nearest("liver", known).empty());
  EXPECT_EQ(did_you_mean("upprr", known, "else"), "did you mean \"upper\"");
  EXPECT_EQ(did_you_mean("liver", known, "else"), "else");
  EXPECT_TRUE(nearest(std::string(100'000, 'x'), known).empty());
}

}  // namespace
}  // namespace platewright
