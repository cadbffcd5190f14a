#include "place/grids.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/off_grid.hpp"
#include "place/polish.hpp"
#include "place/verify.hpp"

namespace platewright::place {
namespace {

constexpr double most_slots = 2000;    // on one column or row; memory and time grow with them
constexpr double enough_slots = 300;   // where labels are many slots high
constexpr double slots_high = 8;       // the lowest label then
constexpr double most_cells = 3000;    // the same of the bound off the grid
constexpr double longer = 1.7;         // how much, a slot may be so that boxes fit on it
constexpr double worth_a_slot = 0.02;  // of the room, that slots twice as long must save

bool right(const Problem& problem, const std::vector<Placement>& placements) {
  Solution solution;
  solution.placements = placements;
  return verify(problem, solution).empty();
}

// What no grid nor anything between can mend: more height than there is, or a
// label that fits nowhere.
bool hopeless(const Problem& problem) {
  double need = 0, room = 0;
  for (const Label& l : problem.labels) {
    double least = never;
    for (const Variant& v : l.variants) {
      for (const Column& c : problem.columns)
        if (v.width <= c.width + 1e-9) least = std::min(least, v.height);
      for (const Row& r : problem.rows)
        if (v.height <= r.height + 1e-9) least = std::min(least, v.width_in_row());
    }
    need += least + problem.rules.label_gap;
  }
  for (const Column& c : problem.columns)
    room += std::max(0.0, c.bottom - c.top + problem.rules.label_gap);
  for (const Row& r : problem.rows)
    room += std::max(0.0, r.right - r.left + problem.rules.label_gap);
  return need > room + 1e-9;
}

double longest(const Problem& problem) {
  double most = 0;
  for (const Column& c : problem.columns) most = std::max(most, c.bottom - c.top);
  for (const Row& r : problem.rows) most = std::max(most, r.right - r.left);
  return most;
}

// A step from `least` on by which labels' boxes, stacked on each other, lose least room to
// rounding.
double stacking_step(const Problem& problem, double least) {
  std::map<double, double> before, after;  // of a port, and how many of them
  for (const Label& l : problem.labels) {
    const Variant& v =
        *std::min_element(l.variants.begin(), l.variants.end(),
                          [](const Variant& a, const Variant& b) { return a.penalty < b.penalty; });
    ++before[v.port];
    ++after[v.height - v.port + problem.rules.label_gap];
  }
  constexpr std::size_t most = 400;  // distances that are looked at
  if (before.size() * after.size() > most) return least;
  struct Distance {
    double length, times;
  };
  std::vector<Distance> distances;  // of ports next to each other
  double sum = 0;
  for (const auto& [a, m] : after)
    for (const auto& [b, n] : before) {
      distances.push_back({a + b, m * n});
      sum += (a + b) * m * n;
    }
  double best = least, lowest = never;
  const auto offer = [&](double step) {
    double lost = 0;
    for (const Distance& d : distances)
      lost += d.times * (step * std::ceil(d.length / step - 1e-9) - d.length);
    const double now = lost / sum + worth_a_slot * (step / least - 1);
    if (now < lowest - 1e-12) lowest = now, best = step;
  };
  offer(least);
  for (const Distance& d : distances)
    for (double parts = std::floor(d.length / least); parts >= 1; --parts)
      if (const double step = d.length / parts; step < longer * least) offer(step);
  return best;
}

}  // namespace

double cell_of(const Problem& problem) {
  return std::max(problem.slot > 0 ? problem.slot : 1.0, longest(problem) / most_cells);
}

double slot_of(const Problem& problem) {
  const double slot = problem.slot > 0 ? problem.slot : 1.0;
  const double least = longest(problem) / most_slots;
  return least <= slot ? slot : stacking_step(problem, least);
}

double slot_on_page(const Problem& problem) {
  double lowest = never;
  for (const Label& l : problem.labels)
    for (const Variant& v : l.variants)
      lowest = std::min(lowest, std::min(v.height, v.width_in_row()) + problem.rules.label_gap);
  const double long_enough = std::min(longest(problem) / enough_slots, lowest / slots_high);
  return problem.slot > 0 && long_enough > problem.slot ? stacking_step(problem, long_enough)
                                                        : problem.slot;
}

GridAnswer any_grid(const Rulebook& rules, double step, const Effort& effort, const Start& start,
                    double& used, const Reckoned* known) {
  const Problem& problem = *rules.problem;
  if (start.step > 0) {
    used = start.step;
    GridAnswer answer = solve_grid(rules, used, effort, start, known);
    if (effort.stop.stop_requested() || (answer.found && right(problem, answer.placements)))
      return answer;
  }
  GridAnswer first;
  std::vector<std::vector<Placement>> nearly;
  for (const double finer : {1.0, 2.0, 4.0, 8.0}) {
    used = step / finer;
    if (finer > 1 && longest(problem) / used > most_slots) break;
    // Where the first grid has none for sure, finer ones hardly ever do: a glance at each.
    const bool glance = first.certain;
    GridAnswer answer =
        solve_grid(rules, used, glance ? Effort{effort.nodes / 4, 0} : effort, start, known);
    if (effort.stop.stop_requested()) return answer;
    if (answer.found && glance)
      answer = solve_grid(rules, used, effort, {answer.placements, used, answer.settled});
    if (answer.found && right(problem, answer.placements)) return answer;
    if (!answer.placements.empty()) nearly.push_back(answer.placements);
    if (finer == 1) first = answer;
    if (hopeless(problem)) break;
  }
  used = step;
  GridAnswer between;
  // A placement that breaks few rules often keeps them all between the slots.
  const auto found = [&] {
    for (const auto& placements : nearly) {
      between.placements = placements;
      if (settle(rules, step, between.placements) && right(problem, between.placements))
        return true;
    }
    return off_grid(rules, step, between.placements) && right(problem, between.placements);
  };
  if (!hopeless(problem) && found()) {
    between.found = true;
    between.cost = cost(problem, between.placements).total();
    between.bound = std::min(between.cost, continuous_bound(problem));
    return between;
  }
  first.found = false;
  if (first.witness.empty())
    first.witness = "no placement of " + std::to_string(problem.labels.size()) +
                    " labels was found that keeps every rule";
  return first;
}

}  // namespace platewright::place
