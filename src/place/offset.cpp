#include "place/offset.hpp"

#include <algorithm>
#include <limits>

namespace platewright::place {
namespace {

constexpr double far_off = 1e15;

// One line of the transform: the lower envelope of parabolas rooted at (q, f(q)).
void transform_line(std::vector<double>& f, std::vector<double>& out, std::vector<int>& roots,
                    std::vector<double>& bounds) {
  const int n = static_cast<int>(f.size());
  const auto at = [](int i) { return static_cast<std::size_t>(i); };
  int k = 0;
  roots[0] = 0;
  bounds[0] = -std::numeric_limits<double>::infinity();
  bounds[1] = std::numeric_limits<double>::infinity();
  for (int q = 1; q < n; ++q) {
    const auto meet = [&](int p) {
      return ((f[at(q)] + static_cast<double>(q) * q) - (f[at(p)] + static_cast<double>(p) * p)) /
             (2.0 * (q - p));
    };
    double s = meet(roots[at(k)]);
    while (k > 0 && s <= bounds[at(k)]) s = meet(roots[at(--k)]);
    roots[at(++k)] = q;
    bounds[at(k)] = s;
    bounds[at(k) + 1] = std::numeric_limits<double>::infinity();
  }
  k = 0;
  for (int q = 0; q < n; ++q) {
    while (bounds[at(k) + 1] < q) ++k;
    const double d = q - roots[at(k)];
    out[at(q)] = d * d + f[at(roots[at(k)])];
  }
}

std::vector<double> transformed(const Cells& cells, bool to_occupied) {
  const auto w = static_cast<std::size_t>(cells.columns), h = static_cast<std::size_t>(cells.rows);
  std::vector<double> grid(w * h);
  for (std::size_t i = 0; i < grid.size(); ++i)
    grid[i] = (cells.values[i] != 0) == to_occupied ? 0.0 : far_off;
  const std::size_t longest = std::max(w, h);
  std::vector<double> bounds(longest + 1);
  std::vector<int> roots(longest);
  std::vector<double> line(h), out(h);
  for (std::size_t x = 0; x < w; ++x) {
    for (std::size_t y = 0; y < h; ++y) line[y] = grid[y * w + x];
    transform_line(line, out, roots, bounds);
    for (std::size_t y = 0; y < h; ++y) grid[y * w + x] = out[y];
  }
  line.resize(w);
  out.resize(w);
  for (std::size_t y = 0; y < h; ++y) {
    std::copy_n(grid.begin() + static_cast<std::ptrdiff_t>(y * w), w, line.begin());
    transform_line(line, out, roots, bounds);
    std::copy_n(out.begin(), w, grid.begin() + static_cast<std::ptrdiff_t>(y * w));
  }
  return grid;
}

}  // namespace

std::vector<double> squared_distances(const Cells& cells) { return transformed(cells, true); }

Cells grown(const Cells& cells, double by) {
  Cells out = cells;
  const std::vector<double> distances = transformed(cells, true);
  const double limit = (by / cells.cell) * (by / cells.cell) + 1e-9;
  for (std::size_t i = 0; i < distances.size(); ++i)
    out.values[i] = distances[i] <= limit ? 255 : 0;
  return out;
}

Cells shrunk(const Cells& cells, double by) {
  // The edge of the grid counts as free.
  const Cells wider = framed(cells, 1);
  const std::vector<double> distances = transformed(wider, false);
  const double limit = (by / cells.cell) * (by / cells.cell) + 1e-9;
  Cells out = cells;
  for (int r = 0; r < cells.rows; ++r)
    for (int c = 0; c < cells.columns; ++c)
      out.values[static_cast<std::size_t>(r) * static_cast<std::size_t>(cells.columns) +
                 static_cast<std::size_t>(c)] =
          distances[static_cast<std::size_t>(r + 1) * static_cast<std::size_t>(wider.columns) +
                    static_cast<std::size_t>(c + 1)] > limit
              ? 255
              : 0;
  return out;
}

Cells closed(const Cells& cells, double radius) { return shrunk(grown(cells, radius), radius); }

Cells framed(const Cells& cells, int by) {
  Cells out;
  out.cell = cells.cell;
  out.columns = cells.columns + 2 * by;
  out.rows = cells.rows + 2 * by;
  out.values.assign(static_cast<std::size_t>(out.columns) * static_cast<std::size_t>(out.rows), 0);
  for (int r = 0; r < cells.rows; ++r)
    std::copy_n(cells.values.begin() + static_cast<std::ptrdiff_t>(r) * cells.columns,
                cells.columns,
                out.values.begin() + static_cast<std::ptrdiff_t>(r + by) * out.columns + by);
  return out;
}

}  // namespace platewright::place
