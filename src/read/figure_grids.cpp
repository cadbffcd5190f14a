#include "read/figure_grids.hpp"

#include <algorithm>
#include <cmath>

#include "read/region_pixels.hpp"

namespace platewright::read {
namespace {

constexpr std::uint32_t faint_alpha = 11;  // 0.04 of 255

bool blank(std::uint32_t argb) { return argb >> 24 < faint_alpha || prints_nothing(argb); }

FigureGrid empty_grid(const RasterFrame& frame, double cell, int columns, int rows) {
  FigureGrid grid;
  grid.box = frame.view;
  grid.cell = cell;
  grid.columns = columns;
  grid.rows = rows;
  grid.values.assign(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), 0);
  return grid;
}

}  // namespace

FigureGrid silhouette(const Pixels& pixels, const RasterFrame& frame) {
  const int w = pixels.width, h = pixels.height;
  FigureGrid grid = empty_grid(frame, 1.0 / frame.scale, w, h);
  for (std::size_t i = 0; i < pixels.argb.size(); ++i)
    grid.values[i] = pixels.argb[i] >> 24 >= faint_alpha ? 255 : 0;

  // Paper spreads from the border through blank pixels to their four neighbours.
  // A rim of no blank pixels around them ends it.
  const auto wide = static_cast<std::size_t>(w), high = static_cast<std::size_t>(h);
  const std::size_t stride = wide + 2;
  std::vector<std::uint8_t> open(stride * (high + 2));
  for (std::size_t y = 0; y < high; ++y)
    for (std::size_t x = 0; x < wide; ++x)
      open[(y + 1) * stride + x + 1] = blank(pixels.argb[y * wide + x]) ? 1 : 0;
  std::vector<std::size_t> front;
  const auto visit = [&](std::size_t i) {
    if (open[i] != 1) return;
    open[i] = 2;
    front.push_back(i);
  };
  for (std::size_t x = 1; x <= wide; ++x) {
    visit(stride + x);
    visit(high * stride + x);
  }
  for (std::size_t y = 1; y <= high; ++y) {
    visit(y * stride + 1);
    visit(y * stride + wide);
  }
  while (!front.empty()) {
    const std::size_t i = front.back();
    front.pop_back();
    visit(i - 1);
    visit(i + 1);
    visit(i - stride);
    visit(i + stride);
  }
  for (std::size_t y = 0; y < high; ++y)
    for (std::size_t x = 0; x < wide; ++x)
      if (open[(y + 1) * stride + x + 1] == 2) grid.values[y * wide + x] = 0;
  return grid;
}

FigureGrid detail(const Pixels& pixels, const RasterFrame& frame) {
  const int w = pixels.width, h = pixels.height;
  // Gradients of single precision are far finer than the 8 bits they come from.
  const int side = std::max(1, static_cast<int>(std::lround(std::max(w, h) / 100.0)));
  const int columns = (w + side - 1) / side, rows = (h + side - 1) / side;
  FigureGrid grid = empty_grid(frame, side / frame.scale, columns, rows);

  std::vector<float> lumas;
  lumas.reserve(pixels.argb.size());
  for (std::size_t i = 0; i < pixels.argb.size(); ++i) {
    const std::uint32_t argb = pixels.argb[i];
    lumas.push_back(i > 0 && argb == pixels.argb[i - 1]
                        ? lumas.back()
                        : 0.2126F * static_cast<float>(on_white(argb, 16)) +
                              0.7152F * static_cast<float>(on_white(argb, 8)) +
                              0.0722F * static_cast<float>(on_white(argb, 0)));
  }
  std::vector<double> cells(grid.values.size());
  const auto wide = static_cast<std::size_t>(w);
  for (int y = 0; y < h; ++y) {
    const float* row = &lumas[static_cast<std::size_t>(y) * wide];
    const float* above = y > 0 ? row - w : row;
    const float* below = y + 1 < h ? row + w : row;
    double* along = &cells[static_cast<std::size_t>(y / side * columns)];
    for (int x = 0; x < w; ++x) {
      const float dx = (row[std::min(x + 1, w - 1)] - row[std::max(x - 1, 0)]) / 2,
                  dy = (below[x] - above[x]) / 2;
      if (dx != 0 || dy != 0) along[x / side] += std::sqrt(dx * dx + dy * dy);
    }
  }
  // A blur of 1 2 1 both ways, so that a leader beside a line counts as near it.
  std::vector<double> blurred(cells.size());
  const auto cell = [&](int c, int r) {
    c = std::clamp(c, 0, columns - 1);
    r = std::clamp(r, 0, rows - 1);
    return cells[static_cast<std::size_t>(r * columns + c)];
  };
  double most = 0;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) {
      double sum = 0;
      for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i)
          sum += (2 - std::abs(i)) * (2 - std::abs(j)) * cell(c + i, r + j);
      blurred[static_cast<std::size_t>(r * columns + c)] = sum;
      most = std::max(most, sum);
    }
  if (most > 0)
    for (std::size_t i = 0; i < blurred.size(); ++i)
      grid.values[i] = static_cast<std::uint8_t>(std::lround(255 * blurred[i] / most));
  return grid;
}

FigureBox painted_box(const FigureGrid& grid) {
  int left = grid.columns, right = -1, top = grid.rows, bottom = -1;
  for (int r = 0; r < grid.rows; ++r)
    for (int c = 0; c < grid.columns; ++c)
      if (grid.at(c, r) != 0) {
        left = std::min(left, c);
        right = std::max(right, c);
        top = std::min(top, r);
        bottom = r;
      }
  if (right < 0) return {grid.box.x, grid.box.y, 0, 0};
  const double x = grid.box.x + left * grid.cell, y = grid.box.y + top * grid.cell;
  const double end_x = std::min(grid.box.right(), grid.box.x + (right + 1) * grid.cell);
  const double end_y = std::min(grid.box.bottom(), grid.box.y + (bottom + 1) * grid.cell);
  return {x, y, end_x - x, end_y - y};
}

}  // namespace platewright::read
