// How far a layout is from calm: leaders short and near the horizontal, gaps even,
// columns balanced.
#pragma once

#include "platewright/layout.hpp"

namespace platewright::place {

// A page within all limits is calm. Where one is not, the figure may become smaller,
// down to `smallest` of the largest that fits, so that leaders have room to fan out.
struct Calm {
  double length = 1.15;        // leaders against the shortest they could be
  double angle = 35;           // 95 % of the leaders, degrees from the horizontal
  double gap_variation = 0.35;
  double balance = 0.15;       // or the least possible, where that is more
  double smallest = 1;         // 1: never smaller
};

// By which shares of themselves the limits are passed, added up; 0: calm.
double unrest(const LayoutMetrics& metrics, const Calm& calm);

// What a page loses by its unrest and by a figure of only such a share of the size that fits.
double unease(double unrest, double share);

}  // namespace platewright::place
