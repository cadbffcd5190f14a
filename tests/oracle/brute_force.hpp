// The optimum of the slot model by going through every assignment and order;
// branches are left only when the costs of single labels alone already exceed
// the best (neighbour costs are never negative). Written without sight of the
// solver.
#pragma once

#include <optional>
#include <vector>

#include "slot_model.hpp"

namespace platewright::oracle {

struct Best {
  double cost = 0;
  std::vector<place::Placement> placements;
};
std::optional<Best> brute_force(const place::Problem& problem, double slack = tolerance);

}  // namespace platewright::oracle
