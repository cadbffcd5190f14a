// Large-neighbourhood search: all labels but a few next to each other stay, those
// few are placed anew, exactly; window by window until none gets better or the
// effort ends (Shaw 1998; Pisinger and Ropke 2010, Handbook of Metaheuristics,
// chapter 13). Deterministic; effort is counted, not clocked.
#pragma once

#include "place/draft.hpp"
#include "place/route.hpp"

namespace platewright::place {

// `draft` keeps every rule and costs `cost`; both become what was found. `prices`: of labels, of a
// bound on them all; may be empty. `sizes`: labels set free in each window, sweep by sweep.
// `nodes`: see Effort; so much for each window. `work`: see Proof; for all windows together,
// what is left of it. `worth`: less than this share of the cost no window need save. True when it
// got better.
bool sweep_windows(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
                   const RoutePrices& prices, const std::vector<std::size_t>& sizes, long nodes,
                   long& work, double worth = 0);

// Windows around the labels of a draft that break rules, wider ones where they do not help;
// `cost` counts `broken` for each fault, before and after. True when every rule is kept.
bool mend_windows(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
                  const RoutePrices& prices, const std::vector<std::size_t>& sizes, long nodes,
                  long& work);

}  // namespace platewright::place
