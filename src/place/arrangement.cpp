#include "place/arrangement.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "place/inside.hpp"
#include "place/spoken.hpp"
#include "place/two_sides.hpp"

namespace platewright::place {
namespace {

constexpr double between_columns = 4.0;  // inner and outer column, mm

double stacked(const FitRequest& request, double inner, double outer) {
  if (inner <= 0) return 0;
  return inner + request.gutter + (outer > 0 ? outer + between_columns : 0);
}

double height_taken(const FitRequest& request, double row) {
  return row > 0 ? row + request.gutter : 0;
}

// Labels that stand inside are obstacles to all others.
void add_inside(const FitRequest& request, const Arrangement& a, const FigureToPage& to_page,
                Problem& p) {
  if (request.inside.empty()) return;
  std::vector<Label> all = p.labels, inside;
  for (const FitLabel& from : request.inside) {
    inside.push_back(inside_on_page(from, a.text_step, to_page));
    all.push_back(inside.back());
  }
  std::vector<PageBox> taken;
  const std::vector<PageBox> obstacles = p.obstacles;
  for (const Label& label : inside)
    if (const auto place = place_inside(label, all, taken, obstacles, request.rules)) {
      taken.push_back(place->box);
      p.obstacles.push_back(kept_free(place->box, request.rules));
    }
}

}  // namespace

FigureBox body(const FitRequest& request) {
  FigureBox box = request.painted;
  for (const auto* labels : {&request.labels, &request.inside})
    for (const FitLabel& label : *labels)
      for (const FitLabel::End& end : label.targets)
        for (const FigurePoint& p : end.points) box = united(box, FigureBox{p.x, p.y, 0, 0});
  return box;
}

double largest_scale(const FitRequest& request, const Arrangement& a) {
  const FigureBox b = body(request);
  const double width = request.area.w - stacked(request, a.left, a.outer_left) -
                       stacked(request, a.right, a.outer_right);
  const double height =
      request.area.h - height_taken(request, a.top) - height_taken(request, a.bottom);
  if (request.fixed_scale > 0)
    return b.w * request.fixed_scale <= width + 1e-9 && b.h * request.fixed_scale <= height + 1e-9
               ? request.fixed_scale
               : 0;
  if (width <= 1 || height <= 1) return 0;
  double scale = std::numeric_limits<double>::infinity();
  if (b.w > 0) scale = std::min(scale, width / b.w);
  if (b.h > 0) scale = std::min(scale, height / b.h);
  if (request.most_scale > 0) scale = std::min(scale, request.most_scale);
  return std::isfinite(scale) ? scale : 1.0;
}

Arrangement arrangement_of(const Fit& fit) {
  Arrangement a;
  a.text_step = fit.text_step;
  a.as_number = fit.as_number;
  for (const Column& c : fit.problem.columns) {
    double& inner = c.side == Side::left ? a.left : a.right;
    double& outer = c.side == Side::left ? a.outer_left : a.outer_right;
    (inner > 0 ? outer : inner) = c.width;
  }
  for (const Row& r : fit.problem.rows) (r.side == Side::top ? a.top : a.bottom) = r.height;
  return a;
}

std::optional<Fallback> wrapped_labels(const Fit& fit) {
  int wrapped = 0;
  for (const Placement& p : fit.solution.placements) wrapped += p.variant > 0;
  if (wrapped == 0) return std::nullopt;
  double natural = 0, column = 0;
  for (const Label& l : fit.problem.labels) natural = std::max(natural, l.variants.front().width);
  for (const Column& c : fit.problem.columns) column = std::max(column, c.width);
  return Fallback{"wrapped", std::to_string(wrapped) +
                                 " labels wrap: the widest unwrapped one takes " + whole(natural) +
                                 " mm; the columns have " + whole(column) + " mm"};
}

const std::vector<Variant>& variants_of(const FitRequest& request, const Arrangement& a,
                                        std::size_t label, std::vector<Variant>& scratch) {
  const FitLabel& l = request.labels[label];
  if (label < a.as_number.size() && a.as_number[label]) {
    scratch.assign(1, l.number);
    return scratch;
  }
  const std::size_t step = std::min(static_cast<std::size_t>(a.text_step), l.variants.size() - 1);
  return l.variants[step];
}

Built build(const FitRequest& request, const Arrangement& a, double scale) {
  Built built;
  const FigureBox b = body(request);
  const PageBox& area = request.area;
  const double width = b.w * scale, height = b.h * scale;
  const auto rest = [](double inner, double outer) {
    return inner + (outer > 0 ? outer + between_columns : 0);
  };
  const double left = rest(a.left, a.outer_left), right = rest(a.right, a.outer_right);
  // What is left over widens the gutters, so that leaders can fan out; the rest
  // stays outside.
  const int gutters = (a.left > 0) + (a.right > 0);
  double gutter = 0;
  if (gutters > 0)
    gutter = std::clamp((area.w - left - right - width) / gutters, request.gutter,
                        std::max(request.gutter, request.widest_gutter));
  const double block = left + right + width + gutters * gutter;
  const double start = area.x + std::max(0.0, (area.w - block) / 2);
  const double left_edge = start + left;
  const double figure_x = left_edge + (a.left > 0 ? gutter : 0);
  const double right_edge = figure_x + width + (a.right > 0 ? gutter : 0);

  const int row_gutters = (a.top > 0) + (a.bottom > 0);
  double row_gutter = 0;
  if (row_gutters > 0)
    row_gutter = std::clamp((area.h - a.top - a.bottom - height) / row_gutters, request.gutter,
                            std::max(request.gutter, request.widest_gutter));
  const double tall = a.top + a.bottom + height + row_gutters * row_gutter;
  const double figure_y =
      area.y + std::max(0.0, (area.h - tall) / 2) + a.top + (a.top > 0 ? row_gutter : 0);

  built.figure_to_page.scale = scale;
  built.figure_to_page.origin = {figure_x - scale * b.x, figure_y - scale * b.y};
  const FigureToPage& to_page = built.figure_to_page;

  Problem& p = built.problem;
  if (a.left > 0) p.columns.push_back({Side::left, left_edge, area.top(), area.bottom(), a.left});
  if (a.outer_left > 0)
    p.columns.push_back({Side::left, left_edge - a.left - between_columns, area.top(),
                         area.bottom(), a.outer_left});
  if (a.right > 0)
    p.columns.push_back({Side::right, right_edge, area.top(), area.bottom(), a.right});
  if (a.outer_right > 0)
    p.columns.push_back({Side::right, right_edge + a.right + between_columns, area.top(),
                         area.bottom(), a.outer_right});
  const double gap = request.rules.label_gap;
  const double row_left = a.left > 0 ? left_edge + gap : area.left();
  const double row_right = a.right > 0 ? right_edge - gap : area.right();
  if (a.top > 0) p.rows.push_back({Side::top, figure_y - row_gutter, row_left, row_right, a.top});
  if (a.bottom > 0)
    p.rows.push_back({Side::bottom, figure_y + height + row_gutter, row_left, row_right, a.bottom});

  std::vector<Variant> scratch;
  for (std::size_t i = 0; i < request.labels.size(); ++i)
    p.labels.push_back(on_page(request.labels[i], variants_of(request, a, i, scratch), to_page));
  p.obstacles = obstacles_on_page(request, to_page);
  add_inside(request, a, to_page, p);
  if (request.detail_columns > 0 && request.detail_rows > 0) {
    p.detail.box = to_page(request.detail_box);
    p.detail.columns = request.detail_columns;
    p.detail.rows = request.detail_rows;
    p.detail.values = request.detail;
  }
  p.rules = request.rules;
  p.weights = request.weights;
  p.slot = request.slot;
  p.slot = slot_on_page(p);
  // Boxes of one height lie at multiples of one pitch: slots that divide it waste none.
  bool even = !p.labels.empty();
  for (const Label& l : p.labels)
    even = even && l.variants.size() == 1 &&
           std::abs(l.variants.front().height - p.labels.front().variants.front().height) < 1e-9;
  if (even && p.slot > 0) {
    const double pitch = p.labels.front().variants.front().height + p.rules.label_gap;
    p.slot = pitch / std::max(1.0, std::ceil(pitch / p.slot - 1e-9));
  }
  p.stub = request.stub;
  return built;
}

}  // namespace platewright::place
