#include "memory.hpp"

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <latch>
#include <system_error>
#include <thread>
#include <vector>

#if defined(__GLIBC__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define PW_ARENAS
#include <malloc.h>
#include <sys/mman.h>
#endif

namespace platewright::cli {
namespace {

#ifdef PW_ARENAS

constexpr std::size_t large_page = 2 << 20;
constexpr std::size_t at_first = 16 << 20;  // for each arena
// Threads that a sheet has at work at once, and so arenas.
constexpr int most_threads = 4;

std::atomic<void*> unused = nullptr;  // never given back

// What the calling thread's arena takes from the system at first. What lies before the first large
// page stays unused, since it would be taken by small pages, at one fault each.
void grow_arena() {
  constexpr std::size_t headers = 64;      // of a few chunks
  constexpr std::size_t no_gap = 1 << 16;  // larger than any that was left free before
  void* const first = std::malloc(no_gap);
  const auto from = reinterpret_cast<std::uintptr_t>(first);
  std::free(first);
  const std::uintptr_t start = (from + large_page - 1) / large_page * large_page;
  if (start - from > headers) unused = std::malloc(start - from - headers);
  void* const taken = std::malloc(at_first);
  // But for the last one, which giving back writes to.
  const std::uintptr_t end = start + at_first - large_page;
  // A system without large pages goes on as usual.
  if (taken != nullptr)
    static_cast<void>(::madvise(reinterpret_cast<void*>(start), end - start, MADV_HUGEPAGE));
  std::free(taken);
}

#endif

}  // namespace

void keep_memory() {
#ifdef PW_ARENAS
  ::mallopt(M_MMAP_THRESHOLD, 32 << 20);
  ::mallopt(M_TRIM_THRESHOLD, 256 << 20);
  grow_arena();
  // Threads that come later take over the arenas of these.
  std::latch all(most_threads);
  std::vector<std::thread> threads;
  try {
    for (int i = 0; i < most_threads; ++i)
      threads.emplace_back([&] {
        grow_arena();
        all.arrive_and_wait();
      });
  } catch (const std::system_error&) {
    all.count_down(most_threads - static_cast<std::ptrdiff_t>(threads.size()));
  }
  for (std::thread& thread : threads) thread.join();
#endif
}

}  // namespace platewright::cli
