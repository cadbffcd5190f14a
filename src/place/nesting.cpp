#include "place/nesting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <numeric>
#include <optional>

#include "place/offset.hpp"

namespace platewright::place {
namespace {

// Rows of bits; row by row from the top, 64 columns a word.
struct Bits {
  int columns = 0, rows = 0, words = 0;
  std::vector<std::uint64_t> data;
  Bits() = default;
  Bits(int c, int r) : columns(c), rows(r), words((c + 63) / 64) {
    data.assign(static_cast<std::size_t>(words) * static_cast<std::size_t>(rows), 0);
  }
  std::uint64_t& word(int row, int w) {
    return data[static_cast<std::size_t>(row) * static_cast<std::size_t>(words) +
                static_cast<std::size_t>(w)];
  }
  std::uint64_t word(int row, int w) const {
    return data[static_cast<std::size_t>(row) * static_cast<std::size_t>(words) +
                static_cast<std::size_t>(w)];
  }
  void set(int column, int row) { word(row, column / 64) |= std::uint64_t{1} << (column % 64); }
};

// A shape in one turn on the raster.
struct Stamp {
  double turn = 0;
  double x = 0, y = 0;  // of (0, 0) of the shape from the stamp's corner, mm
  Bits solid;           // cells it touches
  Bits guarded;         // with half the gap around, for testing; corner `guard` cells further out
  PageBox tag;          // from the corner
  double area = 0;
};

// Even-odd over cell centres, after growing by half a cell's diagonal, so that
// every cell touched is set.
Cells rasterised(const std::vector<Polygon>& polygons, double cell, int columns, int rows,
                 double x0, double y0) {
  Cells cells;
  cells.cell = cell;
  cells.columns = columns;
  cells.rows = rows;
  cells.values.assign(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), 0);
  for (const Polygon& p : polygons) {
    for (int r = 0; r < rows; ++r) {
      const double y = y0 + (r + 0.5) * cell;
      std::vector<double> crossings;
      for (std::size_t i = 0; i < p.size(); ++i) {
        const PagePoint &a = p[i], &b = p[(i + 1) % p.size()];
        if ((a.y <= y) == (b.y <= y)) continue;
        crossings.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
      }
      std::sort(crossings.begin(), crossings.end());
      for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        const int from = std::max(0, static_cast<int>(std::ceil((crossings[i] - x0) / cell - 0.5)));
        const int to = std::min(columns - 1,
                                static_cast<int>(std::floor((crossings[i + 1] - x0) / cell - 0.5)));
        for (int c = from; c <= to; ++c)
          cells.values[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns) +
                       static_cast<std::size_t>(c)] = 255;
      }
    }
    // The border itself, however thin the shape.
    for (std::size_t i = 0; i < p.size(); ++i) {
      const PagePoint &a = p[i], &b = p[(i + 1) % p.size()];
      const int steps = std::max(1, static_cast<int>(std::ceil(distance(a, b) / (cell / 2))));
      for (int s = 0; s <= steps; ++s) {
        const double t = static_cast<double>(s) / steps;
        const int c = static_cast<int>(std::floor((a.x + t * (b.x - a.x) - x0) / cell));
        const int r = static_cast<int>(std::floor((a.y + t * (b.y - a.y) - y0) / cell));
        if (c >= 0 && r >= 0 && c < columns && r < rows)
          cells.values[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns) +
                       static_cast<std::size_t>(c)] = 255;
      }
    }
  }
  return cells;
}

Bits bits_of(const Cells& cells) {
  Bits bits(cells.columns, cells.rows);
  for (int r = 0; r < cells.rows; ++r)
    for (int c = 0; c < cells.columns; ++c)
      if (cells.at(c, r) != 0) bits.set(c, r);
  return bits;
}

