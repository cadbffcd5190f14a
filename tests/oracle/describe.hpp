// A problem and a placement as short text, so that a failure can be rebuilt by hand.
#pragma once

#include <string>
#include <vector>

#include "place/problem.hpp"

namespace platewright::oracle {

std::string describe(const place::Problem& problem, const std::vector<place::Placement>& placements);

}  // namespace platewright::oracle
