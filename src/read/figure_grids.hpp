// What the raster of a figure tells: where anything is painted and where the
// drawing is busy.
#pragma once

#include "platewright/figure.hpp"
#include "read/svg_drawing.hpp"

namespace platewright::read {

// 255 where painted. Near-white that reaches the picture's border (a white
// background) is blank paper. One cell a pixel.
FigureGrid silhouette(const Pixels& pixels, const RasterFrame& frame);

// How much the lightness changes (gradient of Rec. 709 luma on white paper),
// averaged over cells of about 1/100 of the larger side, the busiest cell 255.
FigureGrid detail(const Pixels& pixels, const RasterFrame& frame);

// The smallest box of cells that holds all painted ones; zero-sized when none is.
FigureBox painted_box(const FigureGrid& silhouette);

}  // namespace platewright::read
