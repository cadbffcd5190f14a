// Shapes of cells grown and rounded by exact distances. Pure; mm.
#pragma once

#include "place/tiling.hpp"

namespace platewright::place {

// Squared distance, in cells, from each cell's centre to the nearest occupied
// cell's centre (Felzenszwalb and Huttenlocher 2012, distance transforms of
// sampled functions); row by row.
std::vector<double> squared_distances(const Cells& cells);

// Cells whose centre lies within `by` of an occupied cell's. The grid must
// reach that far beyond what is occupied.
Cells grown(const Cells& cells, double by);
// Cells farther than `by` from every free cell and from the grid's edge.
Cells shrunk(const Cells& cells, double by);
// Grown and shrunk again: hollows narrower than twice `radius` are filled, inner
// corners rounded.
Cells closed(const Cells& cells, double radius);

// With `cells` of free cells added on all sides.
Cells framed(const Cells& cells, int by);

}  // namespace platewright::place
