#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "base/at.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

// The offered target with the cheapest line, and where along the station that line is.
bool cheapest_target(const Station& s, int label, int& target, double& along) {
  const StationLabel& l = s.labels[at(label)];
  double best = never;
  for (std::size_t k = 0; k < l.targets.size(); ++k)
    for (int slot = 0; slot < s.slots; ++slot) {
      const double cost = l.lines[k * at(s.slots) + at(slot)];
      if (cost < best) best = cost, target = l.targets[k];
    }
  if (best == never) return false;
  const auto& points = s.rules->problem->labels[at(label)].targets[at(target)].points;
  along = 0;
  for (const PagePoint& p : points) along += s.row() ? p.x : p.y;
  along /= static_cast<double>(points.size());
  return true;
}

// Exchanges the ports of labels whose leaders cross until none do. Each exchange
// shortens the leaders, so it ends (Bekos, Kaufmann, Symvonis, Wolff 2007: for
// fixed ports the shortest leaders do not cross). True when anything changed.
bool uncross(const Station& s, std::vector<Choice>& run) {
  const Problem& problem = *s.rules->problem;
  const auto leader = [&](std::size_t rank, std::size_t label) {
    const Choice& c = run[label];
    const auto& points = problem.labels[at(c.label)].targets[at(c.target)].points;
    const PagePoint port = s.port(run[rank].slot);
    PagePoint far = points.front();
    for (const PagePoint& p : points)
      if (s.reach_of(p) > s.reach_of(far)) far = p;
    return branch_to(s.side, port, problem.stub, far).oblique();
  };
  std::vector<int> slots;
  for (const Choice& c : run) slots.push_back(c.slot);
  bool any = false;
  for (std::size_t pass = 0; pass < run.size() + 4; ++pass) {
    bool changed = false;
    for (std::size_t apart = 1; apart < run.size(); ++apart)
      for (std::size_t a = 0; a + apart < run.size(); ++a) {
        const std::size_t b = a + apart;
        if (!cross(leader(a, a), leader(b, b))) continue;
        std::swap(run[a], run[b]);
        run[a].slot = slots[a];
        run[b].slot = slots[b];
        changed = any = true;
      }
    if (!changed) break;
  }
  return any;
}

}  // namespace

void fit_variants(const Station& s, std::vector<Choice>& order) {
  const Problem& problem = *s.rules->problem;
  const double gap = std::ceil((problem.rules.label_gap) / s.step - 1e-9) * s.step;
  const double room = s.to - s.from;
  const auto extent = [&](const Choice& c, int v) {
    return std::ceil((s.before(c.label, v) + s.after(c.label, v)) / s.step - 1e-9) * s.step;
  };
  double sum = -gap;
  for (Choice& c : order) {
    const auto& variants = problem.labels[at(c.label)].variants;
    const auto& usable = s.labels[at(c.label)].variants;
    c.variant = usable.front();
    for (const int v : usable)
      if (variants[at(v)].penalty < variants[at(c.variant)].penalty) c.variant = v;
    sum += extent(c, c.variant) + gap;
  }
  while (sum > room) {
    Choice* best = nullptr;
    int to = 0;
    double worth = 0;
    for (Choice& c : order) {
      const auto& variants = problem.labels[at(c.label)].variants;
      for (const int v : s.labels[at(c.label)].variants) {
        const double saved = extent(c, c.variant) - extent(c, v);
        const double price = variants[at(v)].penalty - variants[at(c.variant)].penalty;
        if (saved <= 1e-9) continue;
        const double value = saved / (0.05 + std::max(0.0, price));
        if (value > worth) worth = value, best = &c, to = v;
      }
    }
    if (best == nullptr) return;
    sum -= extent(*best, best->variant) - extent(*best, to);
    best->variant = to;
  }
}

