// Which regions of a figure become pieces.
#pragma once

#include <string>
#include <vector>

#include "engine/load.hpp"
#include "platewright/true_size.hpp"

namespace platewright {

// The regions that were named, else those with a term, the body itself left out. Errors
// `anchor-unknown`, `anchor-not-a-region`, `regions-missing`.
std::vector<std::string> wanted_regions(const PiecesRequest& request, const Loaded& loaded,
                                        Findings& findings);

}  // namespace platewright