// Nothing when it is larger than the page.
std::optional<Stamp> stamp(const NestShape& shape, const NestRequest& request, double turn,
                           int guard) {
  Stamp s;
  s.turn = turn;
  std::vector<Polygon> outline;
  double left = 1e30, top = 1e30, right = -1e30, bottom = -1e30;
  for (const Polygon& p : shape.outline) {
    outline.push_back(turned(p, turn));
    for (const PagePoint& q : outline.back()) {
      left = std::min(left, q.x);
      top = std::min(top, q.y);
      right = std::max(right, q.x);
      bottom = std::max(bottom, q.y);
    }
    s.area += std::abs(area(p));
  }
  if (shape.tag_width > 0) {
    const double middle = (left + right) / 2;
    const PageBox tag{middle - shape.tag_width / 2, bottom + 1, shape.tag_width, shape.tag_height};
    outline.push_back({{tag.left(), tag.top()},
                       {tag.right(), tag.top()},
                       {tag.right(), tag.bottom()},
                       {tag.left(), tag.bottom()}});
    left = std::min(left, tag.left());
    right = std::max(right, tag.right());
    bottom = tag.bottom();
    s.tag = tag;
  }
  if (right - left > request.width + 1e-9 || bottom - top > request.height + 1e-9)
    return std::nullopt;
  s.x = -left;
  s.y = -top;
  if (shape.tag_width > 0) s.tag = {s.tag.x - left, s.tag.y - top, s.tag.w, s.tag.h};
  const double g = request.cell;
  const int columns = std::max(1, static_cast<int>(std::ceil((right - left) / g - 1e-9)));
  const int rows = std::max(1, static_cast<int>(std::ceil((bottom - top) / g - 1e-9)));
  const Cells solid = rasterised(outline, g, columns, rows, left, top);
  s.solid = bits_of(solid);
  // Centres of cells apart by the gap and a cell's diagonal mean shapes apart by the gap.
  s.guarded = bits_of(grown(framed(solid, guard), request.gap + 1.5 * g));
  return s;
}

class Page {
 public:
  Page(int columns, int rows) : taken_(columns, rows) {}
  // `met`: a row of the shape to ask first, and the one that met something; beside a place
  // that is not free most are not for the same row's sake.
  bool free(const Bits& shape, int x, int y, int& met) const {
    if (!row_free(shape, met, x, y)) return false;
    for (int r = 0; r < shape.rows; ++r)
      if (r != met && !row_free(shape, r, x, y)) {
        met = r;
        return false;
      }
    return true;
  }
  // Marks a shape whose corner may lie off the page.
  void take(const Bits& shape, int x, int y) {
    for (int r = 0; r < shape.rows; ++r) {
      if (y + r < 0 || y + r >= taken_.rows) continue;
      for (int c = 0; c < shape.columns; ++c)
        if ((shape.word(r, c / 64) >> (c % 64) & 1) != 0 && x + c >= 0 && x + c < taken_.columns)
          taken_.set(x + c, y + r);
    }
  }

 private:
  bool row_free(const Bits& shape, int r, int x, int y) const {
    const int shift = x % 64, first = x / 64;
    for (int w = 0; w < shape.words; ++w) {
      const std::uint64_t bits = shape.word(r, w);
      if (bits == 0) continue;
      if (first + w < taken_.words && (taken_.word(y + r, first + w) & (bits << shift)) != 0)
        return false;
      if (shift > 0 && first + w + 1 < taken_.words &&
          (taken_.word(y + r, first + w + 1) & (bits >> (64 - shift))) != 0)
        return false;
    }
    return true;
  }

  Bits taken_;
};

struct Spot {
  int x = 0, y = 0;
  std::size_t stamp = 0;
  double score = 0;
};

// The place that keeps what is taken low: the least lower edge, then the least right.
std::optional<Spot> best_spot(const Page& page, const std::vector<Stamp>& stamps, int columns,
                              int rows) {
  std::optional<Spot> best;
  for (std::size_t i = 0; i < stamps.size(); ++i) {
    const Bits& solid = stamps[i].solid;
    int met = 0;
    for (int y = 0; y + solid.rows <= rows; ++y) {
      const double lowest = (y + solid.rows) * 10.0;
      if (best && lowest > best->score) break;
      for (int x = 0; x + solid.columns <= columns; ++x) {
        const double score = lowest + x + solid.columns + 0.001 * static_cast<double>(i);
        if (best && score >= best->score) break;
        if (!page.free(solid, x, y, met)) continue;
        best = Spot{x, y, i, score};
        break;
      }
    }
  }
  return best;
}

}  // namespace

