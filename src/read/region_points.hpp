// Where inside a region a leader may end: the point farthest from the edge
// first, then others well inside, spread over the region.
#pragma once

#include <vector>

#include "platewright/figure.hpp"
#include "read/region_mask.hpp"

namespace platewright::read {

// Exact Euclidean distance, in pixels, from each pixel's centre to the nearest
// centre of a pixel outside; 0 outside. What lies beyond the mask's window is
// outside. In linear time (Felzenszwalb and Huttenlocher, Distance Transforms
// of Sampled Functions, 2012).
std::vector<double> distance_to_edge(const Mask& mask);

// At most `most` points, best first; penalty = 1 - clearance / best clearance.
// Empty for an empty mask.
std::vector<AnchorPoint> region_points(const Mask& mask, const RasterFrame& frame,
                                       std::size_t most = 8);

}  // namespace platewright::read
