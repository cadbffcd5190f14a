// The words of a label set beside the parts of a tiled figure.
#pragma once

#include "compose/true_size.hpp"
#include "engine/load.hpp"

namespace platewright {

// Sets and places them into `input.labels`. Warnings `label-across-join`; error `label-unplaced`.
Findings place_body_labels(const Loaded& loaded, bool blanks, const std::string& terms_file,
                           compose::TrueSizeInput& input);

}  // namespace platewright
