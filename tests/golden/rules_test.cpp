// The checker itself: each promise, broken on purpose, is noticed.
#include "golden/rules.hpp"

#include <gmock/gmock.h>

namespace golden {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

std::string sheet_with(const std::string& inner) {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"80mm\" "
         "viewBox=\"0 0 100 80\"><g class=\"pw-figure\"><svg x=\"40\" y=\"20\" width=\"20\" "
         "height=\"40\" viewBox=\"0 0 2 4\"><rect width=\"2\" height=\"4\" "
         "data-anchor=\"block\"/></svg></g>" +
         inner + "</svg>";
}

std::string label(const std::string& anchor, double x, double y, double size = 4) {
  return "<g class=\"pw-label\" data-anchor=\"" + anchor + "\"><text x=\"" + std::to_string(x) +
         "\" y=\"" + std::to_string(y) + "\" font-size=\"" + std::to_string(size) + "\">word</text></g>";
}

std::string leader(const std::string& anchor, const std::string& d) {
  return "<path class=\"pw-leader\" data-anchor=\"" + anchor + "\" d=\"" + d +
         "\" stroke=\"black\" fill=\"none\"/>";
}

TEST(Rules, Each_broken_promise_is_noticed_in_the_browser) {
  const std::string good = label("block", 8, 40) + leader("block", "M20 39L50 41");
  const std::string ear = label("ear", 8, 60) + leader("ear", "M20 59L50 50");
  const std::vector<std::pair<std::string, std::string>> cases = {
      {good + ear, ""},
      {good + label("ear", 8, 60) + leader("ear", "M20 59L50 35"), "leaders block and ear are 0.000"},
      {good + label("ear", 10, 41) + leader("ear", "M20 59L50 50"), "labels block and ear are"},
      {good + label("ear", 8, 60) + leader("ear", "M5 39L50 50"), "leader ear crosses label block"},
      {good + label("ear", 8, 60) + leader("ear", "M20 59L49.5 41.5"), "from anchor"},
      {good + label("ear", 8, 60) + leader("ear", "M9 59L50 50"), "runs into its own label"},
      {good + label("ear", 1, 60) + leader("ear", "M20 59L50 50"), "from the page's edge"},
      {good + label("ear", 8, 60, 2) + leader("ear", "M20 59L50 50"), "below the floor"},
      {good + label("ear", 44, 50) + leader("ear", "M20 59L50 60"), "painted pixels"},
      {label("block", 8, 40) + leader("block", "M20 39L38 41"), "off its part"},
      {good + label("ear", 8, 60), "label ear has no leader"},
      {good + "<rect x=\"98\" y=\"1\" width=\"1\" height=\"1\"/>", "something is drawn 1.0"},
  };
  std::vector<Shown> sheets;
  for (const auto& [inner, wanted] : cases) sheets.push_back({wanted, sheet_with(inner), true});
  const std::vector<SeenSheet> seen = look_at(sheets);
  Promises promises;
  promises.width = 100;
  promises.height = 80;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const std::vector<std::string> complaints = broken(seen[i], promises);
    if (cases[i].second.empty())
      EXPECT_THAT(complaints, IsEmpty());
    else
      EXPECT_THAT(complaints, Contains(HasSubstr(cases[i].second))) << cases[i].first;
  }
  promises.width = 101;
  EXPECT_THAT(broken(seen[0], promises), Contains(HasSubstr("the page is 100mm")));
}

TEST(Rules, Distances_agree_with_a_fine_sampling_of_both_segments) {
  unsigned state = 7;
  const auto random = [&state] {
    state = state * 1664525U + 1013904223U;  // Numerical Recipes' generator
    return static_cast<double>(state >> 8) / (1 << 24) * 20;
  };
  for (int round = 0; round < 200; ++round) {
    const Point a{random(), random()}, b{random(), random()}, c{random(), random()},
        d{random(), random()};
    double sampled = 1e9;
    constexpr int steps = 60;
    for (int i = 0; i <= steps; ++i)
      for (int j = 0; j <= steps; ++j) {
        const double s = i / double{steps}, t = j / double{steps};
        sampled = std::min(sampled, std::hypot(a.x + s * (b.x - a.x) - c.x - t * (d.x - c.x),
                                               a.y + s * (b.y - a.y) - c.y - t * (d.y - c.y)));
      }
    const double exact = distance(a, b, c, d);
    EXPECT_LE(exact, sampled + 1e-9);
    EXPECT_GE(exact, sampled - 0.5);  // half a sampling step of the longest segment, each way
  }
}

}  // namespace
}  // namespace golden
