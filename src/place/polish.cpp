#include "place/polish.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include "place/candidates.hpp"
#include "place/cost_terms.hpp"

namespace platewright::place {

double continuous_bound(const Problem& problem) {
  double sum = 0;
  for (const double least : least_costs(problem)) sum += least;
  return sum;
}

void polish(const Rulebook& rules, std::vector<Placement>& all, double step) {
  const Problem& problem = *rules.problem;
  const double fair = fair_gap(problem);
  const std::size_t n = all.size();
  const auto column = [&](std::size_t i) {
    return all[i].side == Side::left || all[i].side == Side::right;
  };
  const auto start = [&](std::size_t i) {
    return column(i) ? all[i].box.top() : all[i].box.left();
  };
  const auto end = [&](std::size_t i) {
    return column(i) ? all[i].box.bottom() : all[i].box.right();
  };
  constexpr std::size_t none = static_cast<std::size_t>(-1);
  std::vector<std::size_t> before(n, none), after(n, none);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) {
      if (i == j || all[i].side != all[j].side || all[i].column != all[j].column) continue;
      if (start(j) < start(i) && (before[i] == none || start(j) > start(before[i]))) before[i] = j;
      if (start(j) > start(i) && (after[i] == none || start(j) < start(after[i]))) after[i] = j;
    }
  std::vector<Placed> spots(n);
  for (std::size_t i = 0; i < n; ++i) spots[i] = placed(problem, all[i], static_cast<int>(i));

  const auto local = [&](std::size_t i) {
    const Placement& p = all[i];
    double sum =
        label_cost(problem, problem.labels[i], p.side, p.variant, p.target, p.port).total();
    if (before[i] != none) sum += gap_cost(problem.weights, start(i) - end(before[i]), fair);
    if (after[i] != none) sum += gap_cost(problem.weights, start(after[i]) - end(i), fair);
    return sum;
  };
  const auto keeps_rules = [&](std::size_t i) {
    if (!stands(rules, all[i], static_cast<int>(i))) return false;
    for (std::size_t j = 0; j < n; ++j)
      if (j != i && !compatible(rules, spots[i], spots[j])) return false;
    return true;
  };
  for (double size = step / 2; size > step / 70; size /= 2)
    for (int pass = 0; pass < 12; ++pass) {
      bool moved = false;
      for (std::size_t i = 0; i < n; ++i)
        for (const double by : {-size, size}) {
          const Placement kept = all[i];
          const double now = local(i);
          (column(i) ? all[i].port.y : all[i].port.x) += by;
          (column(i) ? all[i].box.y : all[i].box.x) += by;
          if (local(i) < now - 1e-9) {
            spots[i] = placed(problem, all[i], static_cast<int>(i));
            if (keeps_rules(i)) {
              moved = true;
              break;
            }
          }
          all[i] = kept;
          spots[i] = placed(problem, kept, static_cast<int>(i));
        }
      if (!moved) break;
    }
}

}  // namespace platewright::place
