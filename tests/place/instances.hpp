// Seeded placement problems for the tests. The generator is written out so that
// every standard library gives the same instances.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>

#include "place/problem.hpp"

namespace platewright::place {

struct Dice {
  std::uint64_t state;
  explicit Dice(std::uint64_t seed) : state(seed * 0x9e3779b97f4a7c15ull + 1) {}
  std::uint64_t next() {  // SplitMix64, Steele, Lea, Flood 2014
    std::uint64_t z = (state += 0x9e3779b97f4a7c15ull);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
    return z ^ (z >> 31);
  }
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(next() >> 11) * 0x1p-53;
  }
  int below(int n) { return static_cast<int>(next() % static_cast<std::uint64_t>(n)); }
};

enum class Spread { uniform, clustered, midline, level, coincident };

inline PagePoint anchor_at(Dice& dice, Spread spread, double left, double right, double top,
                           double bottom) {
  const double x = dice.between(left, right), y = dice.between(top, bottom);
  const double mx = (left + right) / 2, my = (top + bottom) / 2;
  switch (spread) {
    case Spread::uniform:
      return {x, y};
    case Spread::clustered: {
      const int c = dice.below(3);
      return {mx + (x - mx) * 0.25 + (c - 1) * (right - left) * 0.3, my + (y - my) * 0.25};
    }
    case Spread::midline:
      return {mx, y};
    case Spread::level:
      return {x, my};
    default:
      return {mx, my};
  }
}

struct Recipe {
  int labels = 4;
  Spread spread = Spread::uniform;
  bool left = true, right = false;
  double height = 20;  // of the columns, mm
  double slot = 2.5;
  int variants = 1;
  int targets = 1;   // at most, one of them chosen
  int branches = 1;  // at most, all of them drawn
  bool groups = false;
  bool sides = false;
};

inline Problem make_problem(std::uint64_t seed, const Recipe& recipe) {
  Dice dice(seed);
  Problem p;
  if (recipe.left) p.columns.push_back({Side::left, 30, 0, recipe.height, 30});
  if (recipe.right) p.columns.push_back({Side::right, 90, 0, recipe.height, 30});
  p.slot = recipe.slot;
  p.weights.unit = 10;
  p.weights.balance = 0.5;
  for (int i = 0; i < recipe.labels; ++i) {
    Label l;
    l.anchor = "label-";
    l.anchor.append(i < 10 ? "00" : i < 100 ? "0" : "").append(std::to_string(i));
    const double h = std::round(dice.between(2, 5) * 2) / 2;
    l.variants.push_back({20, h, h / 2, 0});
    if (recipe.variants > 1) l.variants.push_back({12, h * 1.5, h * 0.75, 0.3});
    const int targets = 1 + dice.below(recipe.targets), branches = 1 + dice.below(recipe.branches);
    for (int t = 0; t < targets; ++t) {
      Target target;
      target.penalty = t == 0 ? 0 : dice.between(0, 0.5);
      for (int b = 0; b < branches; ++b)
        target.points.push_back(anchor_at(dice, recipe.spread, 40, 80, 0, recipe.height));
      l.targets.push_back(std::move(target));
    }
    if (recipe.groups && dice.below(3) > 0) l.group = dice.below(2) == 0 ? "bones" : "muscles";
    if (recipe.sides) l.preferred = dice.below(3) - 1;
    p.labels.push_back(std::move(l));
  }
  return p;
}

}  // namespace platewright::place
