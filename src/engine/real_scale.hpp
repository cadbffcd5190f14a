// From what the request says of a real length to mm on paper for a figure unit.
#pragma once

#include <optional>
#include <string>

#include "platewright/figure.hpp"
#include "platewright/true_size.hpp"

namespace platewright {

struct RealScale {
  double mm_per_unit = 1;
  std::string from, to;  // anchors
  Length length;         // between them
  FigurePoint from_at, to_at;
  bool is_stature = false;
  std::optional<double> age;  // the stature is of this age,
  double percentile = 50;     // at this percentile; 50: the average
  bool mean_of_both = false;  // of girls and boys
};

// Errors `size-missing`, `size-twice`, `between-invalid`, `length-invalid`,
// `anchor-unknown`, `anchors-coincide`, `age-range`, `percentile-range`,
// `sex-unknown`, `option-idle`; warnings `anchor-not-a-point`, `stature-mean`.
Result<RealScale> real_scale(const RealSize& size, const Figure& figure);

// What is wrong with the request alone, before there is a figure.
Findings check_real_size(const RealSize& size);

}  // namespace platewright
