// A drawing of a solve, for whoever must understand a placement: not a sheet
// for readers.
#pragma once

#include <string>

#include "compose/page.hpp"
#include "compose/plan.hpp"
#include "place/place.hpp"

namespace platewright::compose {

// The page with the figure pale, columns and rows, slots (those taken darker),
// boxes, leaders, and thin red leaders that a label would rather have had; beside
// it, in words, bounds and gaps, the cost term by term, the witness of each fallback
// and what each label pays. `input` needs figure, plan, style, typesetter, matter.
Page explain_page(const SheetInput& input, const place::Fit& fit);

}  // namespace platewright::compose
