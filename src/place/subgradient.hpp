// Prices of labels by the subgradient method: a label that the cheapest route
// leaves out is worth more, one that it meets twice less.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "place/route.hpp"

namespace platewright::place {

struct Ascent {
  double target = 0;     // a cost that the bound is hoped to reach; it stops there
  double most_lean = 0;  // see RoutePrices::lean
  int rounds = 50;
  int patience = 5;  // rounds without a better bound before steps get shorter
  double share = 1;  // of Polyak's step, at first
};

// A step of the price of a lean of the routes (more on the left than on the right) by which the
// bound rises; of an odd number of labels one is no fault of either side (least_uneven, whose slope
// is taken off by a proximal step).
inline double next_lean(double price, double lean, double most, std::size_t labels) {
  const double step = 0.1 * most, next = price + step * lean;
  const double free = labels % 2 == 0 ? 0 : std::min(std::abs(next), step);
  return std::clamp(next - std::copysign(free, next), -most, most);
}

// Routes: has bound(prices), meets(times, lean). Leaves the best prices in
// `prices`; returns the best bound. `after_round(round)`: true where it changed the routes.
template <class Routes, class AfterRound>
double raise(Routes& routes, RoutePrices& prices, const Ascent& how, AfterRound after_round) {
  const std::size_t n = prices.label.size();
  RoutePrices now = prices;
  double best = -never, share = how.share;
  std::vector<int> times;
  std::vector<double> way;  // GCC 12 warns, without reason, of one that is made full
  way.resize(n, 0.0);
  int lean = 0, idle = 0;
  for (int round = 0; round < how.rounds; ++round) {
    double bound = routes.bound(now);
    if (bound > best + 1e-5 * std::abs(how.target - best)) {
      idle = 0;
    } else if (++idle > how.patience) {
      share /= 2;
      idle = 0;
      now = prices;
      std::fill(way.begin(), way.end(), 0.0);
      bound = routes.bound(now);
    }
    // Of prices that raise the bound by rounding alone the first are taken: on places left out for
    // now later ones may be far too high.
    if (bound > best + 1e-9 * std::max(1.0, std::abs(bound))) best = bound, prices = now;
    if (best >= how.target) break;
    routes.meets(times, lean);
    if (after_round(round)) idle = 0;
    double square = 0;
    for (std::size_t i = 0; i < n; ++i) {
      way[i] = 0.6 * way[i] + 1.0 - times[i];
      square += way[i] * way[i];
    }
    if (square < 1e-12) break;
    const double step = share * (how.target - bound) / square;
    for (std::size_t i = 0; i < n; ++i) now.label[i] += step * way[i];
    now.lean = next_lean(now.lean, lean, how.most_lean, n);
  }
  return best;
}

template <class Routes>
double raise(Routes& routes, RoutePrices& prices, const Ascent& how) {
  return raise(routes, prices, how, [](int) { return false; });
}

}  // namespace platewright::place
