// The two halves of solving a problem: the placement, and what none off the grid can fall below.
// Of several problems that are tried the second need only be known of the one that is taken.
#pragma once

#include <memory>
#include <variant>
#include <vector>

#include "place/place.hpp"
#include "place/route.hpp"

namespace platewright::place {

// As `solve_from`, but no label may stand inside its region, and the certificate says nothing of
// placements off the grid yet. `prices`: of the proof, for the other half. `reckoned`: of this
// problem, or null; then what was reckoned now.
std::variant<Solution, Infeasible> solve_unbounded(const Problem& problem, const Effort& effort,
                                                   const Start& start, RoutePrices& prices,
                                                   std::shared_ptr<const Reckoned>& reckoned);
void bound_off_grid(const Problem& problem, const Effort& effort, const RoutePrices& prices,
                    Solution& solution);

}  // namespace platewright::place
