#include "place/strict_route.hpp"

#include <algorithm>

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

constexpr int far_away = Thresholds::far_away;

}  // namespace

StrictRoute::StrictRoute(const RouteModel& model, const Thresholds& thresholds)
    : model_(model), thresholds_(thresholds) {
  recount();
}

void StrictRoute::recount() {
  const std::size_t lines = model_.lines.size();
  span_.assign(lines, {});
  by_first_.assign(lines, {});
  before_.resize(lines);
  value_.resize(lines);
  least_.resize(lines);
  shortcuts_.resize(lines);
  for (std::size_t k = 0; k < lines; ++k) {
    std::size_t many = 0;
    for (const RouteModel::Entry& e : model_.lines[k].entries) {
      Span span{model_.lines[k].slots, -1, many};
      for (int s = 0; s < model_.lines[k].slots; ++s)
        if (e.cost[at(s)] < never) span.first = std::min(span.first, s), span.last = s;
      if (span.last >= span.first) {
        many += at(span.last - span.first + 1);
        by_first_[k].push_back(span_[k].size());
      }
      span_[k].push_back(span);
    }
    std::stable_sort(by_first_[k].begin(), by_first_[k].end(), [&](std::size_t a, std::size_t b) {
      return span_[k][a].first < span_[k][b].first;
    });
    for (auto* table : {&before_[k], &value_[k], &least_[k]}) table->resize(many);
  }
}

double StrictRoute::own(std::size_t line, const RouteModel::Entry& e, int slot) const {
  return e.cost[at(slot)] - prices_.label[at(e.label)] - model_.lines[line].lean * prices_.lean;
}

// Keeps what a shortcut costs above all that it can save between two neighbours.
void StrictRoute::lower_prices() {
  lowered_.assign(prices_.label.size(), 0);
  for (std::size_t k = 0; k < model_.lines.size(); ++k) {
    const RouteModel::Line& line = model_.lines[k];
    shortcuts_[k].price = never;
    if (line.closed.empty()) continue;
    double most = 0;
    for (const RouteModel::Pair& pair : line.pairs)
      most = std::max(most, *std::max_element(pair.cost.begin(), pair.cost.end()));
    const double least = 1.5 * most + 0.25 * model_.group_break + 1e-3;
    for (std::size_t i = 0; i < line.closed.size(); ++i) {
      if (line.closed[i] == never) continue;
      const double limit = line.closed[i] - line.lean * prices_.lean - least;
      if (prices_.label[i] <= limit) continue;
      prices_.label[i] = limit;
      lowered_[i] = 1;
    }
  }
  for (std::size_t k = 0; k < model_.lines.size(); ++k) {
    const RouteModel::Line& line = model_.lines[k];
    for (std::size_t i = 0; i < line.closed.size(); ++i)
      if (line.closed[i] < never)
        shortcuts_[k].price = std::min(
            shortcuts_[k].price, line.closed[i] - prices_.label[i] - line.lean * prices_.lean);
  }
}

double StrictRoute::bound(const RoutePrices& prices) {
  prices_ = prices;
  lower_prices();
  sum_ = 0;
  for (const double p : prices_.label) sum_ += p;
  start_.assign(model_.lines.size(), never);
  end_ = 0;
  for (std::size_t k = 0; k < model_.lines.size(); ++k) line_bound(k, end_);
  return sum_ + end_;
}

