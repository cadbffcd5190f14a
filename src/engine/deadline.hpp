// Work on somebody else's file that must not take for ever: the drawing library
// has no limit of its own on how long a path may take.
#pragma once

#include <algorithm>
#include <chrono>
#include <ctime>
#include <future>
#include <memory>
#include <optional>
#include <thread>

namespace platewright {

// Notes that a thread was left behind; see `unfinished_work` in engine.hpp.
void note_unfinished_work();

// How long by the clock it may take where the processor has other things to do.
inline constexpr double most_clock = 8;

// What `work` returns, or nothing when it takes longer than `seconds` (<= 0: no limit), of the
// clock and of the processor's time that the program gets; at most `most_clock` times as long by
// the clock. Its thread is then left to itself, so `work` must own all that it uses.
template <class Work>
auto within(double seconds, Work work) -> std::optional<decltype(work())> {
  using T = decltype(work());
  if (seconds <= 0) return work();
  auto task = std::make_shared<std::packaged_task<T()>>(std::move(work));
  std::future<T> result = task->get_future();
  std::thread([task] { (*task)(); }).detach();
  using Clock = std::chrono::steady_clock;
  const auto begun = Clock::now();
  const std::clock_t cpu = std::clock();
  for (double wait = seconds;
       result.wait_for(std::chrono::duration<double>(wait)) != std::future_status::ready;) {
    const double left =
        seconds - static_cast<double>(std::clock() - cpu) / static_cast<double>(CLOCKS_PER_SEC);
    const double waited = std::chrono::duration<double>(Clock::now() - begun).count();
    if (left <= 0 || waited >= most_clock * seconds) {
      note_unfinished_work();
      return std::nullopt;
    }
    wait = std::max(0.05, std::min(left, most_clock * seconds - waited));
  }
  return result.get();
}

}  // namespace platewright
