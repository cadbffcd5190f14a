#include "engine/deadline.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <ctime>

namespace platewright {
namespace {

// Keeps the processor busy for so many seconds of the thread's own time.
void busy(double seconds) {
  const auto now = [] {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
  };
  const double until = now() + seconds;
  while (now() < until) {
  }
}

TEST(Deadline, Gives_what_is_ready_in_time) {
  EXPECT_EQ(within(5, [] { return 7; }), 7);
  EXPECT_EQ(within(0, [] { return 8; }), 8);
}

TEST(Deadline, Ends_work_that_takes_more_of_the_processor) {
  const auto ended = std::make_shared<std::atomic<bool>>(false);
  EXPECT_EQ(within(0.1,
                   [ended] {
                     busy(1.5);
                     *ended = true;
                     return 1;
                   }),
            std::nullopt);
  EXPECT_FALSE(*ended);
  while (!*ended) std::this_thread::sleep_for(std::chrono::milliseconds(20));
}

TEST(Deadline,
     Waits_longer_by_the_clock_for_work_that_is_kept_from_the_processor_but_not_for_ever) {
  const auto ended = std::make_shared<std::atomic<int>>(0);
  const auto sleeps = [ended](double seconds) {
    return [ended, seconds] {
      std::this_thread::sleep_for(std::chrono::duration<double>(seconds));
      return ++*ended;
    };
  };
  EXPECT_EQ(within(0.2, sleeps(0.6)), 1);
  EXPECT_EQ(within(0.05, sleeps(2)), std::nullopt);
  while (*ended < 2) std::this_thread::sleep_for(std::chrono::milliseconds(20));
}

}  // namespace
}  // namespace platewright
