#include <algorithm>
#include <cmath>

#include "place/problem.hpp"

namespace platewright::place {

// Walks the grid cell by cell (Amanatides and Woo 1987), so the integral is
// exact for the piecewise constant field.
double DetailField::along(PagePoint from, PagePoint to) const {
  if (columns <= 0 || rows <= 0 || values.empty() || box.w <= 0 || box.h <= 0) return 0;
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  if (!(length > 0)) return 0;
  const double cell_w = box.w / columns, cell_h = box.h / rows;
  const double dx = to.x - from.x, dy = to.y - from.y;
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
  clip(from.x, dx, box.left(), box.right());
  clip(from.y, dy, box.top(), box.bottom());
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

}  // namespace platewright::place
