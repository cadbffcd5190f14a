#include "place/strict_route.hpp"

#include <algorithm>

#include "base/at.hpp"

namespace platewright::place {

StrictRoute::StrictRoute(const RouteModel& model, const Thresholds& thresholds)
    : model_(model), thresholds_(thresholds) {
  recount();
}

void StrictRoute::recount() {
  const std::size_t lines = model_.lines.size();
  span_.assign(lines, {});
  stretches_.assign(lines, {});
  asks_.resize(lines);
  tables_.resize(lines);
  shortcuts_.resize(lines);
  for (std::size_t k = 0; k < lines; ++k) {
    const RouteModel::Line& line = model_.lines[k];
    for (const RouteModel::Entry& e : line.entries) {
      Span span{line.slots, -1, 0};
      for (int s = 0; s < line.slots; ++s)
        if (e.cost[at(s)] < never) span.first = std::min(span.first, s), span.last = s;
      if (span.last >= span.first)
        stretches_[k].push_back({span, static_cast<int>(span_[k].size()), e.label, e.shape,
                                 model_.group_of[at(e.label)]});
      span_[k].push_back(span);
    }
    std::stable_sort(
        stretches_[k].begin(), stretches_[k].end(),
        [](const Stretch& a, const Stretch& b) { return a.span.first < b.span.first; });
    Tables& tables = tables_[k];
    tables.cost.clear();
    for (Stretch& s : stretches_[k]) {
      s.span.base = span_[k][at(s.entry)].base = tables.cost.size();
      const std::vector<double>& cost = line.entries[at(s.entry)].cost;
      tables.cost.insert(tables.cost.end(), cost.begin() + s.span.first,
                         cost.begin() + s.span.last + 1);
    }
    tables.value.resize(tables.cost.size());
    for (auto* table : {&tables.before, &tables.least}) table->resize(tables.cost.size());
    const std::vector<Stretch>& stretches = stretches_[k];
    asks_[k].resize(stretches.size() * stretches.size());
    auto next = asks_[k].begin();
    for (const Stretch& from : stretches)
      for (const Stretch& to : stretches) {
        Thresholds::Bounds asks = thresholds_.at(k, from.label, to.label);
        if (from.label == to.label || asks.until < from.span.first)
          asks.from = Thresholds::far_away;
        if (asks.until >= from.span.last) asks.until = Thresholds::far_away;
        *next++ = asks;
      }
  }
}

double StrictRoute::own(std::size_t line, const RouteModel::Entry& e, int slot) const {
  return own(line, e, e.cost[at(slot)]);
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
  sum_ = least_uneven(model_.balance, prices_.label.size(), prices_.lean);
  for (const double p : prices_.label) sum_ += p;
  start_.assign(model_.lines.size(), never);
  end_ = 0;
  for (std::size_t k = 0; k < model_.lines.size(); ++k) line_bound(k, end_);
  return sum_ + end_;
}

const StrictRoute::From& StrictRoute::last_of(std::size_t k) const {
  const std::vector<From>& any = shortcuts_[k].any;
  return *std::min_element(any.end() - model_.groups, any.end(),
                           [](const From& a, const From& b) { return a.value < b.value; });
}

void StrictRoute::meets(std::vector<int>& times, int& lean, std::vector<Met>* by_line) const {
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
      if (by_line != nullptr) {
        Met& met = (*by_line)[k * times.size() + at(to.label)];
        met = {met.times + 1, slot};
      }
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
        if (last < span.first || tables_[k].least[where(span, last)].best >= least) continue;
        for (int s = last; s >= span.first; --s) {
          const int d = std::min(slot - pair.nearest - s, static_cast<int>(pair.cost.size()) - 1);
          const double v = without(k, from, where(span, s), to.label) + group + pair.cost[at(d)];
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
