// Bounds on the graph: routes that remember some of the labels they met.
#include <algorithm>

#include "base/at.hpp"
#include "place/route_graph.hpp"

namespace platewright::place {
namespace {

constexpr std::size_t most_states = 24;  // of one place

}  // namespace

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
    double dearest = -never;  // no state here has more
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
        std::size_t by = 0;
        while (by < here.size() && !covers(here[by], next)) ++by;
        if (by < here.size()) {
          std::swap(here[by], here[by / 2]);  // what covers one often covers others
          continue;
        }
        if (next.value <= dearest) {
          std::size_t keep = 0;
          for (std::size_t h = 0; h < here.size(); ++h)
            if (!covers(next, here[h])) here[keep++] = here[h];
          here.resize(keep);
        }
        dearest = std::max(dearest, next.value);
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
  sum_ = uneven_ = least_uneven(balance_, prices.label.size(), prices.lean);
  for (const double p : prices.label) sum_ += p;
  sweep(true, on_);
  return on_.begin[0] == on_.end[0] ? never : sum_ + on_.states[on_.begin[0]].value;
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

}  // namespace platewright::place
