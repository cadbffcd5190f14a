#include "engine/piece_shapes.hpp"

#include <algorithm>
#include <cmath>

#include "base/quote.hpp"
#include "place/offset.hpp"

namespace platewright {
namespace {

constexpr double finest_cell = 0.2;  // mm
constexpr double most_cells = 4e6;
constexpr double least_across = 2;    // mm: nobody cuts out less
constexpr double least_part = 0.004;  // of the largest: smaller specks are not cut out
constexpr double smoothing = 0.8;     // mm of outline, each way, that a point is the mean of
constexpr double clip_offset = 0.15;  // mm: within it, what lies on a part may be cut short
constexpr double flatness = 0.05;     // mm
constexpr double flap_width = 22;     // mm, at most

// Borders of cells without their stairs: each point the mean of the border near it.
std::vector<place::Polygon> smooth_outlines(const place::Cells& cells, double reach) {
  std::vector<place::Polygon> out;
  const auto all = place::outlines(cells);
  for (const place::Polygon& border : all) {
    if (place::area(border) < least_part * place::area(all.front())) continue;
    place::Polygon dense;  // the middle of each cell edge
    for (std::size_t i = 0; i < border.size(); ++i) {
      const PagePoint &a = border[i], &b = border[(i + 1) % border.size()];
      const int n = std::max(1, static_cast<int>(std::lround(distance(a, b) / cells.cell)));
      for (int s = 0; s < n; ++s) {
        const double t = (s + 0.5) / n;
        dense.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
      }
    }
    const auto n = dense.size();
    const std::size_t half = std::min(static_cast<std::size_t>(reach / cells.cell), n / 8);
    place::Polygon mean(n);
    double x = 0, y = 0;
    for (std::size_t k = 0; k <= 2 * half; ++k) {
      x += dense[(n + k - half) % n].x;
      y += dense[(n + k - half) % n].y;
    }
    for (std::size_t i = 0; i < n; ++i) {
      mean[i] = {x / static_cast<double>(2 * half + 1), y / static_cast<double>(2 * half + 1)};
      x += dense[(i + half + 1) % n].x - dense[(n + i - half) % n].x;
      y += dense[(i + half + 1) % n].y - dense[(n + i - half) % n].y;
    }
    out.push_back(place::simplified(mean, flatness));
  }
  return out;
}

// A strip over the top of the cut shape.
void add_flap(place::Cells& cut, double height, compose::Piece& piece) {
  const double g = cut.cell;
  int top = cut.rows, left = cut.columns, right = -1;
  for (int r = 0; r < cut.rows && top == cut.rows; ++r)
    for (int c = 0; c < cut.columns; ++c)
      if (cut.at(c, r) != 0) top = r;
  // The middle of the shape a little below its top.
  const int below = std::min(cut.rows - 1, top + static_cast<int>(2 / g));
  for (int c = 0; c < cut.columns; ++c)
    if (cut.at(c, below) != 0) left = std::min(left, c), right = c;
  const int middle = (left + right) / 2;
  const int half =
      static_cast<int>(std::min(flap_width / 2, std::max(4.0, (right - left) * g / 2)) / g);
  const int up = std::max(0, top - static_cast<int>(height / g));
  for (int r = up; r <= below; ++r)
    for (int c = std::max(0, middle - half); c <= std::min(cut.columns - 1, middle + half); ++c)
      cut.values[static_cast<std::size_t>(r) * static_cast<std::size_t>(cut.columns) +
                 static_cast<std::size_t>(c)] = 255;
  piece.fold_from = {(middle - half) * g, top * g};
  piece.fold_to = {(middle + half + 1) * g, top * g};
}

}  // namespace

Result<ShapedPiece> shaped_piece(const Figure& figure, const std::string& anchor,
                                 const std::string& art, double mm_per_unit, const CutRule& rule) {
  const double k = mm_per_unit;
  const Anchor* found = figure.find(anchor);
  const FigureBox box = found ? found->box : figure.view_box;
  if (const double across = k * std::max(box.w, box.h); across < least_across)
    return error("piece-tiny", {figure.name, 0, 0},
                 "the piece " + in_quotes(anchor) + " would be " +
                     format_mm(Length::mm(across), 3) + " across",
                 "take a larger --factor, or leave it out of --regions");
  const double around = rule.offset * (rule.smooth ? 2 : 1) + 2;
  read::PaintedRequest ask;
  ask.svg = &art;
  ask.view = figure.view_box;
  // Strokes and what lies on the region may reach beyond the anchor's box.
  ask.window = box.grown(0.03 * std::max(figure.view_box.w, figure.view_box.h));
  ask.cell = std::max(finest_cell, k * std::sqrt(ask.window.w * ask.window.h / most_cells)) / k;
  ask.name = figure.name;
  ask.paper_is_blank = false;
  auto painted = read::painted_cells(ask);
  if (!painted.ok()) return painted.findings();
  const double g = painted->cell * k;
  const int frame = static_cast<int>(std::ceil((around + rule.flap) / g)) + 1;
  const place::Cells part =
      place::framed({painted->columns, painted->rows, g, std::move(painted->values)}, frame);
  if (place::Occupancy(part).box().w <= 0)
    return error("region-empty", {figure.name, 0, 0},
                 "the region " + in_quotes(anchor) + " paints nothing",
                 "leave it out of --regions");

  ShapedPiece out;
  compose::Piece& piece = out.piece;
  piece.anchor = anchor;
  piece.corner = {painted->box.x - frame * painted->cell, painted->box.y - frame * painted->cell};
  piece.shape = smooth_outlines(part, 0.2);
  piece.clip = smooth_outlines(place::grown(part, clip_offset), 0.2);
  place::Cells cut = place::grown(part, rule.offset);
  if (rule.smooth) cut = place::closed(cut, rule.offset);
  if (rule.flap > 0) add_flap(cut, rule.flap, piece);
  piece.cut = smooth_outlines(cut, smoothing);

  // The largest circle in it: the cell farthest from what is not painted.
  place::Cells free = part;
  for (std::uint8_t& v : free.values) v = v != 0 ? 0 : 255;
  const std::vector<double> distances = place::squared_distances(free);
  const auto best = static_cast<std::size_t>(std::max_element(distances.begin(), distances.end()) -
                                             distances.begin());
  const auto columns = static_cast<std::size_t>(part.columns);
  piece.middle = {(static_cast<double>(best % columns) + 0.5) * g,
                  (static_cast<double>(best / columns) + 0.5) * g};
  piece.radius = std::sqrt(distances[best]) * g;
  out.cut_cells = std::move(cut);
  return out;
}

}  // namespace platewright
