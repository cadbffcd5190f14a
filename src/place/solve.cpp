#include <algorithm>
#include <cmath>

#include "place/cost.hpp"
#include "place/place.hpp"
#include "place/polish.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {

std::variant<Solution, Infeasible> solve(const Problem& problem, const Effort& effort) {
  return solve_from(problem, effort, {});
}

std::variant<Solution, Infeasible> solve_from(const Problem& problem, const Effort& effort,
                                              const std::vector<Placement>& start) {
  Solution solution;
  if (problem.labels.empty()) {
    solution.certificate.status = SolveStatus::optimal;
    return solution;
  }
  for (const Label& l : problem.labels) {
    if (l.variants.empty()) return Infeasible{"label \"" + l.anchor + "\" has no box"};
    if (l.targets.empty() || l.targets.front().points.empty())
      return Infeasible{"label \"" + l.anchor + "\" has no target"};
  }
  if (problem.columns.empty() && problem.rows.empty())
    return Infeasible{"there is no column and no row for " + std::to_string(problem.labels.size()) +
                      " labels"};
  const Rulebook rules(problem);
  const double step = problem.slot > 0 ? problem.slot : 1.0;
  // Nothing on this grid does not mean nothing: look at finer ones.
  GridAnswer answer;
  double used = step;
  for (const double finer : {1.0, 2.0, 4.0}) {
    used = step / finer;
    answer = solve_grid(rules, used, effort, start);
    if (answer.found || (answer.certain && used < step)) break;
  }
  if (!answer.found) return Infeasible{answer.witness};

  Certificate& c = solution.certificate;
  solution.placements = answer.placements;
  c.cost = answer.cost;
  c.bound = answer.bound;
  if (c.cost - c.bound <= 1e-6) {
    c.status = SolveStatus::optimal;
    c.bound = c.cost;
  }
  c.gap = c.status == SolveStatus::optimal ? 0 : (c.cost - c.bound) / std::max(c.cost, 1e-9);
  if (!verify(problem, solution).empty())
    return Infeasible{"no placement of " + std::to_string(problem.labels.size()) +
                      " labels was found that keeps every rule"};

  Solution polished = solution;
  polish(rules, polished.placements, used);
  const double polished_cost = cost(problem, polished.placements).total();
  c.polished_cost = c.cost;
  if (polished_cost < c.cost && verify(problem, polished).empty()) {
    solution.placements = polished.placements;
    c.polished_cost = polished_cost;
  }
  c.continuous_bound = std::min(c.polished_cost, continuous_bound(problem));
  c.continuous_gap = (c.polished_cost - c.continuous_bound) / std::max(c.polished_cost, 1e-9);
  return solution;
}

}  // namespace platewright::place