void StrictRoute::line_bound(std::size_t k, double start) {
  const RouteModel::Line& line = model_.lines[k];
  const std::size_t shapes = at(line.shapes);
  const std::vector<Span>& spans = span_[k];
  auto &before = before_[k], &value = value_[k], &least = least_[k];
  Shortcuts& shortcuts = shortcuts_[k];
  const bool open = line.closed.empty();
  const std::size_t groups = at(model_.groups);
  shortcuts.any.assign((at(line.slots) + 1) * groups, {});
  shortcuts.retired.assign(open ? 0 : at(line.slots), {});
  int far = 0;  // slots behind its last place at which a label retires
  for (const RouteModel::Pair& pair : line.pairs)
    far = std::max(far, pair.nearest + static_cast<int>(pair.cost.size()));
  far = open ? line.slots : far + far / 2;
  start_[k] = start;
  std::vector<int> nearest(shapes, far_away);
  for (std::size_t a = 0; a < shapes; ++a)
    for (std::size_t b = 0; b < shapes; ++b)
      nearest[a] = std::min(nearest[a], line.pairs[a * shapes + b].nearest);
  std::vector<Two> offers(spans.size() * shapes);
  std::vector<int> offered(spans.size() * shapes, -1);  // at which slot
  std::vector<double> floor(spans.size(), never);
  std::vector<double> shortcut(groups);
  std::vector<std::size_t> active;
  std::size_t next_entry = 0;
  From retired;
  for (int t = 0; t < line.slots; ++t) {
    for (; next_entry < by_first_[k].size() && spans[by_first_[k][next_entry]].first <= t; ++next_entry)
      active.push_back(by_first_[k][next_entry]);
    std::size_t kept = 0;
    for (const std::size_t e : active) {
      if (open || t <= spans[e].last + far) {
        active[kept++] = e;
        continue;
      }
      double gap = never;
      for (std::size_t b = 0; b < shapes; ++b)
        gap = std::min(gap, line.pairs[at(line.entries[e].shape) * shapes + b].cost.back());
      const double v = look(least, spans[e], spans[e].last).best + gap;
      if (v < retired.value) {
        retired = {v, e, spans[e].last};
        while (look(value, spans[e], retired.slot).best + gap > v) --retired.slot;
      }
    }
    active.resize(kept);
    if (!open) shortcuts.retired[at(t)] = retired;
    // By what a route through each costs at least, whoever follows here; nearly in order already.
    for (std::size_t r = 0; r < active.size(); ++r) {
      const std::size_t e = active[r];
      const Span& span = spans[e];
      const int last = std::min(t - nearest[at(line.entries[e].shape)], span.last);
      floor[e] = last < span.first ? never : look(least, span, last).best;
      for (std::size_t q = r; q > 0 && floor[active[q]] < floor[active[q - 1]]; --q)
        std::swap(active[q], active[q - 1]);
    }
    // Past a place that was left out groups break as often as without it, or more.
    From* any = &shortcuts.any[at(t) * groups];
    double all = never;
    for (std::size_t g = 0; g < groups; ++g) all = std::min(all, any[g].value);
    for (std::size_t g = 0; g < groups; ++g) {
      shortcut[g] = std::min(any[g].value, all + model_.group_break) + shortcuts.price;
      shortcut[g] = std::min({start, shortcut[g], retired.value});
      any[groups + g] = any[g];
    }
    // What a label offers to one of a shape here.
    const auto offer_of = [&](std::size_t e, std::size_t b) -> const Two& {
      Two& two = offers[e * shapes + b];
      if (offered[e * shapes + b] == t) return two;
      offered[e * shapes + b] = t;
      two = Two();
      const Span& span = spans[e];
      const RouteModel::Pair& pair = line.pairs[at(line.entries[e].shape) * shapes + b];
      const int last = std::min(t - pair.nearest, span.last);
      const int many = static_cast<int>(pair.cost.size());
      const int level = t - pair.nearest - many;
      if (level >= span.first)
        two.take(look(least, span, std::min(level, span.last)), pair.cost.back());
      for (int s = last; s > level && s >= span.first; --s)
        two.take(look(value, span, s), pair.cost[at(t - pair.nearest - s)]);
      return two;
    };
    for (const std::size_t f : active) {
      const Span& own_span = spans[f];
      if (t > own_span.last) continue;
      const RouteModel::Entry& to = line.entries[f];
      const std::size_t here = own_span.base + at(t - own_span.first);
      Two two;
      double mine = never;
      if (to.cost[at(t)] < never) {
        const double past = shortcut[at(model_.group_of[at(to.label)])];
        two.take(past, -2, past);
        const std::size_t shape = at(to.shape);
        for (const std::size_t e : active) {
          if (!(floor[e] < two.other)) break;
          const RouteModel::Entry& from = line.entries[e];
          if (from.label == to.label) continue;
          const Two& offer = offer_of(e, shape);
          if (!(offer.best < two.other)) continue;
          const double group = model_.group_of[at(from.label)] == model_.group_of[at(to.label)]
                                   ? 0.0
                                   : model_.group_break;
          const double whole = offer.without(to.label) + group;
          if (!(whole < two.other)) continue;
          const Thresholds::Bounds& bounds = thresholds_.at(k, from.label, to.label);
          if (t < bounds.from) continue;
          const RouteModel::Pair& pair = line.pairs[at(from.shape) * shapes + shape];
          const Span& span = spans[e];
          if (bounds.until >= std::min(t - pair.nearest, span.last)) {
            two.take(whole, from.label, never);
            continue;
          }
          // Its ports may lie no later than `until`.
          if (bounds.until < span.first) continue;
          const int until = std::min(bounds.until, span.last);
          if (!(look(least, span, until).without(to.label) + group < two.other)) continue;
          const int level = t - pair.nearest - static_cast<int>(pair.cost.size());
          double best = never;
          if (const int l = std::min(level, until); l >= span.first)
            best = look(least, span, l).without(to.label) + pair.cost.back();
          for (int s = until; s > level && s >= span.first; --s)
            best = std::min(best, look(value, span, s).without(to.label) +
                                      pair.cost[at(t - pair.nearest - s)]);
          two.take(best + group, from.label, never);
        }
        mine = own(k, to, t);
      }
      before[here] = two;
      value[here] = mine < never ? Two{two.best + mine, two.label, two.other + mine} : Two{};
      least[here] = value[here];
      if (t > own_span.first) least[here].take(least[here - 1], 0);
      From& mine_so_far = any[groups + at(model_.group_of[at(to.label)])];
      if (value[here].best < mine_so_far.value) mine_so_far = {value[here].best, f, t};
    }
  }
  end_ = std::min(start, last_of(k).value);
}

