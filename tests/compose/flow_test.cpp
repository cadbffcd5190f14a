// Strips laid over columns and pages: none lost, none beyond the foot, and
// those together that belong together.
#include "compose/flow.hpp"

#include <gtest/gtest.h>

#include <random>

namespace platewright::compose {
namespace {

struct Placed {
  std::size_t page = 0;
  double x = 0, y = 0;
};

struct Laid {
  std::vector<Placed> strips;
  std::size_t pages = 0;
};

Laid lay(std::vector<Strip> strips, const Columns& columns) {
  Laid laid;
  std::size_t page = 0;
  for (Strip& strip : strips)
    strip.draw = [&](LinkedPage& on, double x, double y, double) {
      laid.strips.push_back({static_cast<std::size_t>(on.page.width), x, y});
    };
  laid.pages = flow(strips, columns, true, [&] {
                 LinkedPage fresh;
                 fresh.page.width = static_cast<double>(page++);  // its number
                 return fresh;
               }).size();
  return laid;
}

Strip strip(double height, bool stay = false) {
  Strip s;
  s.height = height;
  s.stay = stay;
  return s;
}

TEST(Flow, Fills_columns_before_pages) {
  const Laid laid = lay({strip(60), strip(60), strip(60)}, {{0, 10, 100, 100}, 2, 10});
  EXPECT_EQ(laid.pages, 2U);
  EXPECT_EQ(laid.strips[1].page, 0U);
  EXPECT_EQ(laid.strips[1].x, 55);
  EXPECT_EQ(laid.strips[1].y, 10);
  EXPECT_EQ(laid.strips[2].page, 1U);
}

TEST(Flow, Keeps_a_heading_with_what_follows) {
  const Laid laid = lay({strip(80), strip(10, true), strip(30)}, {{0, 0, 100, 100}, 1, 0});
  EXPECT_EQ(laid.strips[1].page, 1U);
  EXPECT_EQ(laid.strips[1].y, 0);
}

TEST(Flow, Breaks_a_run_that_no_column_could_hold) {
  std::vector<Strip> run(12, strip(20, true));
  const Laid laid = lay(run, {{0, 0, 100, 100}, 1, 0});
  EXPECT_EQ(laid.strips.size(), 12U);
  EXPECT_EQ(laid.pages, 3U);
}

TEST(Flow, Loses_nothing_and_leaves_no_page_whatever_the_strips) {
  std::mt19937 random(7);
  for (int round = 0; round < 500; ++round) {
    std::vector<Strip> strips;
    const int count = std::uniform_int_distribution<>(1, 40)(random);
    for (int i = 0; i < count; ++i) {
      Strip s = strip(std::uniform_real_distribution<>(1, 45)(random),
                      std::bernoulli_distribution(0.4)(random));
      s.above = std::uniform_real_distribution<>(0, 6)(random);
      s.turn = std::bernoulli_distribution(0.05)(random);
      strips.push_back(s);
    }
    const Columns columns{{5, 10, 100, 100}, std::uniform_int_distribution<>(1, 3)(random), 4};
    const Laid laid = lay(strips, columns);
    ASSERT_EQ(laid.strips.size(), strips.size());
    for (std::size_t i = 0; i < strips.size(); ++i) {
      EXPECT_GE(laid.strips[i].y, 10 - 1e-6);
      EXPECT_LE(laid.strips[i].y + strips[i].height, 110 + 1e-6);
      if (i == 0) continue;
      const Placed &before = laid.strips[i - 1], &here = laid.strips[i];
      const bool same = before.page == here.page && before.x == here.x;
      if (same) {
        EXPECT_GE(here.y, before.y + strips[i - 1].height - 1e-6);
      } else {
        EXPECT_TRUE(here.page > before.page || here.x > before.x);
      }
      EXPECT_FALSE(strips[i].turn && same);
    }
  }
}

}  // namespace
}  // namespace platewright::compose
