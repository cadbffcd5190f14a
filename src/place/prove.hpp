// The certificate of a grid: the cheapest placement of all, over all assignments
// to columns and rows, or as high a bound as the effort allows.
#pragma once

#include <stop_token>

#include "place/draft.hpp"
#include "place/route.hpp"

namespace platewright::place {

inline constexpr int shape_classes = 8;  // classes of box heights that a bound tells apart

struct Proof {
  double bound = 0;     // no placement on this grid costs less
  bool better = false;  // a cheaper placement than the given one was found
  Draft draft;          // then: it
  double cost = never;
  RoutePrices prices;  // that gave the bound
  std::size_t work = 0;  // places, arcs and states looked at, about 10 ns each
  bool complete =
      false;  // nothing is left unseen: `bound` is the least cost, never if there is none
};

// `cost`: of a placement already known, or never. `nodes`: see Effort. `prices`: to begin
// with, of a proof of more labels than these; may be empty. `stop`: see Effort.
Proof prove(const std::vector<Station>& stations, double fair, double cost, long nodes,
            const RoutePrices& known = {}, const std::stop_token& stop = {});

// No placement costs less, on a grid or off it. `cost`: of one already known.
// `prices`: to begin with, of a proof; may be empty.
double continuous_bound(const Rulebook& rules, double step, double cost, long nodes,
                        const RoutePrices& prices);

}  // namespace platewright::place
