// What one label's leaders must keep off: the anchors of all the others.
#pragma once

#include <cstddef>
#include <vector>

#include "place/candidates.hpp"
#include "place/rulebook.hpp"

namespace platewright::place {

// The anchors that one label's leaders must pass at a distance.
struct Foreign {
  struct Point {
    PagePoint at;
    double gap = 0;
  };
  std::vector<Point> fixed;  // of labels with one target only, by y
  // Of labels that may choose among targets, one after the other: their targets' points.
  struct Choosing {
    int label = 0;
    std::size_t targets_begin = 0, targets_end = 0;
    // Some target lies wholly above `above`, one wholly below `below`, and likewise for x. What
    // lies past one of these leaves that target room.
    double left = never, right = -never, above = never, below = -never;
  };
  std::vector<Choosing> choosing;
  std::vector<std::size_t> points_end;  // by target
  std::vector<PagePoint> points;
};

Foreign foreign_to(const Rulebook& rules, int self, const Offer& offer);
// Every other label has a target that this leader keeps its distance from.
bool leaves_room(const Rulebook& rules, const Placed& self, const Foreign& foreign);

}  // namespace platewright::place
