#include <algorithm>
#include <cstddef>

#include "place/draft.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::vector<Choice> run_of(const std::vector<Station>& stations, const Draft& draft,
                           std::size_t station) {
  std::vector<Choice> run;
  for (const Seat& seat : draft)
    if (seat.station == static_cast<int>(station)) run.push_back(seat.choice);
  const Station& s = stations[station];
  std::sort(run.begin(), run.end(), [&](const Choice& a, const Choice& b) {
    const double x = s.along(a.slot) - s.before(a.label, a.variant);
    const double y = s.along(b.slot) - s.before(b.label, b.variant);
    return x != y ? x < y : a.label < b.label;
  });
  return run;
}

// Labels that take part in a broken rule, those with most first.
std::vector<int> faulty(const std::vector<Station>& stations, const Draft& draft) {
  const Rulebook& rules = *stations.front().rules;
  std::vector<int> count(draft.size(), 0);
  std::vector<Placed> spots(draft.size());
  for (std::size_t i = 0; i < draft.size(); ++i) {
    if (draft[i].station < 0) {
      count[i] += 100;
      continue;
    }
    const Station& s = stations[at(draft[i].station)];
    if (choice_cost(s, draft[i].choice) == never) count[i] += 10;
    spots[i] = placed(*rules.problem, placement_of(s, draft[i].choice), static_cast<int>(i));
    for (std::size_t j = 0; j < i; ++j)
      if (draft[j].station >= 0 && !compatible(rules, spots[i], spots[j])) ++count[i], ++count[j];
  }
  std::vector<int> labels;
  for (std::size_t i = 0; i < draft.size(); ++i)
    if (count[i] > 0) labels.push_back(static_cast<int>(i));
  std::stable_sort(labels.begin(), labels.end(),
                   [&](int a, int b) { return count[at(a)] > count[at(b)]; });
  return labels;
}

void write_run(Draft& draft, int station, const std::vector<Choice>& run) {
  for (const Choice& c : run) draft[at(c.label)] = {station, c};
}

double target_along(const Station& s, const Choice& c) {
  const PagePoint p = s.rules->problem->labels[at(c.label)].targets[at(c.target)].points.front();
  return s.row() ? p.x : p.y;
}

constexpr std::size_t reach = 9;  // ranks looked at to either side

// The best rank for one label; true when the draft got better.
bool reinsert(const std::vector<Station>& stations, double fair, Draft& draft, int label,
              double& cost, int& tries) {
  Draft without = draft;
  const int home = draft[at(label)].station;
  without[at(label)].station = -1;
  if (home >= 0) {
    // What is left closes up.
    std::vector<Choice> closed;
    const std::vector<Choice> run = run_of(stations, without, at(home));
    if (chain(stations[at(home)], fair, run, closed)) write_run(without, home, closed);
  }
  Draft best;
  double best_cost = cost - 1e-7;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    const StationLabel& l = s.labels[at(label)];
    if (l.variants.empty() || l.targets.empty()) continue;
    const std::vector<Choice> run = run_of(stations, without, k);
    Choice me{label, l.variants.front(), l.targets.front(), 0};
    double least = never;
    for (std::size_t t = 0; t < l.targets.size(); ++t)
      for (int slot = 0; slot < s.slots; ++slot)
        if (const double c = l.lines[t * at(s.slots) + at(slot)]; c < least)
          least = c, me.target = l.targets[t];
    for (const int v : l.variants)
      if (s.before(label, v) + s.after(label, v) <
          s.before(label, me.variant) + s.after(label, me.variant))
        me.variant = v;
    // Ranks around the one that its target has among the others' targets.
    std::size_t natural = 0;
    for (const Choice& c : run) natural += target_along(s, c) < target_along(s, me);
    const std::size_t first = natural > reach ? natural - reach : 0;
    for (std::size_t rank = first; rank <= std::min(run.size(), natural + reach); ++rank) {
      if (--tries < 0) return false;
      std::vector<Choice> with = run, shifted;
      with.insert(with.begin() + static_cast<std::ptrdiff_t>(rank), me);
      if (!chain(s, fair, with, shifted)) continue;
      Draft trial = without;
      write_run(trial, static_cast<int>(k), shifted);
      const double now = draft_cost(stations, fair, trial);
      if (now < best_cost) best_cost = now, best = std::move(trial);
    }
  }
  if (best.empty()) return false;
  draft = std::move(best);
  cost = best_cost;
  return true;
}

}  // namespace

void repair(const std::vector<Station>& stations, double fair, Draft& draft, int tries) {
  if (stations.empty()) return;
  double cost = draft_cost(stations, fair, draft);
  while (cost >= broken && tries > 0) {
    bool better = false;
    for (const int label : faulty(stations, draft)) {
      better = reinsert(stations, fair, draft, label, cost, tries);
      if (better || tries <= 0) break;
    }
    if (!better) break;
  }
}

}  // namespace platewright::place
