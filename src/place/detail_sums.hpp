// The detail field summed up along rows and columns, for many leaders' worth of integrals.
#pragma once

#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

// Answers as DetailField::along does, to rounding, in time proportional to the rows that a
// flat leader crosses, or the columns that a steep one does, and not to all cells.
class DetailSums {
 public:
  explicit DetailSums(const DetailField& field);
  // Integral along the segment, mm; 0 for an empty field.
  double along(PagePoint from, PagePoint to) const;

 private:
  // One direction of the grid: lanes side by side, each with its cells' running sums.
  struct Lanes {
    double start = 0, cell = 1;    // mm, along the lanes
    double across = 0, width = 1;  // mm, from lane to lane
    int lanes = 0, cells = 0;
    std::vector<double> sums;  // lane by lane, cells + 1 each: of all cells before
    double before(int lane, double along) const;
    double integral(double a0, double c0, double a1, double c1) const;
  };
  PageBox box_;
  Lanes rows_, columns_;
};

}  // namespace platewright::place
