// The hard rules rechecked by GEOS (JTS's geometry in C++: distances, and
// predicates that are exact for doubles). Knows the problem's types and no
// geometry of ours. Written without sight of the solver or of place::verify.
#pragma once

#include <string>
#include <vector>

#include "place/problem.hpp"

namespace platewright::oracle {

struct Broken {
  std::string rule;  // as in place/verify.hpp, with "leader-crossing" said as "leader-gap"
  std::string first, second;
};

// `slack`: how far a rule may be missed, mm; negative: by how much it must be kept.
std::vector<Broken> geos_rules(const place::Problem& problem,
                               const std::vector<place::Placement>& placements, double slack = 1e-6);

}  // namespace platewright::oracle
