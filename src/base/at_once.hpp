// Work that does not depend on each other, on two threads. What it makes must be the same in
// whatever order it is done.
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <future>
#include <system_error>

namespace platewright {

// Both are done when it returns; an exception of either comes out then. Where there is no second
// thread to be had, they are done one after the other.
template <class Here, class There>
void at_once(const Here& here, const There& there) {
  std::future<void> other;
  try {
    other = std::async(std::launch::async, std::cref(there));
  } catch (const std::system_error&) {
  }
  here();
  if (other.valid())
    other.get();
  else
    there();
}

// work(0) to work(count - 1), each once.
template <class Work>
void each_at_once(std::size_t count, const Work& work) {
  std::atomic<std::size_t> next{0};
  const auto take = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  if (count < 2)
    take();
  else
    at_once(take, take);
}

}  // namespace platewright
