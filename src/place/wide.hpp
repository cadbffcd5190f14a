// The priced bound of many labels (strict_route.hpp), of which only the places
// that prices make likely can be looked at in every round. First prices are raised
// on those alone; then, for a bound that holds, many more places are opened around
// them, and shortcuts stand for the rest.
#pragma once

#include "place/strict_route.hpp"

namespace platewright::place {

struct WideBound {
  double bound = 0;  // no placement costs less
  RoutePrices prices;
  std::size_t work = 0;  // see Proof::work
};

// `model`: with all places. `prices`: to begin with; may be empty. `cost`: of a placement known.
// `rounds`: spent on likely prices before.
WideBound wide_bound(const RouteModel& model, const Thresholds& thresholds,
                     const RoutePrices& prices, double cost, int rounds);

// Prices raised on the likely places alone; a bound by them must be found anew.
RoutePrices likely_prices(const RouteModel& model, const Thresholds& thresholds,
                          const RoutePrices& prices, double cost, int rounds);

// By label the line on which routes by such prices meet it most often, in so many rounds of
// raising them, and the slot where the last one did; -1: none does.
struct Likely {
  int line = -1, slot = 0;
};
std::vector<Likely> likely_places(const RouteModel& model, const Thresholds& thresholds,
                                  const RoutePrices& prices, double cost, int rounds);

// By label: what a place surely costs that `wide_bound` leaves out, as far as is known before
// there is a model.
std::vector<double> far_beyond(const Problem& problem, double cost, const RoutePrices& prices);

std::vector<double> least_of(const RouteModel& model);  // by label: its cheapest place
// How many places of a model are open.
std::size_t places_of(const RouteModel& model);

}  // namespace platewright::place
