// What the labels met so far offer to one that follows at a slot. Hardly any of them is ever
// asked: whoever follows looks at the cheapest ones first, and each is reckoned only when it may
// be the next, by what it costs at least.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "place/strict_route.hpp"

namespace platewright::place {

class StrictRoute::Offers {
 public:
  Offers(const StrictRoute& route, std::size_t k)
      : route_(route),
        k_(k),
        line_(route.model_.lines[k]),
        stretches_(route.stretches_[k]),
        tables_(route.tables_[k]),
        shapes_(index(line_.shapes)),
        groups_(index(route.model_.groups)),
        order_(groups_),
        ranked_(shapes_ * groups_),
        floor_(stretches_.size(), never),
        place_(stretches_.size(), 0),
        offer_(stretches_.size() * shapes_),
        nearest_(shapes_, Thresholds::far_away) {
    for (std::size_t a = 0; a < shapes_; ++a)
      for (std::size_t b = 0; b < shapes_; ++b) {
        const RouteModel::Pair& pair = line_.pairs[a * shapes_ + b];
        nearest_[a] = std::min(nearest_[a], pair.nearest);
        backwards_.emplace_back(pair.cost.rbegin(), pair.cost.rend());
      }
  }

  void add(std::size_t e) {
    std::vector<std::size_t>& order = order_[index(stretches_[e].group)];
    if (order.empty()) heads_.push_back(index(stretches_[e].group));
    place_[e] = order.size();
    order.push_back(e);
    moving_.push_back(e);
  }
  void retire(std::size_t e) {
    std::vector<std::size_t>& order = order_[index(stretches_[e].group)];
    order.erase(order.begin() + static_cast<std::ptrdiff_t>(place_[e]));
    for (std::size_t q = place_[e]; q < order.size(); ++q) place_[order[q]] = q;
    if (order.empty()) std::erase(heads_, index(stretches_[e].group));
  }

  // Goes on to a slot. Each group's labels are kept in the order of what routes through them
  // cost at least, whoever follows here; that only falls.
  void arrive(int slot) {
    slot_ = slot;
    std::size_t kept = 0;
    for (const std::size_t e : moving_) {
      const Stretch& s = stretches_[e];
      const int last = slot - nearest_[index(s.shape)];
      if (last < s.span.last) moving_[kept++] = e;
      if (last < s.span.first) continue;
      const double floor = tables_.least[where(s.span, std::min(last, s.span.last))].best;
      if (!(floor < floor_[e])) continue;
      floor_[e] = floor;
      std::vector<std::size_t>& order = order_[index(s.group)];
      std::size_t q = place_[e];
      for (; q > 0 && floor < floor_[order[q - 1]]; --q) {
        order[q] = order[q - 1];
        place_[order[q]] = q;
      }
      order[q] = e;
      place_[e] = q;
    }
    moving_.resize(kept);
    for (std::size_t r = 1; r < heads_.size(); ++r) {
      const std::size_t group = heads_[r];
      std::size_t q = r;
      for (; q > 0 && head(group) < head(heads_[q - 1]); --q) heads_[q] = heads_[q - 1];
      heads_[q] = group;
    }
  }

  // The labels whose offers to this shape are below a limit, the cheapest of a group first, its
  // own group before all; `take` may lower the limit.
  template <class Take>
  void each(std::size_t shape, std::size_t group, const double& limit, double group_break,
            Take take) {
    if (!order_[group].empty()) of_group(shape, group, limit, 0, take);
    for (const std::size_t g : heads_) {
      if (!(head(g) + group_break < limit)) return;
      if (g != group) of_group(shape, g, limit, group_break, take);
    }
  }

  // What a label offers to another one of a shape here; asked of those that `each` gives only.
  double without(std::size_t e, std::size_t shape, int label) {
    Offer& o = offer_[e * shapes_ + shape];
    if (!o.labelled) {
      o.labelled = true;
      o.known = false;
      o.label = label_of(e, shape, o.best);
    }
    if (o.label != label) return o.best;
    if (!o.known) {
      o.known = true;
      o.other = until(e, shape, label, stretches_[e].span.last);
    }
    return o.other;
  }
  // The same, its port no later than a slot.
  double until(std::size_t e, std::size_t shape, int label, int slot) const {
    const Span& span = stretches_[e].span;
    const RouteModel::Entry& entry = line_.entries[index(stretches_[e].entry)];
    const RouteModel::Pair& pair = line_.pairs[index(stretches_[e].shape) * shapes_ + shape];
    const int level = slot_ - pair.nearest - static_cast<int>(pair.cost.size());
    double best = never;
    if (const int l = std::min(level, slot); l >= span.first)
      best = tables_.least[where(span, l)].without(label) + pair.cost.back();
    const int first = std::max(level + 1, span.first);
    for (int s = std::min(slot, slot_ - pair.nearest); s >= first; --s)
      best = std::min(best, route_.without(k_, entry, where(span, s), label) +
                                pair.cost[index(slot_ - pair.nearest - s)]);
    return best;
  }

