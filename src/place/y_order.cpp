#include "place/y_order.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::place {
namespace {

std::size_t variant_for(const Label& label, const Column& column) {
  std::size_t narrowest = 0;
  for (std::size_t v = 0; v < label.variants.size(); ++v) {
    if (label.variants[v].width <= column.width + 1e-9) return v;
    if (label.variants[v].width < label.variants[narrowest].width) narrowest = v;
  }
  return narrowest;
}

Placement at(const Problem& problem, std::size_t i, std::size_t c, double top) {
  const Column& column = problem.columns[c];
  const std::size_t variant = variant_for(problem.labels[i], column);
  const Variant& v = problem.labels[i].variants[variant];
  Placement p;
  p.side = column.side;
  p.column = static_cast<int>(c);
  p.variant = static_cast<int>(variant);
  p.box = {column.side == Side::left ? column.edge - v.width : column.edge, top, v.width, v.height};
  p.port = {column.edge, top + v.port};
  return p;
}

}  // namespace

StackedColumns nearer_sides(const Problem& problem) {
  StackedColumns columns(problem.columns.size());
  std::vector<double> used(problem.columns.size(), 0);
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    const Label& l = problem.labels[i];
    std::size_t best = 0;
    double least = 1e300;
    for (std::size_t c = 0; c < problem.columns.size(); ++c) {
      const Column& column = problem.columns[c];
      double away = std::abs(column.edge - l.targets[0].points[0].x);
      const double need = l.variants[variant_for(l, column)].height + problem.rules.label_gap;
      if (used[c] + need > column.bottom - column.top + problem.rules.label_gap) away += 1e6;
      if (away < least) {
        least = away;
        best = c;
      }
    }
    used[best] +=
        l.variants[variant_for(l, problem.columns[best])].height + problem.rules.label_gap;
    columns[best].emplace_back(l.targets[0].points[0].y, i);
  }
  for (auto& column : columns) std::sort(column.begin(), column.end());
  return columns;
}

void stack(const Problem& problem, const StackedColumns& columns,
           std::vector<Placement>& placements) {
  const double gap = problem.rules.label_gap;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    double free = problem.columns[c].top;
    for (const auto& [wish, i] : columns[c]) {
      Placement p = at(problem, i, c, 0);
      p = at(problem, i, c, std::max(free, wish - p.port.y));
      placements[i] = p;
      free = p.box.bottom() + gap;
    }
    double foot = problem.columns[c].bottom;
    for (auto it = columns[c].rbegin(); it != columns[c].rend(); ++it) {
      Placement& p = placements[it->second];
      if (p.box.bottom() <= foot) break;
      p = at(problem, it->second, c, foot - p.box.h);
      foot = p.box.top() - gap;
    }
  }
}

std::vector<Placement> y_order_stacking(const Problem& problem) {
  if (problem.columns.empty()) return {};
  std::vector<Placement> placements(problem.labels.size());
  stack(problem, nearer_sides(problem), placements);
  return placements;
}

}  // namespace platewright::place
