#include "place/route_graph.hpp"

#include <algorithm>

#include "base/at.hpp"
#include "place/cost_terms.hpp"

namespace platewright::place {
namespace {

// A label before this slot, or behind that one, would be crossed by another one, whatever targets
// that has, were it before (behind) it on the line.
struct Crossed {
  int after = -Thresholds::far_away, until = Thresholds::far_away;
};

// Nodes [first, end) of one slot; `on`: the least of ways on from them.
struct OfSlot {
  std::size_t first, end;
  double on, least_start, most_start;
};

// By the other label, of a label with this target on line k.
std::vector<Crossed> crossed_by(const Problem& problem, const Thresholds& thresholds, std::size_t k,
                                int label, int target) {
  const std::span<const Target> mine{&problem.labels[at(label)].targets[at(target)], 1};
  std::vector<Crossed> all(problem.labels.size());
  for (std::size_t m = 0; m < all.size(); ++m) {
    if (static_cast<int>(m) == label) continue;
    const std::span<const Target> other = problem.labels[m].targets;
    all[m] = {thresholds.between(k, other, mine).from, thresholds.between(k, mine, other).until};
  }
  return all;
}

}  // namespace

RouteGraph::RouteGraph(const std::vector<Station>& stations, const BothWays& routes,
                       const RoutePrices& prices, double fair, double below, std::size_t most_arcs)
    : problem_(*stations.front().rules->problem),
      stations_(stations),
      balance_(routes.model().balance),
      prices_(prices) {
  const RouteModel& model = routes.model();
  const StrictRoute& ahead = routes.ahead();
  memory_.resize(problem_.labels.size());
  for (std::size_t i = 0; i < memory_.size(); ++i) memory_[i] = bit(static_cast<int>(i));
  struct Ends {
    Two before, after;  // routes up to the place, and from it on, both without it
    double own;
    double start, end;
  };
  std::vector<Ends> ends;
  std::vector<std::size_t> line_start;
  std::vector<Arc> arcs;
  nodes_.push_back({});
  ends.push_back({});
  std::size_t between = 0;
  for (std::size_t k = 0; k < stations.size() && complete_; ++k) {
    const Station& s = stations[k];
    const RouteModel::Line& line = model.lines[k];
    const std::size_t first = nodes_.size();
    struct Item {
      RouteNode node;
      Two before, after;
    };
    std::vector<Item> items;
    const double sum = ahead.price_sum();
    for (std::size_t q = 0; q < line.entries.size(); ++q) {
      const RouteModel::Entry& e = line.entries[q];
      for (int slot = 0; slot < line.slots; ++slot) {
        if (e.cost[at(slot)] == never) continue;
        const Two& before = ahead.before(k, q, slot);
        const Two& after = routes.after(k, q, slot);
        const double total = sum + through(before, after) + ahead.own(k, e, slot);
        if (!(total < below)) continue;
        const StationLabel& l = s.labels[at(e.label)];
        for (const int v : l.variants) {
          if (e.shape != line.shape_of[at(e.label)][at(v)]) continue;
          if (!box_fits(s, e.label, v, slot)) continue;
          for (std::size_t c = 0; c < l.targets.size(); ++c) {
            const double cost = l.lines[c * at(s.slots) + at(slot)] +
                                problem_.labels[at(e.label)].variants[at(v)].penalty;
            const double more = cost - e.cost[at(slot)];
            if (!(total + more < below)) continue;
            items.push_back({{e.label, static_cast<int>(k), {e.label, v, l.targets[c], slot}, cost},
                             before,
                             after});
          }
        }
      }
    }
    // By slot; within one, those from which ways on are cheapest come first.
    const auto on = [&](const Item& item) {
      return item.node.cost - prices.label[at(item.node.label)] - line.lean * prices.lean +
             item.after.best;
    };
    std::sort(items.begin(), items.end(), [&](const Item& a, const Item& b) {
      const Choice &x = a.node.choice, &y = b.node.choice;
      if (x.slot != y.slot) return x.slot < y.slot;
      if (const double p = on(a), q = on(b); p != q) return p < q;
      if (x.label != y.label) return x.label < y.label;
      return x.variant != y.variant ? x.variant < y.variant : x.target < y.target;
    });
    for (const Item& item : items) {
      const Choice& c = item.node.choice;
      const Placement p = placement_of(s, c);
      nodes_.push_back(item.node);
      ends.push_back({item.before, item.after,
                      item.node.cost - prices.label[at(c.label)] - line.lean * prices.lean,
                      s.start(p.box), s.end(p.box)});
    }
    const std::size_t end = nodes_.size();
    // What crosses asks only for the label and its target, which many slots share.
    std::vector<std::vector<std::vector<Crossed>>> crossed(problem_.labels.size());
    for (std::size_t i = first; i < end; ++i) {
      RouteNode& node = nodes_[i];
      auto& by_target = crossed[at(node.label)];
      by_target.resize(problem_.labels[at(node.label)].targets.size());
      std::vector<Crossed>& others = by_target[at(node.choice.target)];
      if (others.empty())
        others = crossed_by(problem_, ahead.thresholds(), k, node.label, node.choice.target);
      for (std::size_t m = 0; m < others.size(); ++m) {
        const LabelSet that = bit(static_cast<int>(m));
        if (node.choice.slot < others[m].after) node.never_before |= that;
        if (node.choice.slot > others[m].until) node.never_after |= that;
      }
    }
    const double label_gap = problem_.rules.label_gap;
    constexpr double hair = 1e-9;  // sums in another order differ by less
    const auto least_gap_cost = [&](const OfSlot& slot, double from) {
      return gap_cost(problem_.weights,
                      std::clamp(fair, slot.least_start - from, slot.most_start - from), fair);
    };
    std::vector<OfSlot> slots;
    for (std::size_t i = first; i < end; ++i) {
      if (i == first || nodes_[i].choice.slot != nodes_[i - 1].choice.slot)
        slots.push_back({i, i, ends[i].own + ends[i].after.best, ends[i].start, ends[i].start});
      OfSlot& slot = slots.back();
      slot.end = i + 1;
      slot.least_start = std::min(slot.least_start, ends[i].start);
      slot.most_start = std::max(slot.most_start, ends[i].start);
    }
    std::size_t later = 0;  // the first of the slots after a place's own
    const double start = ahead.start_of(k), rest = routes.rest_of(k);
    for (std::size_t i = first; i < end && complete_; ++i) {
      const RouteNode& a = nodes_[i];
      if (sum + start + ends[i].own + ends[i].after.best < below)
        arcs.push_back({static_cast<std::uint32_t>(between), static_cast<std::uint32_t>(i), 0});
      if (sum + ends[i].before.best + ends[i].own + rest < below)
        arcs.push_back({static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(end), 0});
      const double here = sum + ends[i].before.best + ends[i].own;
      while (later < slots.size() && slots[later].first <= i) ++later;
      for (std::size_t t = later; t < slots.size() && complete_; ++t) {
        const OfSlot& slot = slots[t];
        if (!(here + slot.on + least_gap_cost(slot, ends[i].end) < below + hair)) continue;
        for (std::size_t j = slot.first; j < slot.end; ++j) {
          const RouteNode& b = nodes_[j];
          const Ends& far = ends[j];
          if (!(here + far.own + far.after.best < below + hair)) break;  // nor has any behind it
          if (a.label == b.label) continue;
          if (((a.never_after & bit(b.label)) | (b.never_before & bit(a.label))) != 0) continue;
          const double free = far.start - ends[i].end;
          if (free < label_gap - 1e-6) continue;
          const double least = sum + ends[i].before.without(b.label) + ends[i].own + far.own +
                               far.after.without(a.label);
          if (!(least < below)) continue;
          const double cost =
              gap_cost(problem_.weights, free, fair) +
              (model.group_of[at(a.label)] == model.group_of[at(b.label)] ? 0 : model.group_break);
          if (!(least + cost < below)) continue;
          arcs.push_back({static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(j), cost});
          if (arcs.size() > most_arcs) {
            complete_ = false;
            break;
          }
        }
      }
    }
    nodes_.push_back({});
    nodes_.back().line = static_cast<int>(k) + 1;
    ends.push_back({});
    if (sum + start + rest < below)
      arcs.push_back({static_cast<std::uint32_t>(between), static_cast<std::uint32_t>(end), 0});
    between = end;
  }
  join(arcs);
}

// Arcs by where they start, and by where they lead.
void RouteGraph::join(const std::vector<Arc>& arcs) {
  first_arc_.assign(nodes_.size() + 1, 0);
  first_into_.assign(nodes_.size() + 1, 0);
  for (const Arc& a : arcs) ++first_arc_[a.from + 1], ++first_into_[a.to + 1];
  for (std::size_t i = 0; i < nodes_.size(); ++i)
    first_arc_[i + 1] += first_arc_[i], first_into_[i + 1] += first_into_[i];
  arc_to_.resize(arcs.size());
  arc_cost_.resize(arcs.size());
  into_from_.resize(arcs.size());
  into_arc_.resize(arcs.size());
  std::vector<std::uint32_t> next(first_arc_.begin(), first_arc_.end() - 1),
      next_into(first_into_.begin(), first_into_.end() - 1);
  for (const Arc& a : arcs) {
    const std::uint32_t out = next[a.from]++, in = next_into[a.to]++;
    arc_to_[out] = a.to;
    arc_cost_[out] = a.cost;
    into_from_[in] = a.from;
    into_arc_[in] = out;
  }
}

void RouteGraph::check_neighbours() {
  const Rulebook& rules = *stations_.front().rules;
  std::vector<Arc> arcs;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const bool between = nodes_[i].label < 0;
    const Placed me = between ? Placed{} : placed_at(i);
    for (std::uint32_t a = first_arc_[i]; a < first_arc_[i + 1]; ++a) {
      const std::uint32_t to = arc_to_[a];
      if (between || nodes_[to].label < 0 || compatible(rules, me, placed_at(to)))
        arcs.push_back({static_cast<std::uint32_t>(i), to, arc_cost_[a]});
    }
  }
  join(arcs);
}

Placed RouteGraph::placed_at(std::size_t node) const {
  const RouteNode& n = nodes_[node];
  return placed(problem_, placement_of(stations_[at(n.line)], n.choice), n.label);
}

}  // namespace platewright::place
