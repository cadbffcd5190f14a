// The fewest sheets of one paper for a silhouette, whichever way round.
#pragma once

#include "engine/real_paper.hpp"
#include "place/tiling.hpp"
#include "platewright/result.hpp"

namespace platewright {

struct RealTiling {
  place::Tiling tiling;
  bool landscape = false;
};

// Errors `paper-small`, `figure-empty`, `sheets-too-many`. `overlap` in mm.
Result<RealTiling> fewest_sheets(const place::Cells& cells, const RealPaper& paper, double overlap,
                                 const Style& style);

// What the bounding box would take, by the rule of the trade.
int sheets_for_box(const PageBox& box, const RealPaper& paper, double overlap);

}  // namespace platewright