const StrictRoute::From& StrictRoute::last_of(std::size_t k) const {
  const std::vector<From>& any = shortcuts_[k].any;
  return *std::min_element(any.end() - model_.groups, any.end(),
                           [](const From& a, const From& b) { return a.value < b.value; });
}

void StrictRoute::meets(std::vector<int>& times, int& lean) const {
  times.assign(prices_.label.size(), 0);
  lean = 0;
  double rest = end_;
  for (std::size_t k = model_.lines.size(); k-- > 0;) {
    const RouteModel::Line& line = model_.lines[k];
    if (start_[k] <= rest) continue;
    const Shortcuts& shortcuts = shortcuts_[k];
    const std::size_t entries = line.entries.size(), shapes = at(line.shapes);
    std::size_t entry = last_of(k).entry;
    int slot = last_of(k).slot, not_before = -1;
    while (slot >= 0) {
      const RouteModel::Entry& to = line.entries[entry];
      ++times[at(to.label)];
      lean -= line.lean;
      // Whose label came before: the best that is not the one behind.
      double least = start_[k];
      std::size_t next = 0;
      int at_slot = -1, label = to.label;
      for (std::size_t e = 0; e < entries; ++e) {
        const Span& span = span_[k][e];
        if (span.last < span.first || span.first >= slot) continue;
        const RouteModel::Entry& from = line.entries[e];
        if (from.label == to.label || from.label == not_before) continue;
        const Thresholds::Bounds& bounds = thresholds_.at(k, from.label, to.label);
        if (slot < bounds.from) continue;
        const RouteModel::Pair& pair = line.pairs[at(from.shape) * shapes + at(to.shape)];
        const double group = model_.group_of[at(from.label)] == model_.group_of[at(to.label)]
                                 ? 0
                                 : model_.group_break;
        const int last = std::min({slot - pair.nearest, span.last, bounds.until});
        if (last < span.first ||
            look(least_[k], span, last).best >= least)
          continue;
        for (int s = last; s >= span.first; --s) {
          const int d = std::min(slot - pair.nearest - s, static_cast<int>(pair.cost.size()) - 1);
          const double v = look(value_[k], span, s).without(to.label) + group + pair.cost[at(d)];
          if (v < least) least = v, next = e, at_slot = s;
        }
      }
      for (int g = 0; g < model_.groups; ++g) {
        const From& any = shortcuts.any[at(slot) * at(model_.groups) + at(g)];
        const double v = any.value + shortcuts.price +
                         (g == model_.group_of[at(to.label)] ? 0 : model_.group_break);
        if (v < least) least = v, next = any.entry, at_slot = any.slot, label = -1;
      }
      if (!shortcuts.retired.empty())
        if (const From& gone = shortcuts.retired[at(slot)]; gone.value < least)
          least = gone.value, next = gone.entry, at_slot = gone.slot, label = -1;
      not_before = label;
      entry = next;
      slot = at_slot;
    }
    rest = start_[k];
  }
}

}  // namespace platewright::place
