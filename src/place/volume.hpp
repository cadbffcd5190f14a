// Prices of very many labels by the volume algorithm (Barahona and Anbil 2000): each step leads
// from the best prices known along a mean of what routes left out or met twice, so that prices
// settle where the subgradient method (subgradient.hpp) goes to and fro.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "place/subgradient.hpp"

namespace platewright::place {

// Routes and the result as of `raise`; `how.patience` and `how.share` are not used. `share`: of
// the step to a bound that is hoped for next; the caller keeps it from one call to the next.
// `after_round()`: the routes are those of the round.
template <class Routes, class AfterRound>
double raise_by_volume(Routes& routes, RoutePrices& prices, const Ascent& how, double& share,
                       AfterRound after_round) {
  constexpr double hoped = 0.015;                              // above the best bound
  constexpr double longest = 2, longer = 1.2, shorter = 0.66;  // of `share`
  constexpr int most_idle = 4;                                 // rounds without a better bound
  constexpr double newest = 0.3, least_newest = 0.03;          // of the mean
  const std::size_t n = prices.label.size();
  std::vector<double> mean(n, 0.0), way(n);
  std::vector<int> times;
  int lean = 0, idle = 0;
  double best = -never, mean_lean = 0;
  RoutePrices now = prices;
  for (int round = 0; round < how.rounds; ++round) {
    const double bound = routes.bound(now);
    routes.meets(times, lean);
    after_round();
    double along = 0, apart = 0, ahead = 0;
    for (std::size_t i = 0; i < n; ++i) {
      way[i] = 1.0 - times[i];
      along += way[i] * mean[i];
      ahead += mean[i] * (mean[i] - way[i]);
      apart += (way[i] - mean[i]) * (way[i] - mean[i]);
    }
    if (bound > best) {
      // The step was short: what it led to still points the same way.
      if (round > 0 && along > 0) share = std::min(longest, longer * share);
      best = bound;
      prices = now;
      idle = 0;
    } else if (++idle >= most_idle) {
      share *= shorter;
      idle = 0;
    }
    if (best >= how.target) break;
    // The shortest mean is nearest to a placement.
    const double part =
        round == 0 ? 1 : std::clamp(apart > 0 ? ahead / apart : newest, least_newest, newest);
    double square = 0;
    for (std::size_t i = 0; i < n; ++i) {
      mean[i] += part * (way[i] - mean[i]);
      square += mean[i] * mean[i];
    }
    mean_lean += part * (lean - mean_lean);
    if (square < 1e-12) break;
    const double target =
        std::min(how.target, best + std::max(hoped * std::abs(best), 1e-3 * how.target));
    const double step = share * (target - best) / square;
    now = prices;
    for (std::size_t i = 0; i < n; ++i) now.label[i] += step * mean[i];
    now.lean = next_lean(now.lean, mean_lean, how.most_lean, n);
  }
  return best;
}

}  // namespace platewright::place
