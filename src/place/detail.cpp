#include "place/detail.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace platewright::place {
namespace {

// The part of a segment, as shares of it, that lies in the field.
struct Stretch {
  double enter = 0, leave = 1;
};

Stretch within(const PageBox& box, PagePoint from, double dx, double dy) {
  Stretch s;
  const auto clip = [&](double start, double delta, double low, double high) {
    if (std::abs(delta) < 1e-15) {
      if (start < low || start > high) s.leave = -1;
      return;
    }
    const double a = (low - start) / delta, b = (high - start) / delta;
    s.enter = std::max(s.enter, std::min(a, b));
    s.leave = std::min(s.leave, std::max(a, b));
  };
  clip(from.x, dx, box.left(), box.right());
  clip(from.y, dy, box.top(), box.bottom());
  return s;
}

bool is_calm(const DetailField& field) {
  return field.columns <= 0 || field.rows <= 0 || field.values.empty() || field.box.w <= 0 ||
         field.box.h <= 0;
}

}  // namespace

// Walks the grid cell by cell (Amanatides and Woo 1987), so the integral is
// exact for the piecewise constant field.
double DetailField::along(PagePoint from, PagePoint to) const {
  if (is_calm(*this)) return 0;
  const double length = distance(from, to);
  if (!(length > 0)) return 0;
  const double cell_w = box.w / columns, cell_h = box.h / rows;
  const double dx = to.x - from.x, dy = to.y - from.y;
  const auto [enter, leave] = within(box, from, dx, dy);
  if (enter >= leave) return 0;

  const double gx = (from.x + enter * dx - box.x) / cell_w,
               gy = (from.y + enter * dy - box.y) / cell_h;
  int column = std::clamp(static_cast<int>(std::floor(gx)), 0, columns - 1);
  int row = std::clamp(static_cast<int>(std::floor(gy)), 0, rows - 1);
  const int step_x = dx > 0 ? 1 : -1, step_y = dy > 0 ? 1 : -1;
  constexpr double never = 1e300;
  const double stride_x = std::abs(dx) > 1e-15 ? cell_w / std::abs(dx) : never;
  const double stride_y = std::abs(dy) > 1e-15 ? cell_h / std::abs(dy) : never;
  const auto wall = [](int index, int step) { return step > 0 ? index + 1 : index; };
  double next_x = stride_x == never ? never : (box.x + wall(column, step_x) * cell_w - from.x) / dx;
  double next_y = stride_y == never ? never : (box.y + wall(row, step_y) * cell_h - from.y) / dy;
  double at = enter, sum = 0;
  const float* value = &values[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                               static_cast<std::size_t>(column)];
  const std::ptrdiff_t step_row = step_y > 0 ? columns : -columns;
  // Steps that are left before the field ends.
  int left_x = step_x > 0 ? columns - 1 - column : column;
  int left_y = step_y > 0 ? rows - 1 - row : row;
  while (at < leave) {
    const bool across = next_x <= next_y;
    const double wall_at = across ? next_x : next_y;
    const double until = wall_at < leave ? wall_at : leave;
    if (until > at) {
      sum += (until - at) * static_cast<double>(*value);
      at = until;
    }
    if (at >= leave) break;
    if (across) {
      if (--left_x < 0) break;
      value += step_x;
      next_x += stride_x;
    } else {
      if (--left_y < 0) break;
      value += step_row;
      next_y += stride_y;
    }
  }
  return sum * length;
}

DetailSums::DetailSums(const DetailField& field) {
  if (is_calm(field)) return;
  box_ = field.box, across_ = field.columns, down_ = field.rows;
  const auto columns = static_cast<std::size_t>(field.columns),
             rows = static_cast<std::size_t>(field.rows);
  rows_ = {columns + 2, std::vector<double>(rows * (columns + 2))};
  columns_ = {rows + 2, std::vector<double>(columns * (rows + 2))};
  for (std::size_t r = 0; r < rows; ++r)
    for (std::size_t c = 0; c < columns; ++c) {
      const auto value = static_cast<double>(field.values[r * columns + c]);
      double* in_row = &rows_.sums[r * rows_.size + c];
      double* in_column = &columns_.sums[c * columns_.size + r];
      in_row[1] = in_row[0] + value;
      in_row[2] = in_row[1];
      in_column[1] = in_column[0] + value;
      in_column[2] = in_column[1];
    }
}

double DetailSums::along(PagePoint from, PagePoint to) const {
  if (rows_.size == 0) return 0;
  const double dx = to.x - from.x, dy = to.y - from.y;
  const double square = dx * dx + dy * dy;
  if (!(square > 0)) return 0;
  const auto [enter, leave] = within(box_, from, dx, dy);
  if (enter >= leave) return 0;
  // In cells: `far` along the lines that are looked up, `over` across them.
  const double cell_w = box_.w / across_, cell_h = box_.h / down_;
  double far_from = (from.x - box_.x) / cell_w, far_by = dx / cell_w;
  double over_from = (from.y - box_.y) / cell_h, over_by = dy / cell_h;
  const bool steep = std::abs(over_by) > std::abs(far_by);
  if (steep) std::swap(far_from, over_from), std::swap(far_by, over_by);
  const Lines& lines = steep ? columns_ : rows_;
  const int last = (steep ? across_ : down_) - 1;

  const double over = over_from + enter * over_by;
  const int first = std::clamp(static_cast<int>(over), 0, last);
  // One that hardly leaves its line is taken to stay there.
  const int end = std::abs(over_by) < 1e-7
                      ? first
                      : std::clamp(static_cast<int>(over_from + leave * over_by), 0, last);
  const double start = far_from + enter * far_by, stop = far_from + leave * far_by;
  // The sum of one line from its first cell to `at`.
  const auto upto = [](const double* line, double at) {
    const auto cell = static_cast<std::int32_t>(at);
    const double* sum = line + cell;
    return sum[0] + (at - cell) * (sum[1] - sum[0]);
  };
  const double* line = &lines.sums[static_cast<std::size_t>(first) * lines.size];
  double sum = -upto(line, start);
  if (first != end) {
    const int step = end > first ? 1 : -1;
    const std::ptrdiff_t next = step * static_cast<std::ptrdiff_t>(lines.size);
    const double stride = far_by / std::abs(over_by);
    double at = start + std::abs(first + (step > 0 ? 1 : 0) - over) * stride;
    for (int k = std::abs(end - first); k > 0; --k, at += stride) {
      sum += upto(line, at);
      line += next;
      sum -= upto(line, at);
    }
  }
  sum += upto(line, stop);
  return sum / far_by * std::sqrt(square);
}

}  // namespace platewright::place
