#include "place/first_draft.hpp"

#include <algorithm>
#include <limits>

namespace platewright::place {

bool first_draft(const std::vector<Station>& stations, const Offer& offer, double fair,
                 const std::vector<Assignment>& all, std::size_t tries, long effort,
                 double hopeless, long patience, Draft& best, double& best_cost) {
  best_cost = never;
  Draft start;
  int faults = std::numeric_limits<int>::max();
  const auto consider = [&](Draft draft) {
    improve(stations, fair, draft, effort);
    const double cost = draft_cost(stations, fair, draft);
    if (cost < best_cost) best_cost = cost, best = draft;
    if (best_cost < broken) return;
    if (const int now = draft_faults(stations, draft); now < faults)
      faults = now, start = std::move(draft);
  };
  for (std::size_t k = 0; k < std::min(tries, all.size()); ++k)
    consider(draft_from(stations, fair, all[k].station_of, 8));
  if (best_cost < broken) return true;
  if (patience <= 0) return false;
  if (faults > 3 * hopeless) return false;
  if (Draft draft; draft_by_matching(stations, offer, fair, draft)) consider(std::move(draft));
  if (best_cost < broken) return true;
  if (faults > hopeless) return false;
  if (!untangle(stations, start, patience)) {
    best = std::move(start);
    best_cost = draft_cost(stations, fair, best);
    return false;
  }
  improve(stations, fair, start, effort);
  best_cost = draft_cost(stations, fair, start);
  best = std::move(start);
  return best_cost < broken;
}

}  // namespace platewright::place