 private:
  static std::size_t index(int i) { return static_cast<std::size_t>(i); }
  struct Item {
    double value;
    std::size_t stretch;
  };
  struct Ranked {  // the offers of a group to a shape that were reckoned, the cheapest first
    int slot = -1;
    std::size_t next = 0;  // of the group's labels, the first that was not
    std::vector<Item> items;
  };
  struct Offer {
    int slot = -1;
    int label = -1;         // before it
    bool labelled = false;  // `label` is known
    bool known = false;     // `other` is known
    double best = never, other = never;
  };

  double head(std::size_t group) const { return floor_[order_[group].front()]; }

  template <class Take>
  void of_group(std::size_t shape, std::size_t group, const double& limit, double more,
                Take& take) {
    Ranked& ranked = ranked_[shape * groups_ + group];
    if (ranked.slot != slot_) {
      ranked.slot = slot_;
      ranked.next = 0;
      ranked.items.clear();
    }
    const std::vector<std::size_t>& order = order_[group];
    for (std::size_t i = 0;; ++i) {
      while (ranked.next < order.size()) {
        const double floor = floor_[order[ranked.next]];
        if (!(floor + more < limit) || (i < ranked.items.size() && ranked.items[i].value <= floor))
          break;
        const std::size_t e = order[ranked.next++];
        const Item item{best_of(e, shape), e};
        std::size_t q = ranked.items.size();
        ranked.items.push_back(item);
        for (; q > 0 && item.value < ranked.items[q - 1].value; --q)
          ranked.items[q] = ranked.items[q - 1];
        ranked.items[q] = item;
      }
      if (i >= ranked.items.size() || !(ranked.items[i].value + more < limit)) return;
      take(ranked.items[i].stretch, more);
    }
  }

  double best_of(std::size_t e, std::size_t shape) {
    Offer& o = offer_[e * shapes_ + shape];
    if (o.slot == slot_) return o.best;
    o.slot = slot_;
    o.labelled = false;
    const Span& span = stretches_[e].span;
    const std::size_t pair = index(stretches_[e].shape) * shapes_ + shape;
    const std::vector<double>& costs = backwards_[pair];
    const int last = std::min(slot_ - line_.pairs[pair].nearest, span.last);
    const int level = slot_ - line_.pairs[pair].nearest - static_cast<int>(costs.size());
    double least[4] = {never, never, never, never};
    if (level >= span.first)
      least[0] = tables_.least[where(span, std::min(level, span.last))].best + costs.front();
    const int first = std::max(level + 1, span.first);
    if (first <= last) {
      // Four at a time: a least waits for the one before it.
      const double* value = &tables_.value[where(span, first)];
      const double* cost = &costs[index(first - level - 1)];
      const int many = last - first + 1;
      int s = 0;
      for (; s + 4 <= many; s += 4)
        for (int q = 0; q < 4; ++q) {
          const double v = value[s + q] + cost[s + q];
          least[q] = v < least[q] ? v : least[q];
        }
      for (; s < many; ++s) least[0] = std::min(least[0], value[s] + cost[s]);
    }
    return o.best = std::min(std::min(least[0], least[1]), std::min(least[2], least[3]));
  }

  // Of the route that the best offer stands for: the label before this one.
  int label_of(std::size_t e, std::size_t shape, double best) const {
    const Span& span = stretches_[e].span;
    const RouteModel::Pair& pair = line_.pairs[index(stretches_[e].shape) * shapes_ + shape];
    const int last = std::min(slot_ - pair.nearest, span.last);
    const int level = slot_ - pair.nearest - static_cast<int>(pair.cost.size());
    for (int s = last; s > level && s >= span.first; --s)
      if (tables_.value[where(span, s)] + pair.cost[index(slot_ - pair.nearest - s)] == best)
        return tables_.before[where(span, s)].label;
    return level >= span.first ? tables_.least[where(span, std::min(level, span.last))].label : -1;
  }

  const StrictRoute& route_;
  std::size_t k_;
  const RouteModel::Line& line_;
  const std::vector<Stretch>& stretches_;
  const Tables& tables_;
  std::size_t shapes_, groups_;
  std::vector<std::vector<std::size_t>> order_;  // by group: its stretches, by floor
  std::vector<std::size_t> heads_;               // groups with any, by their least floor
  std::vector<std::size_t> moving_;              // stretches whose floor can fall yet
  std::vector<Ranked> ranked_;                   // [shape * groups + group]
  std::vector<double> floor_;                    // by stretch
  std::vector<std::size_t> place_;               // by stretch: in its group's order
  std::vector<Offer> offer_;                     // [stretch * shapes + shape]
  std::vector<int> nearest_;                     // by shape
  std::vector<std::vector<double>> backwards_;   // pairs' costs, the farthest first
  int slot_ = -1;
};

}  // namespace platewright::place
