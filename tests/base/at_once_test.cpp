#include "base/at_once.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

namespace platewright {
namespace {

TEST(At_once, Both_are_done_when_it_returns) {
  for (int k = 0; k < 200; ++k) {
    int here = 0, there = 0;
    at_once([&] { here = k + 1; }, [&] { there = k + 2; });
    ASSERT_EQ(here, k + 1);
    ASSERT_EQ(there, k + 2);
  }
}

TEST(At_once, An_exception_of_either_comes_out_when_both_have_ended) {
  std::atomic<bool> ended{false};
  EXPECT_THROW(at_once([] { throw std::runtime_error("here"); }, [&] { ended = true; }),
               std::runtime_error);
  EXPECT_TRUE(ended);
  bool done = false;
  EXPECT_THROW(at_once([&] { done = true; }, [] { throw std::logic_error("there"); }),
               std::logic_error);
  EXPECT_TRUE(done);
}

TEST(Each_at_once, Does_every_piece_once) {
  for (const std::size_t count : {0U, 1U, 2U, 7U, 1000U}) {
    std::vector<std::atomic<int>> done(count);
    each_at_once(count, [&](std::size_t i) { ++done[i]; });
    for (const auto& times : done) EXPECT_EQ(times, 1);
  }
}

}  // namespace
}  // namespace platewright
