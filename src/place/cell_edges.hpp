// Edges given in cells, to whole cells: one that lies a hair beside a cell's edge is on it.
#pragma once

#include <cmath>

namespace platewright::place {

inline constexpr double hair = 1e-9;  // of a cell: edges so near are one
inline int floor_cell(double at) { return static_cast<int>(std::floor(at + hair)); }
inline int ceil_cell(double at) { return static_cast<int>(std::ceil(at - hair)); }

}  // namespace platewright::place
