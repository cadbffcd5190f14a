#include "baselines.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "place/y_order.hpp"

namespace platewright::bench {
namespace {

using place::Placement;
using place::Problem;

double target_y(const Problem& problem, std::size_t i) { return problem.labels[i].targets[0].points[0].y; }

double turn(PagePoint a, PagePoint b, PagePoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace

std::vector<Placement> y_order_stacking(const Problem& problem) {
  return place::y_order_stacking(problem);
}

std::vector<Placement> force_directed(const Problem& problem) {
  place::StackedColumns columns = place::nearer_sides(problem);
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
  place::stack(problem, columns, placements);
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
