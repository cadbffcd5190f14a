// The exact search on the graph: routes that remember all labels they met.
#include <algorithm>
#include <map>

#include "base/at.hpp"
#include "place/cost_terms.hpp"
#include "place/route_graph.hpp"

namespace platewright::place {
namespace {

}  // namespace

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
    return balance_cost(problem_.weights, left, right) - prices_.lean * (left - right) - uneven_;
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
