// From declarations, marker points and region masks to the figure's anchors.
#pragma once

#include <vector>

#include "platewright/figure.hpp"
#include "read/anchors_declared.hpp"
#include "read/anchors_markers.hpp"
#include "read/anchors_regions.hpp"
#include "read/svg_drawing.hpp"

namespace platewright::read {

// Sorted by name. Errors: `anchor-unseen` for one that is declared but never
// drawn, `region-empty` for a region without any extent. Warning:
// `anchor-outside` for a point far outside the view box.
std::vector<Anchor> found_anchors(const std::vector<AnchorDeclaration>& declarations,
                                  const std::vector<MarkerPoint>& markers,
                                  const std::vector<DrawnRegion>& regions,
                                  const std::vector<Mask>& masks, const Pixels& pixels,
                                  const RasterFrame& frame,
                                  Findings& findings);

}  // namespace platewright::read
