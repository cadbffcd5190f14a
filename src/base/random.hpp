// Chance by seed: the same numbers from the same seed on every machine.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <utility>

namespace platewright {

// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators",
// OOPSLA 2014).
class Random {
 public:
  explicit constexpr Random(std::uint64_t seed) : state_(seed) {}
  // A stream of its own for each `purpose`, so that one seed does not deal two games alike.
  Random(std::uint64_t seed, std::string_view purpose);

  constexpr std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  // 0 <= value < n, n > 0; the bias of the remainder is below n / 2^64.
  constexpr std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }

 private:
  std::uint64_t state_;
};

// Fisher and Yates, from the last place down (Knuth, vol. 2, algorithm P).
template <class Sequence>
void shuffle(Sequence& items, Random& random) {
  for (std::size_t i = items.size(); i > 1; --i) std::swap(items[i - 1], items[random.below(i)]);
}

}  // namespace platewright
