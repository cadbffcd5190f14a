// Routes forwards and backwards, which know together what each place costs at
// least: places that nothing good can use are taken away.
#pragma once

#include <algorithm>

#include "place/strict_route.hpp"

namespace platewright::place {

// A model without closed places with its routes forwards and backwards, which know together what each
// place costs at least.
class BothWays {
 public:
  BothWays(const RouteModel& model, const Thresholds& thresholds);
  BothWays(const BothWays&) = delete;
  BothWays& operator=(const BothWays&) = delete;

  double bound(const RoutePrices& prices) { return ahead_.bound(prices); }
  void meets(std::vector<int>& times, int& lean) const { ahead_.meets(times, lean); }
  // Takes away the places of which no route by these prices costs less than `below`.
  void thin(const RoutePrices& prices, double below);
  // The same for places of which no route is less than so much above the bound, which it returns.
  double thin_beyond(const RoutePrices& prices, double more);

  const RouteModel& model() const { return model_; }
  const StrictRoute& ahead() const { return ahead_; }
  // Routes from a place on, after `look_back`.
  const Two& after(std::size_t line, std::size_t entry, int slot) const;
  double rest_of(std::size_t line) const;
  void look_back(const RoutePrices& prices) { back_.bound(prices); }

 private:
  void leave_below(double below);

  RouteModel model_, back_model_;
  Thresholds thresholds_, back_thresholds_;
  StrictRoute ahead_, back_;
};

// The least of routes through a place, the place left out: no label is met right
// before and right after it.
inline double through(const Two& before, const Two& after) {
  if (before.label < 0 || before.label != after.label) return before.best + after.best;
  return std::min(before.best + after.other, before.other + after.best);
}

}  // namespace platewright::place
