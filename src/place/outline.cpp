#include "place/outline.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::place {
namespace {

// Directions right, down, left, up.
constexpr int step_x[] = {1, 0, -1, 0};
constexpr int step_y[] = {0, 1, 0, -1};
// The cells ahead of a corner, to the left and to the right of the way.
constexpr int left_x[] = {0, 0, -1, -1};
constexpr int left_y[] = {-1, 0, 0, -1};
constexpr int right_x[] = {0, -1, -1, 0};
constexpr int right_y[] = {0, 0, -1, -1};

double distance_to(PagePoint p, PagePoint a, PagePoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y, length = dx * dx + dy * dy;
  if (length <= 0) return distance(p, a);
  const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length, 0.0, 1.0);
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

}  // namespace

std::vector<Polygon> outlines(const Cells& cells) {
  const int w = cells.columns, h = cells.rows;
  const auto index = [&](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x);
  };
  const auto set = [&](int x, int y) {
    return x >= 0 && y >= 0 && x < w && y < h && cells.values[index(x, y)] != 0;
  };
  std::vector<std::uint8_t> seen(cells.values.size(), 0);
  std::vector<Polygon> all;
  std::vector<std::size_t> front;
  for (int y = 0; y < h; ++y)
    for (int x = 0; x < w; ++x) {
      if (!set(x, y) || seen[index(x, y)]) continue;
      // A new part, found at the left end of its top row: its border begins with
      // that cell's upper edge, and the part lies to the right of the way.
      front.assign(1, index(x, y));
      seen[index(x, y)] = 1;
      while (!front.empty()) {
        const auto at = static_cast<int>(front.back());
        front.pop_back();
        for (int d = 0; d < 4; ++d) {
          const int nx = at % w + step_x[d], ny = at / w + step_y[d];
          if (!set(nx, ny) || seen[index(nx, ny)]) continue;
          seen[index(nx, ny)] = 1;
          front.push_back(index(nx, ny));
        }
      }
      Polygon border;
      int cx = x, cy = y, direction = 0;  // corner of cells, and the way on from it
      do {
        border.push_back({cx * cells.cell, cy * cells.cell});
        // On along the edge until the border turns.
        while (true) {
          cx += step_x[direction];
          cy += step_y[direction];
          if (!set(cx + right_x[direction],
                   cy + right_y[direction])) {  // the part ends: turn right
            direction = (direction + 1) % 4;
            break;
          }
          if (set(cx + left_x[direction], cy + left_y[direction])) {  // it goes on to the left
            direction = (direction + 3) % 4;
            break;
          }
        }
      } while (cx != x || cy != y || direction != 0);
      all.push_back(std::move(border));
    }
  std::stable_sort(all.begin(), all.end(),
                   [](const Polygon& a, const Polygon& b) { return area(a) > area(b); });
  return all;
}

Polygon simplified(const Polygon& polygon, double tolerance) {
  const std::size_t n = polygon.size();
  if (n < 4) return polygon;
  // Split at the first point and the one farthest from it.
  std::size_t far = 0;
  for (std::size_t i = 1; i < n; ++i)
    if (distance(polygon[i], polygon[0]) > distance(polygon[far], polygon[0])) far = i;
  std::vector<bool> keep(n, false);
  keep[0] = keep[far] = true;
  std::vector<std::pair<std::size_t, std::size_t>> open = {{0, far}, {far, n}};
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    std::size_t worst = from;
    double most = tolerance;
    for (std::size_t i = from + 1; i < to; ++i) {
      const double d = distance_to(polygon[i], polygon[from], polygon[to % n]);
      if (d > most) most = d, worst = i;
    }
    if (worst == from) continue;
    keep[worst] = true;
    open.emplace_back(from, worst);
    open.emplace_back(worst, to);
  }
  Polygon kept;
  for (std::size_t i = 0; i < n; ++i)
    if (keep[i]) kept.push_back(polygon[i]);
  return kept;
}

double area(const Polygon& polygon) {
  double sum = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const PagePoint &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum / 2;
}

Cells coarser(const Cells& cells, int by) {
  Cells out;
  out.columns = (cells.columns + by - 1) / by;
  out.rows = (cells.rows + by - 1) / by;
  out.cell = cells.cell * by;
  out.values.assign(static_cast<std::size_t>(out.columns) * static_cast<std::size_t>(out.rows), 0);
  for (int r = 0; r < cells.rows; ++r)
    for (int c = 0; c < cells.columns; ++c)
      if (cells.at(c, r) != 0)
        out.values[static_cast<std::size_t>(r / by) * static_cast<std::size_t>(out.columns) +
                   static_cast<std::size_t>(c / by)] = 255;
  return out;
}

}  // namespace platewright::place
