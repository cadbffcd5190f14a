// What labels cost at least off the slot grid: ports anywhere in a cell of their
// column or row. The cells are as long as divides the labels' heights best, so
// that boxes stacked on each other lose no room to rounding.
#pragma once

#include "place/route.hpp"
#include "place/rulebook.hpp"

namespace platewright::place {

struct CellModel {
  RouteModel model;
  std::vector<double> step;  // mm, by line
};

// Columns first, then rows. `wanted`: about how long cells should be, mm. `far`, by label: a cell
// that costs more than this without the detail crossed is not looked at closer; may be empty.
CellModel cell_model(const Rulebook& rules, double wanted, int most_shapes,
                     const std::vector<double>& far = {});

// No leader from a port of this stretch of a column or row costs less; the
// variant's penalty is left out. `low`, `high`: where the port may lie, mm.
double least_cost_within(const Problem& problem, const Label& label, Side side, double line,
                         double low, double high, int target);

}  // namespace platewright::place
