// Polygons around occupied cells. Pure; mm.
#pragma once

#include <vector>

#include "place/tiling.hpp"

namespace platewright::place {

using Polygon = std::vector<PagePoint>;  // closed: the last point joins the first

// The outer borders of the connected parts (four neighbours), along the cells'
// edges, clockwise as seen; holes are not shown. Largest first.
std::vector<Polygon> outlines(const Cells& cells);

// Without points that lie within `tolerance` of the rest (Ramer 1972, Douglas
// and Peucker 1973).
Polygon simplified(const Polygon& polygon, double tolerance);

// Twice the signed area is the sum of cross products; positive when clockwise as seen.
double area(const Polygon& polygon);

// Blocks of `by` x `by` cells as one, occupied where any of them is.
Cells coarser(const Cells& cells, int by);

}  // namespace platewright::place
