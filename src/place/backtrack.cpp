#include "place/backtrack.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

#include "base/at.hpp"

namespace platewright::place {
namespace {

struct Place {
  double cost = 0;
  Seat seat;
  Placed spot;
};
using Left = std::vector<std::vector<int>>;  // for each label the places not struck off

struct Search {
  const std::vector<Station>& stations;
  double fair;
  long checks;
  std::vector<std::vector<Place>> places;  // by label, cheapest first
  std::vector<bool> chosen;
  Draft draft;
  Backtracked best;

  bool all_chosen() const { return std::find(chosen.begin(), chosen.end(), false) == chosen.end(); }

  double least(const Left& left) const {
    double sum = 0;
    for (std::size_t i = 0; i < left.size(); ++i)
      if (!chosen[i])
        sum += places[i][at(left[i].front())].cost;
    return sum;
  }

  // False when a label has no place left.
  bool strike(const Left& left, const Place& with, Left& kept) {
    kept.assign(left.size(), {});
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (chosen[i]) continue;
      checks -= static_cast<long>(left[i].size());
      for (const int k : left[i])
        if (compatible(*stations.front().rules, with.spot,
                       places[i][at(k)].spot))
          kept[i].push_back(k);
      if (kept[i].empty()) return false;
    }
    return true;
  }

  void go(const Left& left, double sum) {
    if (all_chosen()) {
      const double cost = draft_cost(stations, fair, draft);
      if (cost < best.cost && cost < broken) {
        best.found = true;
        best.cost = cost;
        best.draft = draft;
      }
      return;
    }
    std::size_t next = left.size();
    for (std::size_t i = 0; i < left.size(); ++i)
      if (!chosen[i] && (next == left.size() || left[i].size() < left[next].size())) next = i;
    chosen[next] = true;
    const double others = least(left);
    for (const int k : left[next]) {
      const Place& place = places[next][at(k)];
      if (!(sum + place.cost + others < best.cost)) break;
      if (checks <= 0) {
        best.complete = false;
        break;
      }
      Left kept;
      if (!strike(left, place, kept)) continue;
      if (!(sum + place.cost + least(kept) < best.cost)) continue;
      draft[next] = place.seat;
      go(kept, sum + place.cost);
    }
    chosen[next] = false;
  }
};

}  // namespace

Backtracked backtrack(const std::vector<Station>& stations, double fair, long checks) {
  if (stations.empty()) return {};
  const Rulebook& rules = *stations.front().rules;
  Search search{stations, fair, checks, std::vector<std::vector<Place>>(rules.n),
                std::vector<bool>(rules.n, false), Draft(rules.n), {}};
  search.best.complete = true;
  Left left(rules.n);
  for (std::size_t i = 0; i < rules.n; ++i) {
    auto& places = search.places[i];
    for (std::size_t k = 0; k < stations.size(); ++k)
      for (const int t : stations[k].labels[i].targets)
        for (const int v : stations[k].labels[i].variants)
          for (int slot = 0; slot < stations[k].slots; ++slot) {
            const Seat seat{static_cast<int>(k), {static_cast<int>(i), v, t, slot}};
            const double cost = choice_cost(stations[k], seat.choice);
            if (cost == never) continue;
            places.push_back({cost, seat,
                              placed(*rules.problem, placement_of(stations[k], seat.choice),
                                     static_cast<int>(i))});
          }
    if (places.empty()) return search.best;
    std::stable_sort(places.begin(), places.end(),
                     [](const Place& a, const Place& b) { return a.cost < b.cost; });
    left[i].resize(places.size());
    std::iota(left[i].begin(), left[i].end(), 0);
  }
  search.go(left, 0);
  return search.best;
}

}  // namespace platewright::place
