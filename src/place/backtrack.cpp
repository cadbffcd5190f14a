#include "place/backtrack.hpp"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>

#include "base/at.hpp"

namespace platewright::place {
namespace {

struct Place {
  double cost = 0;
  Seat seat;
  Placed spot;
};

constexpr std::size_t bits = 64;
using Bits = std::vector<std::uint64_t>;  // of all labels' places, each label's from a new word

enum class Outcome { found, none, restart, out_of_checks };

struct Search {
  const Rulebook& rules;
  long checks;
  std::vector<std::vector<Place>> places = {};  // by label, cheapest first
  std::vector<std::size_t> from = {};           // by label: its first word; the last one's end
  std::vector<std::vector<Bits>> kept = {};     // [label][place]: what that place leaves
  std::vector<std::vector<std::vector<char>>> known = {};  // [label][place][other]
  std::vector<double> weight = {};  // [label * n + other]: how often one emptied the other
  std::vector<char> chosen = {};
  Draft draft = {};
  long steps = 0, fails = 0;

  std::size_t count(const Bits& left, std::size_t label) const {
    std::size_t sum = 0;
    for (std::size_t w = from[label]; w < from[label + 1]; ++w) sum += at(std::popcount(left[w]));
    return sum;
  }

  // Of another label's places those that this one leaves it.
  const Bits& leaves(std::size_t label, std::size_t place, std::size_t other) {
    Bits& row = kept[label][place];
    if (row.empty()) row.assign(from.back(), 0), known[label][place].assign(rules.n, 0);
    if (!known[label][place][other]) {
      known[label][place][other] = 1;
      checks -= static_cast<long>(places[other].size());
      for (std::size_t k = 0; k < places[other].size(); ++k)
        if (compatible(rules, places[label][place].spot, places[other][k].spot))
          row[from[other] + k / bits] |= std::uint64_t{1} << k % bits;
    }
    return row;
  }

  // False when a label has no place left.
  bool strike(Bits& left, std::size_t label, std::size_t place) {
    for (std::size_t other = 0; other < rules.n; ++other) {
      if (chosen[other]) continue;
      const Bits& row = leaves(label, place, other);
      bool some = false;
      for (std::size_t w = from[other]; w < from[other + 1]; ++w)
        some = (left[w] &= row[w]) != 0 || some;
      if (some) continue;
      weight[label * rules.n + other] += 1;
      weight[other * rules.n + label] += 1;
      return false;
    }
    return true;
  }

  std::size_t next(const Bits& left) const {
    std::size_t best = rules.n;
    double least = never;
    for (std::size_t i = 0; i < rules.n; ++i) {
      if (chosen[i]) continue;
      double trouble = 0;
      for (std::size_t j = 0; j < rules.n; ++j)
        if (!chosen[j]) trouble += weight[i * rules.n + j];
      const double score = static_cast<double>(count(left, i)) / trouble;
      if (score < least) least = score, best = i;
    }
    return best;
  }

  Outcome go(const Bits& left, long& patience) {
    const std::size_t label = next(left);
    if (label == rules.n) return Outcome::found;
    chosen[label] = 1;
    Bits after;
    for (std::size_t k = 0; k < places[label].size(); ++k) {
      if ((left[from[label] + k / bits] >> k % bits & 1) == 0) continue;
      if (checks <= 0 || --steps < 0) return Outcome::out_of_checks;
      after = left;
      if (strike(after, label, k)) {
        draft[label] = places[label][k].seat;
        const Outcome outcome = go(after, patience);
        if (outcome != Outcome::none) return outcome;
      } else if (--patience < 0) {
        return Outcome::restart;
      }
    }
    chosen[label] = 0;
    return Outcome::none;
  }
};

}  // namespace

Backtracked backtrack(const std::vector<Station>& stations, long checks) {
  if (stations.empty()) return {};
  const Rulebook& rules = *stations.front().rules;
  Search search{rules, checks};
  search.places.resize(rules.n);
  Bits all;
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
    if (places.empty()) return {false, true, {}};
    std::stable_sort(places.begin(), places.end(),
                     [](const Place& a, const Place& b) { return a.cost < b.cost; });
    search.from.push_back(all.size());
    for (std::size_t k = 0; k < places.size(); k += bits)
      all.push_back(places.size() - k < bits ? (std::uint64_t{1} << (places.size() - k)) - 1
                                             : ~std::uint64_t{0});
    search.kept.emplace_back(places.size());
    search.known.emplace_back(places.size());
  }
  search.from.push_back(all.size());
  search.weight.assign(rules.n * rules.n, 1);
  search.draft.resize(rules.n);
  search.steps = checks / 10;  // each goes over some words for each label
  Outcome outcome = Outcome::restart;
  for (long patience = 30; outcome == Outcome::restart; patience += patience / 2) {
    search.chosen.assign(rules.n, 0);
    long left = patience;
    outcome = search.go(all, left);
  }
  return {outcome == Outcome::found, outcome == Outcome::found || outcome == Outcome::none,
          outcome == Outcome::found ? search.draft : Draft{}};
}

}  // namespace platewright::place
