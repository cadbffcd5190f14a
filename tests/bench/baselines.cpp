#include "baselines.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace platewright::bench {
namespace {

using place::Column;
using place::Placement;
using place::Problem;

double target_y(const Problem& problem, std::size_t i) { return problem.labels[i].targets[0].points[0].y; }

Placement at(const Problem& problem, std::size_t i, std::size_t c, double top) {
  const Column& column = problem.columns[c];
  const place::Variant& v = problem.labels[i].variants[0];
  Placement p;
  p.side = column.side;
  p.column = static_cast<int>(c);
  p.box = {column.side == Side::left ? column.edge - v.width : column.edge, top, v.width, v.height};
  p.port = {column.edge, top + v.port};
  return p;
}

// Labels of each column by the height at which they want to stand.
using Columns = std::vector<std::vector<std::pair<double, std::size_t>>>;

Columns nearer_sides(const Problem& problem) {
  Columns columns(problem.columns.size());
  std::vector<double> used(problem.columns.size(), 0);
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    const place::Label& l = problem.labels[i];
    const double need = l.variants[0].height + problem.rules.label_gap;
    std::size_t best = 0;
    double least = 1e300;
    for (std::size_t c = 0; c < problem.columns.size(); ++c) {
      double away = std::abs(problem.columns[c].edge - l.targets[0].points[0].x);
      if (used[c] + need > problem.columns[c].bottom - problem.columns[c].top + problem.rules.label_gap) away += 1e6;
      if (away < least) {
        least = away;
        best = c;
      }
    }
    used[best] += need;
    columns[best].emplace_back(target_y(problem, i), i);
  }
  for (auto& column : columns) std::sort(column.begin(), column.end());
  return columns;
}

// Downwards, then up again from the foot where that ran over.
void stack(const Problem& problem, const Columns& columns, std::vector<Placement>& placements) {
  const double gap = problem.rules.label_gap;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    double free = problem.columns[c].top;
    for (const auto& [wish, i] : columns[c]) {
      const place::Variant& v = problem.labels[i].variants[0];
      placements[i] = at(problem, i, c, std::max(free, wish - v.port));
      free = placements[i].box.bottom() + gap;
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

double turn(PagePoint a, PagePoint b, PagePoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace

std::vector<Placement> y_order_stacking(const Problem& problem) {
  std::vector<Placement> placements(problem.labels.size());
  stack(problem, nearer_sides(problem), placements);
  return placements;
}

std::vector<Placement> force_directed(const Problem& problem) {
  Columns columns = nearer_sides(problem);
  for (std::size_t c = 0; c < columns.size(); ++c) {
    auto& column = columns[c];
    for (int round = 0; round < 400; ++round) {
      const double step = 0.5 * (1 - round / 400.0);
      std::vector<double> push(column.size(), 0);
      for (std::size_t a = 0; a < column.size(); ++a) {
        push[a] += 0.3 * (target_y(problem, column[a].second) - column[a].first);
        for (std::size_t b = 0; b < a; ++b) {
          const double ha = problem.labels[column[a].second].variants[0].height;
          const double hb = problem.labels[column[b].second].variants[0].height;
          const double apart = column[a].first - column[b].first;
          const double overlap = (ha + hb) / 2 + problem.rules.label_gap - std::abs(apart);
          if (overlap <= 0) continue;
          const double away = apart >= 0 ? overlap / 2 : -overlap / 2;
          push[a] += away;
          push[b] -= away;
        }
      }
      for (std::size_t a = 0; a < column.size(); ++a)
        column[a].first = std::clamp(column[a].first + step * push[a], problem.columns[c].top, problem.columns[c].bottom);
    }
    std::sort(column.begin(), column.end());
  }
  std::vector<Placement> placements(problem.labels.size());
  stack(problem, columns, placements);
  return placements;
}

int crossings(const Problem& problem, const std::vector<Placement>& placements) {
  int count = 0;
  for (std::size_t i = 0; i < placements.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const auto end = [&](std::size_t k) {
        return problem.labels[k].targets[static_cast<std::size_t>(placements[k].target)].points[0];
      };
      const PagePoint a = placements[i].port, b = end(i), c = placements[j].port, d = end(j);
      count += turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
    }
  return count;
}

}  // namespace platewright::bench
