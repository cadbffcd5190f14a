// Rechecks every hard rule of a solution from its coordinates alone, sharing no
// code with the solver beyond the problem's types.
#pragma once

#include <string>
#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

struct Violation {
  std::string rule;   // "label-overlap", "leader-crossing", "leader-gap", "leader-label",
                      // "anchor-gap", "outside", "obstacle", "missing"
  std::string first;  // anchors concerned
  std::string second;
  double amount = 0;  // by how many mm the rule is missed
};

// Tolerance 1e-6 mm. A foreign target is one that the other label's leader ends
// on. leader_gap (away from a shared end) and anchor_gap are relative to what the
// two labels can do: where all their targets lie nearer to each other than twice
// the rule, half of the most they can lie apart is asked; leaders to coincident
// targets may meet there, never cross. A port keeps leader_gap from every foreign
// leader, and every leader 0.5 mm from every foreign box.
std::vector<Violation> verify(const Problem& problem, const Solution& solution);

}  // namespace platewright::place
