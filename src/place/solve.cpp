#include "place/solve.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <optional>

#include "place/cost.hpp"
#include "place/grids.hpp"
#include "place/inside.hpp"
#include "place/place.hpp"
#include "place/polish.hpp"
#include "place/prove.hpp"
#include "place/two_sides.hpp"
#include "place/verify.hpp"

namespace platewright::place {

namespace {

std::optional<Infeasible> faulty_input(const Problem& problem) {
  const auto finite = [](std::initializer_list<double> values) {
    return std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
  };
  for (const Label& l : problem.labels) {
    const std::string who = std::string("label \"").append(l.anchor).append("\" ");
    if (l.variants.empty()) return Infeasible{who + "has no box"};
    for (const Variant& v : l.variants)
      if (!finite({v.width, v.height, v.port, v.penalty}) || v.width < 0 || v.height < 0 ||
          v.port < 0 || v.port > v.height)
        return Infeasible{who + "has a box without a proper size"};
    if (l.targets.empty()) return Infeasible{who + "has no target"};
    for (const Target& t : l.targets) {
      if (t.points.empty()) return Infeasible{who + "has a target without a point"};
      for (const PagePoint& p : t.points)
        if (!finite({p.x, p.y, t.penalty}))
          return Infeasible{who + "has a target that is no number"};
    }
  }
  for (const Column& c : problem.columns)
    if (!finite({c.edge, c.top, c.bottom, c.width}))
      return Infeasible{"a column's place is no number"};
  for (const Row& r : problem.rows)
    if (!finite({r.edge, r.left, r.right, r.height}))
      return Infeasible{"a row's place is no number"};
  return std::nullopt;
}

}  // namespace

std::variant<Solution, Infeasible> solve(const Problem& problem, const Effort& effort) {
  return solve_from(problem, effort, {});
}

std::variant<Solution, Infeasible> solve_from(const Problem& problem, const Effort& effort,
                                              const Solution& before,
                                              std::shared_ptr<const Reckoned> known) {
  if (any_inside(before.placements)) {  // those stay where they are
    const Beside rest = beside(problem, before.placements);
    auto answer = solve_from(rest.problem, effort, Solution{rest.placements, {}});
    if (auto* found = std::get_if<Solution>(&answer)) {
      std::vector<Placement> all = before.placements;
      for (std::size_t k = 0; k < rest.labels.size(); ++k)
        all[rest.labels[k]] = found->placements[k];
      found->placements = std::move(all);
      found->on_grid = {};
    }
    return answer;
  }
  RoutePrices prices;
  auto answer = solve_unbounded(problem, effort,
                                before.on_grid.step > 0 ? before.on_grid : Start{before.placements},
                                prices, known);
  if (auto* found = std::get_if<Solution>(&answer)) bound_off_grid(problem, effort, prices, *found);
  return answer;
}

std::variant<Solution, Infeasible> solve_unbounded(const Problem& problem, const Effort& effort,
                                                   const Start& start, RoutePrices& prices,
                                                   std::shared_ptr<const Reckoned>& reckoned) {
  Solution solution;
  if (problem.labels.empty()) {
    solution.certificate.status = SolveStatus::optimal;
    return solution;
  }
  if (auto fault = faulty_input(problem)) return *std::move(fault);
  if (problem.columns.empty() && problem.rows.empty())
    return Infeasible{"there is no column and no row for " + std::to_string(problem.labels.size()) +
                      " labels"};
  const Rulebook rules(problem);
  const double step = slot_of(problem);
  double used = step;
  GridAnswer answer = any_grid(rules, step, effort, start, used, reckoned.get());
  if (!answer.found) return Infeasible{answer.witness};

  Certificate& c = solution.certificate;
  solution.placements = answer.placements;
  if (answer.step > 0) solution.on_grid = {answer.placements, answer.step, answer.settled};
  c.cost = answer.cost;
  c.bound = answer.bound;
  if (c.cost - c.bound <= 1e-6) {
    c.status = SolveStatus::optimal;
    c.bound = c.cost;
  }
  c.gap = c.status == SolveStatus::optimal ? 0 : (c.cost - c.bound) / std::max(c.cost, 1e-9);
  Solution polished = solution;
  polish(rules, polished.placements, used);
  const double polished_cost = cost(problem, polished.placements).total();
  c.polished_cost = c.cost;
  if (polished_cost < c.cost && verify(problem, polished).empty()) {
    solution.placements = polished.placements;
    c.polished_cost = polished_cost;
  }
  prices = std::move(answer.prices);
  reckoned = std::move(answer.reckoned);
  return solution;
}

void bound_off_grid(const Problem& problem, const Effort& effort, const RoutePrices& prices,
                    Solution& solution) {
  if (problem.labels.empty()) return;
  Certificate& c = solution.certificate;
  c.continuous_bound = continuous_bound(problem);
  if (effort.for_proof() > 0 && effort.off_grid)
    c.continuous_bound =
        std::max(c.continuous_bound, continuous_bound(Rulebook(problem), cell_of(problem),
                                                      c.polished_cost, effort.for_proof(), prices));
  c.continuous_bound = std::min(c.continuous_bound, c.polished_cost);
  // The grid is a part of the plane.
  if (c.status != SolveStatus::optimal && c.continuous_bound > c.bound) {
    c.bound = c.continuous_bound;
    c.gap = (c.cost - c.bound) / std::max(c.cost, 1e-9);
  }
  c.continuous_bound = std::min(c.continuous_bound, c.bound);
  c.continuous_gap = (c.polished_cost - c.continuous_bound) / std::max(c.polished_cost, 1e-9);
}

}  // namespace platewright::place
