#include "place/one_side.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "place/cost_terms.hpp"

namespace platewright::place {
namespace {

constexpr double cost_hair = 1e-9;  // costs nearer than this are equal
constexpr int most_ambiguous = 5;  // labels with targets on both sides of a leader, tried both ways

std::size_t index(int i) { return static_cast<std::size_t>(i); }
int first_of(LabelSet set) { return std::countr_zero(set); }
LabelSet bit(int label) { return LabelSet{1} << label; }

}  // namespace

OneSide::OneSide(const Station& station, double fair, long nodes)
    : station_(station), problem_(*station.rules->problem), fair_(fair), nodes_(nodes) {
  const std::size_t n = std::min<std::size_t>(station.labels.size(), 64);
  base_.resize(n);
  least_.resize(n);
  std::uint32_t next = 0;
  for (std::size_t i = 0; i < n; ++i) {
    std::size_t same = 0;
    while (problem_.labels[same].group != problem_.labels[i].group) ++same;
    groups_.push_back(static_cast<int>(same));
  }
  for (std::size_t i = 0; i < n; ++i) {
    const StationLabel& l = station.labels[i];
    base_[i] = next;
    next += static_cast<std::uint32_t>(l.targets.size() * l.variants.size() * index(station.slots));
    least_[i].push_back(l.least);
    for (std::size_t width = 1; 2 * width <= l.least.size(); width *= 2) {
      const std::vector<double>& last = least_[i].back();
      std::vector<double> level(last.size() - width);
      for (std::size_t s = 0; s < level.size(); ++s) level[s] = std::min(last[s], last[s + width]);
      least_[i].push_back(std::move(level));
    }
  }
}

OneSide::Spot OneSide::spot(int label, int k, int variant, int slot) const {
  const StationLabel& l = station_.labels[index(label)];
  Spot s;
  s.label = label;
  s.k = k;
  s.variant = variant;
  s.slot = slot;
  s.id = base_[index(label)] +
         static_cast<std::uint32_t>(
             (index(k) * l.variants.size() + index(variant)) * index(station_.slots) + index(slot));
  const int v = l.variants[index(variant)];
  s.along = station_.along(slot);
  s.start = s.along - station_.before(label, v);
  s.end = s.along + station_.after(label, v);
  const Label& whole = problem_.labels[index(label)];
  const PagePoint port = station_.port(slot);
  s.placed =
      make_placed(label, station_.side, box_at(station_.side, whole.variants[index(v)], port), port,
                  whole.targets[index(l.targets[index(k)])]);
  return s;
}

OneSide::Spot OneSide::spot(std::uint32_t id) const {
  std::size_t label = base_.size() - 1;
  while (base_[label] > id) --label;
  const StationLabel& l = station_.labels[label];
  const std::size_t within = id - base_[label], slots = index(station_.slots);
  const std::size_t kv = within / slots;
  return spot(static_cast<int>(label), static_cast<int>(kv / l.variants.size()),
              static_cast<int>(kv % l.variants.size()), static_cast<int>(within % slots));
}

// What groups cost at least in a run of these labels between two others (-1: an
// end): each group that comes in anew is one break, and so is coming back.
double OneSide::least_breaks(int upper, int lower, LabelSet labels) const {
  LabelSet seen = 0;
  for (LabelSet rest = labels; rest != 0; rest &= rest - 1)
    seen |= bit(groups_[index(first_of(rest))]);
  const LabelSet inner = seen;
  if (upper >= 0) seen |= bit(groups_[index(upper)]);
  if (lower >= 0) seen |= bit(groups_[index(lower)]);
  const bool back = upper >= 0 && lower >= 0 && groups_[index(upper)] == groups_[index(lower)] &&
                    (inner & ~bit(groups_[index(upper)])) != 0;
  const int breaks = std::popcount(seen) - 1 + back;
  return problem_.weights.group_break * std::max(0, breaks);
}

double OneSide::quick_bound(LabelSet labels) const {
  double sum = least_breaks(-1, -1, labels), extent = -problem_.rules.label_gap;
  for (LabelSet rest = labels; rest != 0; rest &= rest - 1) {
    const StationLabel& l = station_.labels[index(first_of(rest))];
    sum += l.least_total;
    extent += l.least_extent + problem_.rules.label_gap;
  }
  return extent > station_.to - station_.from + cost_hair ? never : sum;
}

// Sum over the labels of the cheapest slot left between the bounds; `each` (64
// values) takes the single ones.
double OneSide::bound(const Spot& upper, const Spot& lower, LabelSet labels, double* each) const {
  const double gap = problem_.rules.label_gap;
  const double from = upper.label < 0 ? station_.from : upper.end + gap;
  const double to = lower.label < 0 ? station_.to : lower.start - gap;
  const int low =
      std::max(0, static_cast<int>(std::ceil((from - station_.from) / station_.step - 1e-7)));
  const int high =
      std::min(station_.slots - 1,
               static_cast<int>(std::floor((to - station_.from) / station_.step + 1e-7)));
  if (labels == 0) return joint(upper, lower);
  if (low > high) return never;
  const auto level =
      static_cast<std::size_t>(std::bit_width(static_cast<unsigned>(high - low + 1)) - 1);
  double sum = least_breaks(upper.label, lower.label, labels), extent = -gap;
  for (LabelSet rest = labels; rest != 0; rest &= rest - 1) {
    const int m = first_of(rest);
    const std::vector<double>& table = least_[index(m)][level];
    const double least =
        std::min(table[index(low)], table[index(high + 1) - (std::size_t{1} << level)]);
    if (each != nullptr) each[m] = least;
    sum += least;
    extent += station_.labels[index(m)].least_extent + gap;
  }
  return extent > to - from + 1e-7 ? never : sum;
}

double OneSide::joint(const Spot& upper, const Spot& lower) const {
  if (upper.label < 0 || lower.label < 0) return 0;
  return gap_cost(problem_.weights, lower.start - upper.end, fair_) +
         group_cost(problem_.weights, problem_.labels[index(upper.label)],
                    problem_.labels[index(lower.label)]);
}

bool OneSide::agree(const Spot& a, const Spot& b) {
  return a.label < 0 || b.label < 0 || compatible(*station_.rules, a.placed, b.placed);
}

// Which nearer labels have a target before (above) and after (below) a leader.
// Equal distances are ordered by label, so that "farthest" is always one label.
const OneSide::Split& OneSide::split(const Spot& at) {
  const StationLabel& own = station_.labels[index(at.label)];
  // The variant does not matter: file under variant 0.
  const std::uint32_t id =
      base_[index(at.label)] +
      static_cast<std::uint32_t>((index(at.k) * own.variants.size()) * index(station_.slots) +
                                 index(at.slot));
  Split& split = splits_[id];
  if (split.known) return split;
  split.known = true;
  PagePoint far = at.placed.target->points.front();
  for (const PagePoint& p : at.placed.target->points)
    if (station_.reach_of(p) > station_.reach_of(far)) far = p;
  const auto along = [&](PagePoint p) { return station_.row() ? p.x : p.y; };
  const double stub = station_.row() ? 0 : problem_.stub;
  const double reach = own.reach[index(at.k)], start = along(at.placed.port);
  const double rise = (along(far) - start) / (reach - stub);
  for (std::size_t other = 0; other < base_.size(); ++other) {
    const int m = static_cast<int>(other);
    if (m == at.label) continue;
    const StationLabel& l = station_.labels[other];
    for (std::size_t k = 0; k < l.targets.size(); ++k) {
      if (l.reach[k] > reach || (l.reach[k] == reach && m > at.label)) continue;
      const Target& target = problem_.labels[other].targets[index(l.targets[k])];
      PagePoint end = target.points.front();
      for (const PagePoint& p : target.points)
        if (station_.reach_of(p) > station_.reach_of(end)) end = p;
      const double line = start + rise * (station_.reach_of(end) - stub);
      if (along(end) < line + 1e-6) split.before |= bit(m);
      if (along(end) > line - 1e-6) split.after |= bit(m);
    }
  }
  return split;
}

double OneSide::search(const Spot& upper, const Spot& lower, LabelSet labels, double below,
                       int depth) {
  double each[64];
  const double least = bound(upper, lower, labels, each);
  if (labels == 0 || !(least < below - cost_hair)) return least < below - cost_hair ? least : never;
  const Key key{upper.id, lower.id, labels};
  if (const auto found = memo_.find(key); found != memo_.end()) {
    const Entry& e = found->second;
    if (e.bound >= below - cost_hair) return never;
    if (e.value < never || e.tried >= below - cost_hair) {
      cut_ = cut_ || !e.whole;
      return e.value < below - cost_hair ? e.value : never;
    }
  }
  if (nodes_ <= 0) {
    cut_ = true;
    return never;
  }
  --nodes_;

  // The farthest chosen target must lie beyond some target of every other label.
  double need = -1, second = -1;
  int needed_by = -1;
  for (LabelSet rest = labels; rest != 0; rest &= rest - 1) {
    const int m = first_of(rest);
    const auto& reach = station_.labels[index(m)].reach;
    const double nearest = *std::min_element(reach.begin(), reach.end());
    if (nearest >= need)
      second = need, need = nearest, needed_by = m;
    else
      second = std::max(second, nearest);
  }
  const double gap = problem_.rules.label_gap;
  const double from = upper.label < 0 ? station_.from : upper.end + gap;
  const double to = lower.label < 0 ? station_.to : lower.start - gap;
  struct Try {
    double key, cost;
    int label, k, variant, slot;
  };
  std::vector<Try> tries;
  long scanned = 0;
  for (LabelSet rest = labels; rest != 0; rest &= rest - 1) {
    const int m = first_of(rest);
    const StationLabel& l = station_.labels[index(m)];
    const double others = least - each[m];
    for (std::size_t k = 0; k < l.targets.size(); ++k) {
      if (l.reach[k] < (m == needed_by ? second : need)) continue;
      for (std::size_t v = 0; v < l.variants.size(); ++v) {
        const double before = station_.before(m, l.variants[v]),
                     after = station_.after(m, l.variants[v]);
        const double penalty = problem_.labels[index(m)].variants[index(l.variants[v])].penalty;
        const int low = std::max(
            0, static_cast<int>(std::ceil((from + before - station_.from) / station_.step - 1e-7)));
        const int high = std::min(
            station_.slots - 1,
            static_cast<int>(std::floor((to - after - station_.from) / station_.step + 1e-7)));
        const double* lines = l.lines.data() + k * index(station_.slots);
        scanned += std::max(0, high - low + 1);
        for (int s = low; s <= high; ++s) {
          const double cost = lines[s] + penalty;
          if (cost + others >= below - cost_hair) continue;
          if (!problem_.obstacles.empty() && !box_fits(station_, m, l.variants[v], s)) continue;
          tries.push_back({cost + others, cost, m, static_cast<int>(k), static_cast<int>(v), s});
        }
      }
    }
  }
  // Few of them are looked at, so they are taken from a heap, cheapest first.
  const auto later = [](const Try& a, const Try& b) {
    if (a.key != b.key) return a.key > b.key;
    if (a.label != b.label) return a.label > b.label;
    if (a.k != b.k) return a.k > b.k;
    return a.variant != b.variant ? a.variant > b.variant : a.slot > b.slot;
  };
  std::make_heap(tries.begin(), tries.end(), later);

  // Sorting and looking through them is work as well.
  nodes_ -= static_cast<long>(tries.size() / 8) + scanned / 64;
  const bool cut_before = cut_;
  cut_ = false;
  double best = below;
  Entry entry;
  bool found = false;
  std::vector<LabelSet> ways;
  for (auto end = tries.end(); end != tries.begin(); --end) {
    const Try t = tries.front();
    if (t.key >= best - cost_hair) break;
    if (nodes_ <= 0) {
      cut_ = true;
      break;
    }
    std::pop_heap(tries.begin(), end, later);
    const Spot me = spot(t.label, t.k, t.variant, t.slot);
    --nodes_;
    if (!agree(upper, me) || !agree(me, lower)) continue;
    const LabelSet others = labels & ~bit(t.label);
    const Split parts = split(me);
    if ((others & ~(parts.before | parts.after)) != 0) continue;
    const LabelSet both = others & parts.before & parts.after;
    const LabelSet only_before = others & parts.before & ~both;
    ways.clear();
    if (std::popcount(both) <= most_ambiguous) {
      LabelSet sub = 0;
      do {
        ways.push_back(sub);
        sub = (sub - both) & both;
      } while (sub != 0);
    } else {
      // Too many to try all: half and half by label order, none, all.
      cut_ = true;
      LabelSet half = 0;
      int taken = 0;
      ways.push_back(0);
      for (LabelSet rest = both; rest != 0; rest &= rest - 1) {
        half |= bit(first_of(rest));
        if (++taken == std::popcount(both) / 2) ways.push_back(half);
      }
      ways.push_back(both);
    }
    for (const LabelSet way : ways) {
      const LabelSet before = only_before | way, after = others & ~before;
      const double least_after = bound(me, lower, after, nullptr);
      const double least_before = bound(upper, me, before, nullptr);
      if (!(t.cost + least_before + least_after < best - cost_hair)) continue;
      const double a = search(upper, me, before, best - t.cost - least_after, depth + 1);
      if (a == never) continue;
      const double b = search(me, lower, after, best - t.cost - a, depth + 1);
      if (b == never) continue;
      if (t.cost + a + b < best) {
        best = t.cost + a + b;
        found = true;
        entry.choice = me.id;
        entry.before = before;
      }
    }
  }
  const bool whole = !cut_;
  cut_ = cut_ || cut_before;
  Entry& kept = memo_[key];
  entry.whole = whole;
  if (found) {
    entry.value = best;
    entry.bound = whole ? best : std::max(kept.bound, least);
    kept = entry;
    return best;
  }
  kept.whole = whole;
  (whole ? kept.bound : kept.tried) = below;
  return never;
}

void OneSide::collect(const Spot& upper, const Spot& lower, LabelSet labels,
                      std::vector<Choice>& out) const {
  if (labels == 0) return;
  const auto found = memo_.find({upper.id, lower.id, labels});
  if (found == memo_.end() || found->second.value == never) return;
  const Spot me = spot(found->second.choice);
  const StationLabel& l = station_.labels[index(me.label)];
  collect(upper, me, found->second.before, out);
  out.push_back({me.label, l.variants[index(me.variant)], l.targets[index(me.k)], me.slot});
  collect(me, lower, labels & ~bit(me.label) & ~found->second.before, out);
}

OneSide::Answer OneSide::solve(LabelSet labels, double below) {
  Answer answer;
  const Spot open_upper, open_lower;
  answer.bound = quick_bound(labels);
  if (answer.bound == never) {
    answer.proven = true;
    return answer;
  }
  cut_ = false;
  const double best = search(open_upper, open_lower, labels, below, 0);
  answer.proven = !cut_;
  if (best < below) {
    answer.found = true;
    answer.cost = best;
    collect(open_upper, open_lower, labels, answer.choices);
    if (answer.proven) answer.bound = best;
  } else if (answer.proven) {
    answer.bound = std::max(answer.bound, below);
  }
  return answer;
}

}  // namespace platewright::place
