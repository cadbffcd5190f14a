// Work on somebody else's file that must not take for ever: the drawing library
// has no limit of its own on how long a path may take.
#pragma once

#include <chrono>
#include <future>
#include <memory>
#include <optional>
#include <thread>

namespace platewright {

// Notes that a thread was left behind; see `unfinished_work` in engine.hpp.
void note_unfinished_work();

// What `work` returns, or nothing when it takes longer than `seconds` (<= 0: no limit); its
// thread is then left to itself, so `work` must own all that it uses.
template <class Work>
auto within(double seconds, Work work) -> std::optional<decltype(work())> {
  using T = decltype(work());
  if (seconds <= 0) return work();
  auto task = std::make_shared<std::packaged_task<T()>>(std::move(work));
  std::future<T> result = task->get_future();
  std::thread([task] { (*task)(); }).detach();
  if (result.wait_for(std::chrono::duration<double>(seconds)) != std::future_status::ready) {
    note_unfinished_work();
    return std::nullopt;
  }
  return result.get();
}

}  // namespace platewright
