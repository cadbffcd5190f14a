// From one grid of slots to others: what the first has, or a finer one, or a
// placement between the slots.
#pragma once

#include "place/two_sides.hpp"

namespace platewright::place {

// A placement that keeps every rule (`verify` has agreed), first on the slots of
// `step`, then on slots half and a quarter as long, then off the grid. Nothing
// short of a proof, or all of these, is taken for there being none; the witness
// is the first grid's. `used`: the slot of the grid that the answer is of.
// `known`: see solve_grid.
GridAnswer any_grid(const Rulebook& rules, double step, const Effort& effort, const Start& start,
                    double& used, const Reckoned* known = nullptr);

}  // namespace platewright::place
