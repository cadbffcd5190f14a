// A placement to begin with, by quick searches only.
#pragma once

#include <vector>

#include "place/assignment.hpp"
#include "place/draft.hpp"

namespace platewright::place {

// Best draft by chains and moves over the most promising splits; where each breaks a
// rule, the shortest leaders all around are one more start, and the start with the
// fewest faults is untangled, unless there are more than `hopeless`.
bool first_draft(const std::vector<Station>& stations, const Offer& offer, double fair,
                 const std::vector<Assignment>& all, std::size_t tries, long effort,
                 double hopeless, long patience, Draft& best, double& best_cost);

}  // namespace platewright::place
