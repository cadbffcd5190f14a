// Moves ports off the slot grid to lower the cost, order, targets and variants
// kept.
#pragma once

#include "place/rulebook.hpp"

namespace platewright::place {

// The optimum for the order where that keeps every rule of leaders, to within a
// ten-thousandth of a mm; elsewhere the best of two descents (ports.hpp), one
// from the grid and one from the optimum without leaders. No move breaks a hard
// rule, none raises the cost. `step`: the grid's.
void polish(const Rulebook& rules, std::vector<Placement>& placements, double step);

// Lower bound on the cost of any placement, on or off the grid: each label at
// its cheapest by itself.
double continuous_bound(const Problem& problem);

}  // namespace platewright::place
