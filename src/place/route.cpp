#include "place/route.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

Route::Route(const RouteModel& model) : model_(model), lines_(model.lines.size()) { recount(); }

std::size_t Route::kinds(std::size_t line) const {
  return at(model_.lines[line].shapes) * at(model_.groups);
}

void Route::recount() {
  for (std::size_t k = 0; k < lines_.size(); ++k) {
    const RouteModel::Line& line = model_.lines[k];
    const std::size_t slots = at(line.slots);
    const auto kind = [&](const RouteModel::Entry& e) {
      return at(e.shape) * at(model_.groups) + at(model_.group_of[at(e.label)]);
    };
    auto& first = lines_[k].first;
    first.assign(kinds(k) * slots + 1, 0);
    for (const RouteModel::Entry& e : line.entries)
      for (std::size_t s = 0; s < slots; ++s)
        if (e.cost[s] < never) ++first[kind(e) * slots + s + 1];
    for (std::size_t i = 1; i < first.size(); ++i) first[i] += first[i - 1];
    lines_[k].entry.resize(first.back());
    std::vector<std::uint32_t> next(first.begin(), first.end() - 1);
    for (std::size_t e = 0; e < line.entries.size(); ++e)
      for (std::size_t s = 0; s < slots; ++s)
        if (line.entries[e].cost[s] < never)
          lines_[k].entry[next[kind(line.entries[e]) * slots + s]++] =
              static_cast<std::uint32_t>(e);
  }
}

double Route::bound(const RoutePrices& prices) {
  prices_ = prices;
  sum_ = 0;
  for (const double p : prices.label) sum_ += p;
  const std::size_t groups = at(model_.groups);
  double start = 0;
  for (std::size_t k = 0; k < lines_.size(); ++k) {
    const RouteModel::Line& line = model_.lines[k];
    Line& my = lines_[k];
    const std::size_t slots = at(line.slots), shapes = at(line.shapes);
    my.before.assign(kinds(k) * slots, Two());
    my.value.assign(kinds(k) * slots, Two());
    my.least.assign(kinds(k) * slots, Two());
    my.start = start;
    double end = start;
    for (int t = 0; t < line.slots; ++t)
      for (std::size_t b = 0; b < shapes; ++b) {
        Two any;
        for (std::size_t g = 0; g < groups; ++g) {
          const std::size_t here = (b * groups + g) * slots + at(t);
          if (my.first[here] == my.first[here + 1]) continue;
          Two before;
          before.take(start, -2, start);
          for (std::size_t a = 0; a < shapes; ++a) {
            const RouteModel::Pair& pair = line.pairs[a * shapes + b];
            const int last = t - pair.nearest;
            if (last < 0) continue;
            const std::size_t base = (a * groups + g) * slots;
            const int many = static_cast<int>(pair.cost.size());
            const int count = std::min(many, last + 1);
            const Two* value = my.value.data() + base + at(last);
            for (int d = 0; d < count; ++d) before.take(value[-d], pair.cost[at(d)]);
            if (last - many >= 0) before.take(my.least[base + at(last - many)], pair.cost.back());
          }
          my.before[here] = before;
          Two value;
          for (std::uint32_t i = my.first[here]; i < my.first[here + 1]; ++i) {
            const RouteModel::Entry& e = line.entries[my.entry[i]];
            const double v = before.without(e.label) + own(k, e, at(t));
            value.take(v, e.label, never);
          }
          my.value[here] = value;
          any.take(value, 0);
        }
        end = std::min(end, any.best);
        for (std::size_t g = 0; g < groups; ++g) {
          const std::size_t here = (b * groups + g) * slots + at(t);
          my.value[here].take(any, model_.group_break);
          my.least[here] = my.value[here];
          if (t > 0) my.least[here].take(my.least[here - 1], 0);
        }
      }
    start = end;
  }
  end_ = start;
  return sum_ + end_;
}

void Route::meets(std::vector<int>& times, int& lean) const {
  times.assign(prices_.label.size(), 0);
  lean = 0;
  const std::size_t groups = at(model_.groups);
  double rest = end_;
  for (std::size_t k = lines_.size(); k-- > 0;) {
    const RouteModel::Line& line = model_.lines[k];
    const Line& my = lines_[k];
    const std::size_t slots = at(line.slots), shapes = at(line.shapes);
    if (my.start <= rest) continue;  // an empty line
    // The cheapest label at a place that is not `not_this`.
    const auto pick = [&](std::size_t here, std::size_t slot, int not_this, double& least) {
      int who = -1;
      for (std::uint32_t i = my.first[here]; i < my.first[here + 1]; ++i) {
        const RouteModel::Entry& e = line.entries[my.entry[i]];
        if (e.label == not_this) continue;
        const double v = my.before[here].without(e.label) + own(k, e, slot);
        if (v < least) least = v, who = e.label;
      }
      return who;
    };
    std::size_t kind = 0;
    int slot = -1, label = -1;
    double best = never;
    for (std::size_t b = 0; b < kinds(k); ++b)
      for (std::size_t s = 0; s < slots; ++s)
        if (const int who = pick(b * slots + s, s, -1, best); who >= 0)
          kind = b, slot = static_cast<int>(s), label = who;
    while (slot >= 0) {
      ++times[at(label)];
      lean -= line.lean;
      double least = my.start;
      std::size_t next_kind = 0;
      int next = -1, next_label = -1;
      for (std::size_t a = 0; a < kinds(k); ++a) {
        const RouteModel::Pair& pair = line.pairs[a / groups * shapes + kind / groups];
        const double group = a % groups == kind % groups ? 0 : model_.group_break;
        const int many = static_cast<int>(pair.cost.size());
        for (int s = slot - pair.nearest, d = 0; s >= 0; --s, ++d) {
          const double more = group + pair.cost[at(std::min(d, many - 1))];
          double limit = least - more;
          if (const int who = pick(a * slots + at(s), at(s), label, limit); who >= 0)
            least = limit + more, next = s, next_kind = a, next_label = who;
        }
      }
      slot = next;
      kind = next_kind;
      label = next_label;
    }
    rest = my.start;
  }
}

}  // namespace platewright::place
