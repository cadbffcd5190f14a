// The dynamic program of StrictRoute along one line, slot by slot.
#include <algorithm>

#include "base/at.hpp"
#include "place/strict_offers.hpp"

namespace platewright::place {
namespace {}  // namespace

void StrictRoute::line_bound(std::size_t k, double start) {
  const RouteModel::Line& line = model_.lines[k];
  const std::size_t shapes = at(line.shapes);
  const std::vector<Stretch>& stretches = stretches_[k];
  Tables& tables = tables_[k];
  const Thresholds::Bounds* asks = asks_[k].data();
  Shortcuts& shortcuts = shortcuts_[k];
  const bool open = line.closed.empty();
  const std::size_t groups = at(model_.groups);
  shortcuts.any.assign((at(line.slots) + 1) * groups, {});
  shortcuts.retired.assign(open ? 0 : at(line.slots), {});
  int far = 0;  // slots behind its last place at which a label retires
  for (const RouteModel::Pair& pair : line.pairs)
    far = std::max(far, pair.nearest + static_cast<int>(pair.cost.size()));
  far += far / 2;
  start_[k] = start;
  Offers offers(*this, k);
  std::vector<double> shortcut(groups);
  std::vector<std::size_t> standing, passed;  // can stand here; stood before
  std::size_t next = 0;
  From retired;
  for (int t = 0; t < line.slots; ++t) {
    for (; next < stretches.size() && stretches[next].span.first <= t; ++next) {
      offers.add(next);
      standing.push_back(next);
    }
    std::size_t kept = 0;
    for (const std::size_t e : standing)
      if (t <= stretches[e].span.last)
        standing[kept++] = e;
      else if (!open)
        passed.push_back(e);
    standing.resize(kept);
    kept = 0;
    for (const std::size_t e : passed) {
      const Stretch& from = stretches[e];
      if (t <= from.span.last + far) {
        passed[kept++] = e;
        continue;
      }
      offers.retire(e);
      double gap = never;
      for (std::size_t b = 0; b < shapes; ++b)
        gap = std::min(gap, line.pairs[at(from.shape) * shapes + b].cost.back());
      const double v = tables.least[where(from.span, from.span.last)].best + gap;
      if (v < retired.value) {
        retired = {v, at(from.entry), from.span.last};
        while (tables.value[where(from.span, retired.slot)] + gap > v) --retired.slot;
      }
    }
    passed.resize(kept);
    if (!open) shortcuts.retired[at(t)] = retired;
    offers.arrive(t);
    // Past a place that was left out groups break as often as without it, or more.
    From* any = &shortcuts.any[at(t) * groups];
    double all = never;
    for (std::size_t g = 0; g < groups; ++g) all = std::min(all, any[g].value);
    for (std::size_t g = 0; g < groups; ++g) {
      shortcut[g] = std::min(any[g].value, all + model_.group_break) + shortcuts.price;
      shortcut[g] = std::min({start, shortcut[g], retired.value});
      any[groups + g] = any[g];
    }
    for (const std::size_t f : standing) {
      const Stretch& to = stretches[f];
      const std::size_t here = where(to.span, t);
      Two two;
      double mine = never;
      if (tables.cost[here] < never) {
        const std::size_t shape = at(to.shape);
        two.take(shortcut[at(to.group)], -2, shortcut[at(to.group)]);
        offers.each(
            shape, at(to.group), two.other, model_.group_break, [&](std::size_t e, double more) {
              const Thresholds::Bounds ask = asks[e * stretches.size() + f];
              if (t < ask.from) return;
              const Stretch& from = stretches[e];
              if (ask.until >= t - line.pairs[at(from.shape) * shapes + shape].nearest) {
                two.take(offers.without(e, shape, to.label) + more, from.label, never);
                return;
              }
              // Its ports may lie no later than `until`.
              if (!(tables.least[where(from.span, ask.until)].without(to.label) + more < two.other))
                return;
              two.take(offers.until(e, shape, to.label, ask.until) + more, from.label, never);
            });
        mine = own(k, line.entries[at(to.entry)], tables.cost[here]);
      }
      tables.before[here] = two;
      tables.value[here] = two.best + mine;
      Two& least = tables.least[here];
      least = {two.best + mine, two.label, two.other + mine};
      if (t > to.span.first) least.take(tables.least[here - 1], 0);
      From& mine_so_far = any[groups + at(to.group)];
      if (tables.value[here] < mine_so_far.value)
        mine_so_far = {tables.value[here], at(to.entry), t};
    }
  }
  end_ = std::min(start, last_of(k).value);
}

}  // namespace platewright::place
