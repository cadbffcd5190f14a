// Which paper to take where one is too small.
#pragma once

#include <vector>

#include "platewright/paper.hpp"

namespace platewright {

// Larger papers that are sold where this one is (in inches or metric), smallest first.
std::vector<Paper> larger_papers(const Paper& paper);

}  // namespace platewright
