// Columns and rows each by itself, exactly: what an assignment of labels to them
// costs, and the cheapest of all assignments of few labels.
#pragma once

#include <vector>

#include "place/assignment.hpp"
#include "place/draft.hpp"
#include "place/one_side.hpp"

namespace platewright::place {

// Exact placement of one assignment on stations that hold at most 64 labels.
// False when nothing is below `below`, or (with `cost` set) when the leaders of
// two stations meet. `proven`: no search was cut short.
bool exact(std::vector<OneSide>& sides, const std::vector<Station>& stations, const Assignment& a,
           double below, Draft& draft, double& cost, bool& proven);

// Every assignment of few labels to two columns: each side exact, those left out
// whose cheapest places alone cost too much. What the sides cost without looking
// at each other is a bound for the assignment; where their leaders do not meet it
// is its cost. False when the effort ends before all are covered; else nothing
// costs less than `bound`.
inline constexpr std::size_t most_assigned_all_ways = 12;
bool all_assignments(std::vector<OneSide>& sides, const std::vector<Station>& stations, Draft& best,
                     double& best_cost, double& bound);

// Each label at its cheapest, and a break for each group that cannot share a station.
double whole_bound(const std::vector<Station>& stations);

}  // namespace platewright::place
