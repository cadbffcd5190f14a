// Two plain ways to place labels that the solver is measured against: none looks
// ahead, none proves anything, both may let leaders cross. Written for the bench,
// without sight of the solver.
#pragma once

#include <vector>

#include "place/problem.hpp"

namespace platewright::bench {

// Each label goes to the nearer column (over to the other when it is full), and
// labels stand in each column in the order of their targets from the top down,
// each as near its target as those above let it.
std::vector<place::Placement> y_order_stacking(const place::Problem& problem);

// The same start; then labels on one column push each other apart and are drawn
// to their targets by springs for 400 rounds, may pass each other, and are set
// apart in the order in which they come to rest.
std::vector<place::Placement> force_directed(const place::Problem& problem);

// Pairs of leaders that cross.
int crossings(const place::Problem& problem, const std::vector<place::Placement>& placements);

}  // namespace platewright::bench
