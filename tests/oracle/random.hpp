// Seeded random numbers that are the same with every standard library (the
// library's distributions are not).
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <utility>

namespace platewright::oracle {

class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed * 0x9E3779B97F4A7C15ULL + 1) {}
  // In [0, 1).
  double unit() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  double in(double low, double high) { return low + (high - low) * unit(); }
  // In [low, high], both included.
  int whole(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool chance(double share) { return unit() < share; }
  template <class T>
  void shuffle(std::span<T> values) {
    for (std::size_t i = values.size(); i > 1; --i)
      std::swap(values[i - 1], values[static_cast<std::size_t>(engine_() % i)]);
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace platewright::oracle