Polygon turned(const Polygon& polygon, double degrees) {
  const double a = degrees * std::numbers::pi / 180, c = std::cos(a), s = std::sin(a);
  Polygon out;
  out.reserve(polygon.size());
  for (const PagePoint& p : polygon) out.push_back({c * p.x - s * p.y, s * p.x + c * p.y});
  return out;
}

Nest nested(const std::vector<NestShape>& shapes, const NestRequest& request) {
  const double g = request.cell;
  const int columns = static_cast<int>(std::floor(request.width / g + 1e-9));
  const int rows = static_cast<int>(std::floor(request.height / g + 1e-9));
  const int guard = static_cast<int>(std::ceil((request.gap + 1.5 * g) / g)) + 1;
  std::vector<std::vector<Stamp>> stamps(shapes.size());
  Nest best;
  best.places.resize(shapes.size());
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    for (int t = 0; t < request.turns; ++t) {
      auto s = stamp(shapes[i], request, 360.0 * t / request.turns, guard);
      if (s && s->solid.columns <= columns && s->solid.rows <= rows)
        stamps[i].push_back(std::move(*s));
    }
    if (stamps[i].empty()) continue;
    order.push_back(i);
    best.area += stamps[i].front().area;
  }
  best.bound = order.empty()
                   ? 0
                   : std::max(1, static_cast<int>(std::ceil(
                                     best.area / (request.width * request.height) - 1e-9)));
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const double x = stamps[a].front().area, y = stamps[b].front().area;
    return x != y ? x > y : shapes[a].name < shapes[b].name;
  });

  std::uint32_t state =
      12345;  // of a small generator (Numerical Recipes' LCG): the same orders every time
  const auto random = [&](std::size_t n) {
    state = state * 1664525u + 1013904223u;
    return static_cast<std::size_t>(state >> 8) % n;
  };
  const std::vector<std::size_t> by_size = order;
  double best_rest = 0;
  for (int attempt = 0; attempt < request.orders; ++attempt) {
    if (best.pages == best.bound && best.pages > 0) break;
    if (attempt > 0) {  // a few exchanges of near neighbours in the order of size
      order = by_size;
      for (std::size_t k = 0; k < order.size(); ++k) {
        const std::size_t a = random(order.size()),
                          b = std::min(order.size() - 1, a + 1 + random(4));
        std::swap(order[a], order[b]);
      }
    }
    std::vector<Page> pages;
    std::vector<NestPlace> places(shapes.size());
    double last = 0;
    for (const std::size_t i : order) {
      std::optional<Spot> spot;
      std::size_t page = 0;
      for (; page < pages.size() && !spot; ++page)
        spot = best_spot(pages[page], stamps[i], columns, rows);
      if (spot) {
        --page;
      } else {
        if (best.pages > 0 && static_cast<int>(pages.size()) >= best.pages) {
          pages.clear();
          break;
        }
        pages.emplace_back(columns, rows);
        page = pages.size() - 1;
        spot = best_spot(pages[page], stamps[i], columns, rows);
      }
      const Stamp& s = stamps[i][spot->stamp];
      pages[page].take(s.guarded, spot->x - guard, spot->y - guard);
      const double x = spot->x * g, y = spot->y * g;
      places[i] = {static_cast<int>(page),
                   s.turn,
                   x + s.x,
                   y + s.y,
                   {s.tag.x + x, s.tag.y + y, s.tag.w, s.tag.h}};
      if (page + 1 == pages.size()) last = std::max(last, y + s.solid.rows * g);
    }
    if (pages.empty()) continue;
    const int count = static_cast<int>(pages.size());
    if (best.pages == 0 || count < best.pages || (count == best.pages && last < best_rest)) {
      best.pages = count;
      best.places = std::move(places);
      best_rest = last;
    }
  }
  return best;
}

}  // namespace platewright::place
