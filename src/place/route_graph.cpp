#include "place/route_graph.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "place/cost_terms.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr std::size_t most_states = 24;  // of one place in a bound

LabelSet bit(int label) { return label < 0 ? 0 : LabelSet{1} << label; }

}  // namespace

RouteGraph::RouteGraph(const std::vector<Station>& stations, const BothWays& routes,
                       const RoutePrices& prices, double fair, double below, std::size_t most_arcs)
    : problem_(*stations.front().rules->problem), stations_(stations), prices_(prices) {
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
        const Two& before = ahead.before()[k][q][at(slot)];
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
    for (std::size_t i = first; i < end; ++i) {
      RouteNode& node = nodes_[i];
      const std::span<const Target> mine{
          &problem_.labels[at(node.label)].targets[at(node.choice.target)], 1};
      for (std::size_t m = 0; m < problem_.labels.size(); ++m) {
        if (static_cast<int>(m) == node.label) continue;
        const std::span<const Target> other = problem_.labels[m].targets;
        const LabelSet that = bit(static_cast<int>(m));
        if (node.choice.slot < ahead.thresholds().between(k, other, mine).from)
          node.never_before |= that;
        if (node.choice.slot > ahead.thresholds().between(k, mine, other).until)
          node.never_after |= that;
      }
    }
    const double label_gap = problem_.rules.label_gap;
    std::vector<std::size_t> next_slot(end - first);  // the first node of a later slot
    for (std::size_t i = end; i-- > first;)
      next_slot[i - first] = i + 1 == end ? end
                             : nodes_[i + 1].choice.slot != nodes_[i].choice.slot
                                 ? i + 1
                                 : next_slot[i + 1 - first];
    const double start = ahead.start_of(k), rest = routes.rest_of(k);
    for (std::size_t i = first; i < end && complete_; ++i) {
      const RouteNode& a = nodes_[i];
      if (sum + start + ends[i].own + ends[i].after.best < below)
        arcs.push_back({static_cast<std::uint32_t>(between), static_cast<std::uint32_t>(i), 0});
      if (sum + ends[i].before.best + ends[i].own + rest < below)
        arcs.push_back({static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(end), 0});
      const double here = sum + ends[i].before.best + ends[i].own;
      for (std::size_t j = next_slot[i - first]; j < end;) {
        if (!(here + ends[j].own + ends[j].after.best < below)) {
          j = next_slot[j - first];  // nor can any other of this slot
          continue;
        }
        const RouteNode& b = nodes_[j++];
        const Ends& far = ends[j - 1];
        if (a.label == b.label) continue;
        const double least = sum + ends[i].before.without(b.label) + ends[i].own + far.own +
                             far.after.without(a.label);
        if (!(least < below)) continue;
        const double free = far.start - ends[i].end;
        if (free < label_gap - 1e-6) continue;
        if (((a.never_after & bit(b.label)) | (b.never_before & bit(a.label))) != 0) continue;
        const double cost =
            gap_cost(problem_.weights, free, fair) +
            (model.group_of[at(a.label)] == model.group_of[at(b.label)] ? 0 : model.group_break);
        if (!(least + cost < below)) continue;
        arcs.push_back({static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(j - 1), cost});
        if (arcs.size() > most_arcs) {
          complete_ = false;
          break;
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

double RouteGraph::reduced(const RouteNode& n) const {
  if (n.label < 0) return 0;
  const Side side = stations_[at(n.line)].side;
  const double lean = side == Side::left ? -1 : side == Side::right ? 1 : 0;
  return n.cost - prices_.label[at(n.label)] - lean * prices_.lean;
}

void RouteGraph::sweep(bool back, Sweep& sweep) const {
  const std::size_t many = nodes_.size();
  sweep.states.clear();
  sweep.work = many;
  sweep.begin.assign(many, 0);
  sweep.end.assign(many, 0);
  std::vector<State> here;
  const auto covers = [](const State& x, const State& y) {
    return x.value <= y.value && (x.memory & ~y.memory) == 0 && (x.here & ~y.here) == 0 &&
           (x.ban & ~y.ban) == 0;
  };
  for (std::size_t step = 0; step < many; ++step) {
    const std::size_t i = back ? many - 1 - step : step;
    const RouteNode& node = nodes_[i];
    here.clear();
    if (step == 0) here.push_back({0, 0, 0, 0.0, 0xffffffffu});
    const bool between = node.label < 0;
    const LabelSet mine = bit(node.label);
    const LabelSet kept = between ? ~LabelSet{0} : memory_[at(node.label)];
    const LabelSet crossed = back ? node.never_after : node.never_before,
                   crosses = (back ? node.never_before : node.never_after) & kept;
    const double own = reduced(node);
    const std::uint32_t first = back ? first_arc_[i] : first_into_[i],
                        last = back ? first_arc_[i + 1] : first_into_[i + 1];
    for (std::uint32_t a = first; a < last; ++a) {
      const std::uint32_t other = back ? arc_to_[a] : into_from_[a];
      const double more = arc_cost_[back ? a : into_arc_[a]] + own;
      sweep.work += sweep.end[other] - sweep.begin[other];
      for (std::uint32_t q = sweep.begin[other]; q < sweep.end[other]; ++q) {
        const State& s = sweep.states[q];
        if (((s.memory | s.ban) & mine) != 0 || (s.here & crossed) != 0) continue;
        State next{(s.memory & kept) | mine, 0, 0, s.value + more, q};
        if (!between) next.here = (s.here & kept) | mine, next.ban = (s.ban & kept) | crosses;
        bool worse = false;
        for (std::size_t h = 0; h < here.size() && !worse; ++h) worse = covers(here[h], next);
        if (worse) continue;
        std::size_t keep = 0;
        for (std::size_t h = 0; h < here.size(); ++h)
          if (!covers(next, here[h])) here[keep++] = here[h];
        here.resize(keep);
        here.push_back(next);
      }
    }
    std::sort(here.begin(), here.end(), [](const State& a, const State& b) {
      if (a.value != b.value) return a.value < b.value;
      if (a.memory != b.memory) return a.memory < b.memory;
      return a.here != b.here ? a.here < b.here : a.ban < b.ban;
    });
    if (here.size() > most_states) {
      // What the dearest of them agree on still holds for each.
      State& rest = here[most_states - 1];
      for (std::size_t h = most_states; h < here.size(); ++h) {
        rest.memory &= here[h].memory;
        rest.here &= here[h].here;
        rest.ban &= here[h].ban;
      }
      here.resize(most_states);
    }
    sweep.begin[i] = static_cast<std::uint32_t>(sweep.states.size());
    sweep.states.insert(sweep.states.end(), here.begin(), here.end());
    sweep.end[i] = static_cast<std::uint32_t>(sweep.states.size());
  }
}

double RouteGraph::bound(const RoutePrices& prices) {
  prices_ = prices;
  sum_ = 0;
  for (const double p : prices.label) sum_ += p;
  sweep(true, on_);
  return on_.begin[0] == on_.end[0] ? never : sum_ + on_.states[on_.begin[0]].value;
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

void RouteGraph::reduce(double below) {
  Sweep up;
  sweep(false, up);
  std::vector<Arc> arcs;
  for (std::size_t i = 0; i < nodes_.size(); ++i)
    for (std::uint32_t a = first_arc_[i]; a < first_arc_[i + 1]; ++a) {
      const std::uint32_t to = arc_to_[a];
      const bool apart = nodes_[i].label < 0 || nodes_[to].label < 0;
      bool keep = false;
      for (std::uint32_t p = up.begin[i]; p < up.end[i] && !keep; ++p)
        for (std::uint32_t q = on_.begin[to]; q < on_.end[to] && !keep; ++q) {
          const State &x = up.states[p], &y = on_.states[q];
          if (!(sum_ + x.value + arc_cost_[a] + y.value < below)) break;
          keep = (x.memory & y.memory) == 0 &&
                 (apart || ((x.ban & y.here) == 0 && (x.here & y.ban) == 0));
        }
      if (keep) arcs.push_back({static_cast<std::uint32_t>(i), to, arc_cost_[a]});
    }
  join(arcs);
}

std::vector<std::size_t> RouteGraph::last_route() const {
  std::vector<std::size_t> route;
  if (on_.begin.empty() || on_.begin[0] == on_.end[0]) return route;
  std::size_t node = 0;
  for (std::uint32_t q = on_.begin[0]; q != 0xffffffffu; q = on_.states[q].next) {
    while (!(on_.begin[node] <= q && q < on_.end[node])) ++node;
    if (nodes_[node].label >= 0) route.push_back(node);
  }
  return route;
}

void RouteGraph::meets(std::vector<int>& times, int& lean) const {
  times.assign(problem_.labels.size(), 0);
  lean = 0;
  for (const std::size_t node : last_route()) {
    ++times[at(nodes_[node].label)];
    const Side side = stations_[at(nodes_[node].line)].side;
    lean += side == Side::left ? 1 : side == Side::right ? -1 : 0;
  }
}

bool RouteGraph::remember() {
  const std::vector<std::size_t> route = last_route();
  bool any = false;
  // What lies between two of the route remembers a label.
  const auto carry = [&](std::size_t from, std::size_t to, int label) {
    for (std::size_t m = from; m < to; ++m) {
      LabelSet& memory = memory_[at(nodes_[route[m]].label)];
      any = any || (memory & bit(label)) == 0;
      memory |= bit(label);
    }
  };
  for (std::size_t j = 1; j < route.size(); ++j)
    for (std::size_t i = j; i-- > 0;) {
      const RouteNode &a = nodes_[route[i]], &b = nodes_[route[j]];
      if (a.label == b.label) {
        carry(i + 1, j, a.label);
        break;
      }
      if (a.line != b.line) continue;
      // The latter one knows who must not come before it; or the former, who not after.
      if ((b.never_before & bit(a.label)) != 0) carry(i + 1, j + 1, a.label);
      if ((a.never_after & bit(b.label)) != 0) carry(i + 1, j, b.label);
    }
  return any;
}

Placed RouteGraph::placed_at(std::size_t node) const {
  const RouteNode& n = nodes_[node];
  return placed(problem_, placement_of(stations_[at(n.line)], n.choice), n.label);
}

RouteGraph::Found RouteGraph::search(double below, std::size_t most_states,
                                     const std::vector<std::pair<int, int>>& watched) const {
  Found found;
  const Rulebook& rules = *stations_.front().rules;
  constexpr std::uint32_t none = 0xffffffffu;
  struct Path {
    LabelSet met, here, ban;  // see State; of later nodes' concern only
    double value;
    std::uint32_t prior, node;
    std::uint32_t kept;                 // which places of watched labels it must remember
    std::uint16_t left = 0, right = 0;  // labels there, while the balance is open
    bool same(const Path& p) const {
      return met == p.met && here == p.here && ban == p.ban && kept == p.kept && left == p.left &&
             right == p.right;
    }
  };
  std::vector<Path> all, here;
  std::vector<std::uint32_t> begin(nodes_.size(), 0), finish(nodes_.size(), 0);
  const int n = static_cast<int>(problem_.labels.size());
  const LabelSet every = n == 64 ? ~LabelSet{0} : (LabelSet{1} << n) - 1;
  std::vector<LabelSet> due(nodes_.size(), 0);        // their last places lie before
  std::vector<LabelSet> concern(nodes_.size(), 0);    // who of them met matters later on this line
  std::vector<LabelSet> coming(nodes_.size(), 0);     // who has places after this one on this line
  std::vector<LabelSet> elsewhere(nodes_.size(), 0);  // or on later lines
  LabelSet later = 0, later_lines = 0, on_line = 0, matter = 0;
  for (std::size_t i = nodes_.size(); i-- > 0;) {
    if (nodes_[i].label < 0) later_lines = later, on_line = matter = 0;
    concern[i] = matter;
    coming[i] = on_line;
    elsewhere[i] = later_lines;
    matter |= nodes_[i].never_before;
    on_line |= bit(nodes_[i].label);
    due[i] = every & ~(later |= bit(nodes_[i].label));
  }

  // Sets of places to remember, each once; the first is empty.
  std::vector<std::vector<std::uint32_t>> kept_sets(1);
  std::map<std::vector<std::uint32_t>, std::uint32_t> kept_ids{{{}, 0}};
  std::vector<LabelSet> partners(at(n), 0);
  for (const auto& [a, b] : watched) partners[at(a)] |= bit(b), partners[at(b)] |= bit(a);
  const auto agrees = [&](std::uint32_t kept, std::size_t node) {
    for (const std::uint32_t k : kept_sets[kept])
      if ((partners[at(nodes_[node].label)] & bit(nodes_[k].label)) != 0 &&
          !compatible(rules, placed_at(k), placed_at(node)))
        return false;
    return true;
  };
  const auto keep = [&](std::uint32_t kept, std::size_t node, LabelSet met) {
    std::vector<std::uint32_t> places;
    for (const std::uint32_t k : kept_sets[kept])
      if ((partners[at(nodes_[k].label)] & ~met) != 0) places.push_back(k);
    if ((partners[at(nodes_[node].label)] & ~met) != 0)
      places.push_back(static_cast<std::uint32_t>(node));
    if (places.empty()) return std::uint32_t{0};
    const auto [entry, fresh] =
        kept_ids.try_emplace(places, static_cast<std::uint32_t>(kept_sets.size()));
    if (fresh) kept_sets.push_back(std::move(places));
    return entry->second;
  };

  // The balance is settled where only columns of the right follow those of the left.
  const bool weighs = problem_.weights.balance != 0;
  int settled = -1;
  if (weighs && problem_.rows.empty()) {
    std::size_t k = 0;
    while (k < stations_.size() && stations_[k].side == Side::left) ++k;
    const std::size_t boundary = k;
    while (k < stations_.size() && stations_[k].side == Side::right) ++k;
    if (k == stations_.size()) settled = static_cast<int>(boundary);
  }
  const auto lopsided = [&](int left, int right) {
    return balance_cost(problem_.weights, left, right) - prices_.lean * (left - right);
  };
  found.whole = true;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const RouteNode& node = nodes_[i];
    const LabelSet mine = bit(node.label);
    const double own = reduced(node);
    const Side side = node.label >= 0 ? stations_[at(node.line)].side : Side::top;
    const bool end = i + 1 == nodes_.size();
    here.clear();
    const auto offer = [&](Path p, double more) {
      if ((due[i] & ~(p.met | mine)) != 0) return;
      p.value += more;
      p.node = static_cast<std::uint32_t>(i);
      if (weighs && node.label >= 0 && (settled < 0 || side == Side::left)) {
        p.left = static_cast<std::uint16_t>(p.left + (side == Side::left));
        p.right = static_cast<std::uint16_t>(p.right + (side == Side::right));
      }
      if (node.label < 0 && node.line == settled) {
        p.value += lopsided(p.left, n - p.left);
        p.left = p.right = 0;
      } else if (end && weighs && settled < 0) {
        p.value += lopsided(p.left, p.right);
        p.left = p.right = 0;
      }
      if (node.label < 0) {
        p.here = p.ban = 0;
      } else {
        p.here = (p.here | mine) & (concern[i] | mine);
        p.ban = (p.ban | node.never_after) & coming[i] & ~(p.met | mine);
        // Whoever is banned must have a place on a later line.
        if ((p.ban & ~elsewhere[i]) != 0) return;
      }
      // The cheapest way on that repeats nothing it remembers and crosses nothing.
      double rest = never;
      for (std::uint32_t r = on_.begin[i]; r < on_.end[i]; ++r)
        if ((on_.states[r].memory & p.met & ~mine) == 0 &&
            (on_.states[r].ban & p.here & ~mine) == 0 && (on_.states[r].here & p.ban) == 0) {
          rest = on_.states[r].value;
          break;
        }
      if (!(sum_ + p.value - own + rest < below)) return;
      if (!watched.empty() && node.label >= 0) {
        if (p.kept != 0 && !agrees(p.kept, i)) return;
        p.kept = keep(p.kept, i, p.met | mine);
      }
      p.met |= mine;
      p.here &= concern[i];
      here.push_back(p);
    };
    if (i == 0) offer({0, 0, 0, 0.0, none, 0, 0}, 0);
    for (std::uint32_t b = first_into_[i]; b < first_into_[i + 1]; ++b) {
      const std::uint32_t from = into_from_[b];
      const double more = arc_cost_[into_arc_[b]] + own;
      for (std::uint32_t q = begin[from]; q < finish[from]; ++q) {
        if (((all[q].met | all[q].ban) & mine) != 0 || (all[q].here & node.never_before) != 0)
          continue;
        Path p = all[q];
        p.prior = q;
        offer(p, more);
      }
    }
    std::sort(here.begin(), here.end(), [](const Path& a, const Path& b) {
      if (a.met != b.met) return a.met < b.met;
      if (a.here != b.here) return a.here < b.here;
      if (a.ban != b.ban) return a.ban < b.ban;
      if (a.kept != b.kept) return a.kept < b.kept;
      if (a.left != b.left) return a.left < b.left;
      if (a.right != b.right) return a.right < b.right;
      return a.value != b.value ? a.value < b.value : a.prior < b.prior;
    });
    begin[i] = static_cast<std::uint32_t>(all.size());
    for (const Path& p : here)
      if (begin[i] == all.size() || !all.back().same(p)) all.push_back(p);
    finish[i] = static_cast<std::uint32_t>(all.size());
    if (all.size() > most_states) {
      found.whole = false;
      break;
    }
  }
  found.states = all.size();
  if (!found.whole) return found;
  std::uint32_t best = none;
  for (std::uint32_t q = begin.back(); q < finish.back(); ++q)
    if (const double cost = sum_ + all[q].value; cost < found.cost) found.cost = cost, best = q;
  if (best == none) return found;
  found.found = true;
  found.draft.resize(at(n));
  std::vector<std::size_t> route;
  for (std::uint32_t q = best; q != none; q = all[q].prior)
    if (nodes_[all[q].node].label >= 0) route.insert(route.begin(), all[q].node);
  for (std::size_t i = 0; i < route.size(); ++i) {
    const RouteNode& b = nodes_[route[i]];
    found.draft[at(b.label)] = {b.line, b.choice};
    for (std::size_t j = 0; j < i; ++j)
      if (!compatible(rules, placed_at(route[j]), placed_at(route[i])))
        found.clash.push_back({nodes_[route[j]].label, b.label});
  }
  return found;
}

}  // namespace platewright::place
