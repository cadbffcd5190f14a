// The promises that every printed sheet keeps, checked on what a browser saw:
// own geometry, independent of the solver and of its `verify`.
#pragma once

#include <string>
#include <vector>

#include "golden/browser.hpp"

namespace golden {

// Distances in mm; the hard rules of DEVELOPERS.md, less the thousandths that coordinates are
// rounded to.
struct Promises {
  double width = 0;             // of the page
  double height = 0;
  double text_floor_pt = 8;     // labels, lists, instructions, word banks, titles
  double edge = 3;              // white along the page's edge
  double label_gap = 1.0;
  double leader_gap = 0.8;      // away from a shared end
  double anchor_gap = 1.0;      // leader to a foreign anchor
  double rounding = 0.01;
  bool off_figure = true;       // labels stand off what is painted
  bool text_widths = true;      // the browser's own type is as wide as the sheet says
};

// Every broken promise, one sentence each; empty when all is well.
std::vector<std::string> broken(const SeenSheet& sheet, const Promises& promises);

double distance(Point p, Point a, Point b);                  // point to segment
double distance(Point a, Point b, Point c, Point d);         // segment to segment, 0 when they meet
double distance(Point a, Point b, const Box& box);           // segment to box, 0 when they meet
double distance(const Box& a, const Box& b);

}  // namespace golden
