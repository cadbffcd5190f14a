// A placement between the slots, where the slot grid has none or none was found.
#pragma once

#include <vector>

#include "place/rulebook.hpp"

namespace platewright::place {

// Orders come from a grid whose boxes and distances are smaller by what slots
// can take away; for each order the boxes are pushed apart to their true
// distances, tight where the column is full, and then slide until every rule of
// leaders holds (ports.hpp). False: nothing was found, which proves nothing.
bool off_grid(const Rulebook& rules, double step, std::vector<Placement>& found);

// The same for one known order: placements that may break rules.
bool settle(const Rulebook& rules, double step, std::vector<Placement>& placements);

}  // namespace platewright::place
