#include "place/detail_sums.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"

namespace platewright::place {

DetailSums::DetailSums(const DetailField& field) : box_(field.box) {
  if (field.columns <= 0 || field.rows <= 0 || field.values.empty() || box_.w <= 0 || box_.h <= 0)
    return;
  const auto sum_up = [&](Lanes& lanes, auto&& value) {
    for (int lane = 0; lane < lanes.lanes; ++lane) {
      double sum = 0;
      lanes.sums.push_back(0);
      for (int cell = 0; cell < lanes.cells; ++cell)
        lanes.sums.push_back(sum += static_cast<double>(value(lane, cell)));
    }
  };
  const auto value = [&](int row, int column) {
    return field.values[at(row) * at(field.columns) + at(column)];
  };
  rows_ = {box_.x,     box_.w / field.columns, box_.y, box_.h / field.rows,
           field.rows, field.columns,          {}};
  columns_ = {box_.y,        box_.h / field.rows, box_.x, box_.w / field.columns,
              field.columns, field.rows,          {}};
  sum_up(rows_, value);
  sum_up(columns_, [&](int column, int row) { return value(row, column); });
}

// Sum of the lane's cells from its start to `along`, in cells.
double DetailSums::Lanes::before(int lane, double along) const {
  const int whole = std::clamp(static_cast<int>(along), 0, cells - 1);
  const double* const sum = &sums[at(lane) * (at(cells) + 1)];
  const double part = std::clamp(along - whole, 0.0, 1.0);
  return sum[whole] + part * (sum[whole + 1] - sum[whole]);
}

// Of the field over the way along the lanes from (a0, c0) to (a1, c1), a along and c
// across them, in cells and lanes: what each lane that is crossed adds.
double DetailSums::Lanes::integral(double a0, double c0, double a1, double c1) const {
  const int first = std::clamp(static_cast<int>(std::floor(std::min(c0, c1))), 0, lanes - 1),
            last = std::clamp(static_cast<int>(std::ceil(std::max(c0, c1))) - 1, first, lanes - 1);
  if (first == last) return before(first, a1) - before(first, a0);
  // From the lane that the way starts in to the one that it ends in.
  const double slope = (a1 - a0) / (c1 - c0);
  double sum = 0;
  for (int lane = first; lane <= last; ++lane) {
    const double low = std::max<double>(lane, std::min(c0, c1)),
                 high = std::min<double>(lane + 1, std::max(c0, c1));
    const double from = a0 + (low - c0) * slope, to = a0 + (high - c0) * slope;
    sum += before(lane, to) - before(lane, from);
  }
  return c1 > c0 ? sum : -sum;
}

double DetailSums::along(PagePoint from, PagePoint to) const {
  if (rows_.lanes == 0) return 0;
  const double dx = to.x - from.x, dy = to.y - from.y;
  const double length = std::hypot(dx, dy);
  if (!(length > 0)) return 0;
  // The part within the field.
  double enter = 0, leave = 1;
  const auto clip = [&](double start, double delta, double low, double high) {
    if (std::abs(delta) < 1e-15) {
      if (start < low || start > high) leave = -1;
      return;
    }
    const double a = (low - start) / delta, b = (high - start) / delta;
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  };
  clip(from.x, dx, box_.left(), box_.right());
  clip(from.y, dy, box_.top(), box_.bottom());
  if (enter >= leave) return 0;
  // Over the direction with more cells to cross, so that the other crosses few lanes.
  const bool flat = std::abs(dx) / rows_.cell >= std::abs(dy) / rows_.width;
  const Lanes& lanes = flat ? rows_ : columns_;
  const double a = flat ? from.x : from.y, da = flat ? dx : dy;
  const double c = flat ? from.y : from.x, dc = flat ? dy : dx;
  const double a0 = (a + enter * da - lanes.start) / lanes.cell,
               a1 = (a + leave * da - lanes.start) / lanes.cell,
               c0 = (c + enter * dc - lanes.across) / lanes.width,
               c1 = (c + leave * dc - lanes.across) / lanes.width;
  // From cells passed to millimetres walked.
  return lanes.integral(a0, c0, a1, c1) * lanes.cell / da * length;
}

}  // namespace platewright::place
