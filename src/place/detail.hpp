// Detail crossed for many leaders over one field.
#pragma once

#include <cstddef>
#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

// The field summed along its rows and along its columns. A segment is then looked up once for each
// row that it passes, or each column where it is steep, and not for each cell. A sum of n numbers
// from 0 to 1 is off by less than n * n * 2^-53.
class DetailSums {
 public:
  DetailSums() = default;  // calm everywhere
  explicit DetailSums(const DetailField& field);
  // What `field.along` gives, but for rounding, mm.
  double along(PagePoint from, PagePoint to) const;

 private:
  // Line after line: 0, the sums of one cell, of two cells and so on, and the last one twice.
  struct Lines {
    std::size_t size = 0;  // of a line
    std::vector<double> sums;
  };
  PageBox box_;
  int across_ = 0, down_ = 0;  // cells
  Lines rows_, columns_;
};

}  // namespace platewright::place
