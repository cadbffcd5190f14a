// Names and blanks beside the parts of a figure that is tiled over sheets.
// Pure; mm in the true-size frame.
//
// Joins are obstacles: a label's box lies within one sheet, off the strips that
// sheets share, as long as any place there is left. Boxes keep apart, leaders
// cross neither each other nor boxes. Each label takes the cheapest place that
// the others leave, in turns until nothing gets better: a short leader to blank
// paper is cheap, a sheet more for it is dearer, covering the drawing dearest.
#pragma once

#include <string>
#include <vector>

#include "place/tiling.hpp"

namespace platewright::place {

struct BodyLabelRequest {
  std::string anchor;
  double width = 0, height = 0;
  double port_down = 0;            // from the box's top to where a leader leaves its sides
  std::vector<PagePoint> targets;  // one is taken
};

struct BodyLabelPlace {
  bool placed = false;
  bool across_join = false;  // lies on a strip that two sheets share
  PageBox box;
  PagePoint port, target;
};

struct BodyLabelRules {
  double gap = 2.5;         // between boxes, and from box to foreign target
  double leader_gap = 1.5;  // between leaders, and from leader to foreign box
  double reach = 220;       // farthest from target to box
  double step = 5;          // of places tried
  double covering = 500;    // mm of leader that covering the drawing with a whole box is worth
  double new_sheet = 130;   // mm of leader that a label on a sheet otherwise empty is worth
};

// Labels may come to lie on empty tiles of the grid, which are then to be printed too.
std::vector<BodyLabelPlace> body_labels(const std::vector<BodyLabelRequest>& labels,
                                        const Tiling& tiling, const Occupancy& figure,
                                        const BodyLabelRules& rules = {});

}  // namespace platewright::place
