// Where in a region words can be read: what is painted there is calm.
#pragma once

#include "platewright/raster.hpp"
#include "read/region_mask.hpp"

namespace platewright::read {

// Over the mask's window, a pixel a cell: 0 outside the region and where the paint is
// busy (a line, an edge, a texture), else 1 + 254 times the relative luminance (WCAG 2.2)
// of the darkest pixel around, on white paper.
FigureGrid text_room(const Mask& mask, const Pixels& pixels, const RasterFrame& frame);

}  // namespace platewright::read
