// Prices and the priced bound (strict_route.hpp) where places are too many to be looked at in
// every round: prices are raised on the likely ones alone, and the bound is then found on all
// places, or on many more with shortcuts that stand for the rest.
#pragma once

#include "place/strict_route.hpp"

namespace platewright::place {

// A bound on what any placement costs. `model`: with all places. `prices`: to begin with, may be
// empty; then those that give the bound. `cost`: of a placement known. `rounds`: spent on likely
// prices before.
double wide_bound(const RouteModel& model, const Thresholds& thresholds, RoutePrices& prices,
                  double cost, int rounds);

// Prices raised on the likely places alone; a bound by them must be found anew.
RoutePrices likely_prices(const RouteModel& model, const Thresholds& thresholds,
                          const RoutePrices& prices, double cost, int rounds);

// By label the line on which routes by such prices meet it most often, and the slot where the
// last one did; -1: none does.
struct Likely {
  int line = -1, slot = 0;
};
std::vector<Likely> likely_places(const RouteModel& model, const Thresholds& thresholds,
                                  const RoutePrices& prices, double cost, int rounds);
// Prices of very many labels, raised in turns: each turn looks at those places alone that routes
// by the prices it starts with come near. Returns the best bound, which holds for all places of
// the model. `share`: see raise_by_volume. `likely`: of the last turn; may be null.
double raise_in_turns(const RouteModel& model, const Thresholds& thresholds, RoutePrices& prices,
                      double cost, int rounds, double& share, std::vector<Likely>* likely);

// By label: what a place surely costs that `wide_bound` leaves out, as far as is known before
// there is a model.
std::vector<double> far_beyond(const Problem& problem, double cost, const RoutePrices& prices);

std::vector<double> least_of(const RouteModel& model);  // by label: its cheapest place
// How many places of a model are open.
std::size_t places_of(const RouteModel& model);

}  // namespace platewright::place
