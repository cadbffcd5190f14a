// Rechecks every hard rule of a solution from its coordinates alone, sharing no
// code with the solver beyond the problem's types.
#pragma once

#include <string>
#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

struct Violation {
  std::string rule;    // "label-overlap", "leader-crossing", "leader-gap", "leader-label", "anchor-gap", "outside", "obstacle", "missing"
  std::string first;   // anchors concerned
  std::string second;
  double amount = 0;   // by how many mm the rule is missed
};

// Tolerance 1e-6 mm.
std::vector<Violation> verify(const Problem& problem, const Solution& solution);

}  // namespace platewright::place