bool chain(const Station& s, double fair, const std::vector<Choice>& order,
           std::vector<Choice>& result) {
  const Problem& problem = *s.rules->problem;
  const double label_gap = problem.rules.label_gap;
  const std::size_t n = order.size(), slots = at(s.slots);
  result = order;
  if (n == 0) return true;
  if (slots == 0) return false;
  constexpr int most_looked = 8;  // neighbours' places tried for agreement, for one slot
  std::vector<int> from(n * slots, -1);
  std::vector<double> value(slots, never), prior(slots, never), least(slots);
  std::vector<int> least_at(slots);
  std::vector<Placed> spots(slots), prior_spots(slots);
  std::vector<double> gap_costs;  // by slots between the two ports
  for (std::size_t i = 0; i < n; ++i) {
    Choice c = order[i];
    const StationLabel& l = s.labels[at(c.label)];
    const auto found = std::find(l.targets.begin(), l.targets.end(), c.target);
    if (found == l.targets.end()) return false;
    const double* lines =
        l.lines.data() + static_cast<std::size_t>(found - l.targets.begin()) * slots;
    const Label& label = problem.labels[at(c.label)];
    const Variant& variant = label.variants[at(c.variant)];
    const Target& target = label.targets[at(c.target)];
    const double before = s.before(c.label, c.variant);
    std::swap(value, prior);
    std::swap(spots, prior_spots);
    double group = 0;
    int nearest = 0,
        far = 0;  // slots between ports: least allowed, and where the gap cost is level
    if (i > 0) {
      double low = never;
      int low_at = -1;
      for (std::size_t k = 0; k < slots; ++k) {
        if (prior[k] < low) low = prior[k], low_at = static_cast<int>(k);
        least[k] = low;
        least_at[k] = low_at;
      }
      const double shift = before + s.after(order[i - 1].label, order[i - 1].variant);
      nearest = std::max(0, static_cast<int>(std::ceil((shift + label_gap) / s.step - 1e-7)));
      far = std::max(nearest, static_cast<int>(std::ceil((shift + 2 * fair) / s.step)));
      gap_costs.clear();
      group = group_cost(problem.weights, problem.labels[at(order[i - 1].label)], label);
      for (int d = nearest; d <= far; ++d)
        gap_costs.push_back(group + gap_cost(problem.weights, s.step * d - shift, fair));
    }
    bool any = false;
    for (std::size_t k = 0; k < slots; ++k) {
      c.slot = static_cast<int>(k);
      value[k] = never;
      if (i > 0 && (c.slot < nearest || least[at(c.slot - nearest)] == never)) continue;
      if (!box_fits(s, c.label, c.variant, c.slot)) continue;
      // A leader that breaks a rule still keeps the label in its order; it is
      // counted as broken and repaired later.
      const double own = lines[k] == never ? broken : lines[k] + variant.penalty;
      const PagePoint port = s.port(c.slot);
      spots[k] = make_placed(c.label, s.side, box_at(s.side, variant, port), port, target);
      any = true;
      if (i == 0) {
        value[k] = own;
        continue;
      }
      for (const bool strict : {false, true}) {
        double best = never;
        int best_at = -1, looked = 0;
        const auto offer = [&](int j, double more) {
          double v = prior[at(j)] + more;
          if (!(v < best)) return;
          // After a few neighbours' places that do not agree none is taken to.
          if (strict && (looked >= most_looked ||
                         (++looked, !compatible(*s.rules, prior_spots[at(j)], spots[k]))))
            v += broken;
          if (v < best) best = v, best_at = j;
        };
        const int last = c.slot - nearest, level = c.slot - far;
        for (int j = last; j > std::max(-1, level); --j) offer(j, gap_costs[at(last - j)]);
        if (level >= 0 && least_at[at(level)] >= 0) offer(least_at[at(level)], gap_costs.back());
        if (best_at < 0) break;
        if (strict || compatible(*s.rules, prior_spots[at(best_at)], spots[k])) {
          value[k] = best + own;
          from[i * slots + k] = best_at;
          break;
        }
      }
    }
    if (!any) return false;
  }
  const auto best = std::min_element(value.begin(), value.end());
  if (*best == never) return false;
  int slot = static_cast<int>(best - value.begin());
  for (std::size_t i = n; i-- > 0;) {
    result[i].slot = slot;
    slot = from[i * slots + at(slot)];
  }
  return true;
}

Draft draft_from(const std::vector<Station>& stations, double fair,
                 const std::vector<int>& station_of, int rounds) {
  Draft draft(station_of.size());
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    struct Item {
      double along;
      Choice choice;
    };
    std::vector<Item> items;
    for (std::size_t i = 0; i < station_of.size(); ++i) {
      if (station_of[i] != static_cast<int>(k)) continue;
      Choice c{static_cast<int>(i), 0, 0, 0};
      double along = 0;
      if (s.labels[i].variants.empty() || !cheapest_target(s, c.label, c.target, along)) continue;
      items.push_back({along, c});
    }
    std::stable_sort(items.begin(), items.end(),
                     [](const Item& a, const Item& b) { return a.along < b.along; });
    std::vector<Choice> order;
    for (const Item& item : items) order.push_back(item.choice);
    fit_variants(s, order);
    std::vector<Choice> best;
    double best_cost = never;
    std::vector<Choice> placed_now;
    for (int round = 0; round < rounds; ++round) {
      // What does not fit stays unplaced: the tallest first.
      bool placed_all = chain(s, fair, order, placed_now);
      while (!placed_all && round == 0 && order.size() > 1) {
        const auto tallest =
            std::max_element(order.begin(), order.end(), [&](const Choice& a, const Choice& b) {
              return s.labels[at(a.label)].least_extent < s.labels[at(b.label)].least_extent;
            });
        order.erase(tallest);
        fit_variants(s, order);
        placed_all = chain(s, fair, order, placed_now);
      }
      if (!placed_all) break;
      Draft one(station_of.size());
      for (const Choice& c : placed_now) one[at(c.label)] = {static_cast<int>(k), c};
      const double cost = draft_cost(stations, fair, one) -
                          10 * broken * static_cast<double>(station_of.size() - placed_now.size());
      if (cost < best_cost - 1e-9) best_cost = cost, best = placed_now;
      if (!uncross(s, placed_now)) break;
      // The new order shares out the same heights: variants stay, slots are found anew.
      order = placed_now;
    }
    placed_now = best;
    for (const Choice& c : placed_now) draft[at(c.label)] = {static_cast<int>(k), c};
  }
  return draft;
}

}  // namespace platewright::place
