// Straight strokes, and how far they are from one another, from points and from
// boxes (mm). A second writing of the geometry of leaders, in long double.
// Written without sight of the solver; see slot_model.hpp.
#pragma once

#include "platewright/geometry.hpp"

namespace platewright::oracle {

struct Stroke {
  PagePoint from, to;
};

// Two strokes cross or touch.
bool meet(const Stroke& a, const Stroke& b);
// Two strokes that end in one point (`to`) come to it from the same direction.
bool same_direction(const Stroke& a, const Stroke& b);
// Least distances, mm; 0 where they meet.
double apart(const Stroke& a, const Stroke& b);
double apart(const Stroke& stroke, const PageBox& box);
double apart(const PageBox& a, const PageBox& b);

}  // namespace platewright::oracle
