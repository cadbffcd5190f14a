// On which side of a line a point lies, decided without rounding error.
#pragma once

#include "platewright/geometry.hpp"

namespace platewright::place {

// Sign of the determinant |b-a, c-a|: +1, 0 or -1. Exact for all finite doubles
// whose products neither overflow nor underflow.
int exact_turn(PagePoint a, PagePoint b, PagePoint c);

}  // namespace platewright::place
