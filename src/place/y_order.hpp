// Labels stacked in the order of their targets, the plain way to place them, which
// metrics and benchmarks compare with: nothing looks ahead, leaders may cross.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

// Labels of each column by the height at which they want to stand: each label on the
// nearer column, over on another where that is full. Labels in their natural variants
// (the narrowest where that is too wide), leaders to their best targets.
using StackedColumns = std::vector<std::vector<std::pair<double, std::size_t>>>;
StackedColumns nearer_sides(const Problem& problem);

// Each label as near its wish as those above it let it, from the top down; then up
// again from the foot where that ran over.
void stack(const Problem& problem, const StackedColumns& columns, std::vector<Placement>& placements);

// Both. Without columns: no placements.
std::vector<Placement> y_order_stacking(const Problem& problem);

}  // namespace platewright::place
