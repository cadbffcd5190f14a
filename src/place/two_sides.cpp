#include "place/two_sides.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>
#include <utility>

#include "place/assignment.hpp"
#include "place/backtrack.hpp"
#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/each_side.hpp"
#include "place/first_draft.hpp"
#include "place/many.hpp"
#include "place/one_side.hpp"
#include "place/prove.hpp"
#include "place/windows.hpp"
#include "place/witness.hpp"

namespace platewright::place {
namespace {

constexpr std::size_t few = 12;  // labels; so many are one window
constexpr long briefly_exact = 20'000;        // places that the exact search of a side looks at
constexpr long soon_untangled = 300'000;      // patience; some 30 ms
constexpr long worth_windows = 100'000;       // of effort; a glance has less
constexpr double worth_a_sweep = 0.01;        // of the cost, not proven
constexpr std::size_t window = 10;            // labels
constexpr long window_nodes = 1'000;
constexpr std::size_t most_backtracked = 40;  // a dive through more rarely ends

// The draft that a placement on the stations' slots is.
Draft draft_of(const std::vector<Station>& stations, const std::vector<Placement>& placements) {
  Draft draft(placements.size());
  for (std::size_t i = 0; i < placements.size(); ++i) {
    const Placement& p = placements[i];
    for (std::size_t k = 0; k < stations.size(); ++k) {
      const Station& s = stations[k];
      if (s.side != p.side || s.index != p.column) continue;
      const double along = s.row() ? p.port.x : p.port.y;
      draft[i] = {static_cast<int>(k),
                  {static_cast<int>(i), p.variant, p.target,
                   static_cast<int>(std::lround((along - s.from) / s.step))}};
    }
  }
  return draft;
}

// A label that would cost far less on another column or row may find all places there taken by
// leaders that would have to move as well: the whole draft is made anew with it there.
// False when effort ended before moves did.
bool change_over(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
                 long effort) {
  bool settled = true;
  constexpr double worth_it = 0.02;  // of the whole cost
  constexpr std::size_t most = 6;    // tries in a row that change nothing
  struct Change {
    double gain;
    int label, station;
  };
  std::vector<Change> tried;
  std::vector<Station> held;
  for (std::size_t failed = 0; failed < most;) {
    std::optional<Change> next;
    for (std::size_t i = 0; i < draft.size(); ++i) {
      const double now =
          choice_cost(stations[static_cast<std::size_t>(draft[i].station)], draft[i].choice);
      for (std::size_t k = 0; k < stations.size(); ++k) {
        const Change c{now - stations[k].labels[i].least_total, static_cast<int>(i),
                       static_cast<int>(k)};
        const bool known = std::any_of(tried.begin(), tried.end(), [&](const Change& t) {
          return t.label == c.label && t.station == c.station;
        });
        if (draft[i].station != c.station && !known && c.gain > worth_it * cost &&
            (!next || c.gain > next->gain))
          next = c;
      }
    }
    if (!next) return settled;
    tried.push_back(*next);
    std::vector<int> lines;
    for (const Seat& seat : draft) lines.push_back(seat.station);
    lines[static_cast<std::size_t>(next->label)] = next->station;
    // It stays there while the others make room.
    if (held.empty()) held = stations;
    for (std::size_t k = 0; k < held.size(); ++k) {
      StationLabel& offered = held[k].labels[static_cast<std::size_t>(next->label)];
      if (static_cast<int>(k) == next->station) continue;
      offered = {};
      offered.least.assign(static_cast<std::size_t>(held[k].slots), never);
      offered.least_extent = never;
    }
    Draft other = draft_from(held, fair, lines, 8);
    improve(held, fair, other, effort);
    const bool stands = draft_cost(held, fair, other) < broken || untangle(held, other, effort);
    for (std::size_t k = 0; k < held.size(); ++k)
      held[k].labels[static_cast<std::size_t>(next->label)] =
          stations[k].labels[static_cast<std::size_t>(next->label)];
    if (!stands) {
      ++failed;
      continue;
    }
    const bool ended = improve(stations, fair, other, effort);
    const double now = draft_cost(stations, fair, other);
    settled = settled && ended;
    if (now < (1 - worth_it) * cost)
      draft = std::move(other), cost = now, failed = 0;
    else
      ++failed;
  }
  return settled;
}

constexpr int most_widened = 3;  // labels that are offered all their targets

// Stations with places for every label, if need be at another target than its best: those of a
// label that has none are all put on offer, the others first. The last ones tried, else.
std::vector<Station> homes(const Rulebook& rules, double step, Offer& offer) {
  const Problem& problem = *rules.problem;
  // Most sizes that are tried have a label that can be nowhere.
  std::vector<Station> stations = make_stations(rules, step, offer, {}, true);
  for (int widened = 0; widened < most_widened; ++widened) {
    const int label = homeless(stations);
    if (label < 0) break;
    const std::size_t targets = problem.labels[static_cast<std::size_t>(label)].targets.size();
    std::vector<int>& offered = offer[static_cast<std::size_t>(label)];
    if (offered.size() == targets) break;
    const int best = offered.front();
    offered.clear();
    for (int t = 0; t < static_cast<int>(targets); ++t)
      if (t != best) offered.push_back(t);
    offered.push_back(best);
    stations = make_stations(rules, step, offer, {}, true);
  }
  return stations;
}

}  // namespace

GridAnswer quick_grid(const Rulebook& rules, double step, long patience) {
  const Problem& problem = *rules.problem;
  GridAnswer answer;
  if (overfull(problem, step, answer.witness)) return answer;
  Offer offer = best_targets(problem);
  const std::vector<Station> stations = homes(rules, step, offer);
  bool certain = false;
  if (std::string why = witness(stations, certain); certain) {
    answer.witness = std::move(why);
    return answer;
  }
  const double fair = fair_gap(problem);
  Draft draft;
  double cost = never;
  const std::vector<Assignment> all = splits(stations, offer);
  if (all.front().guess >= broken ||
      !first_draft(stations, offer, fair, all, 1, 60'000,
                   2 + 0.15 * static_cast<double>(problem.labels.size()), patience, draft, cost)) {
    answer.witness = witness(stations, answer.certain);
    answer.certain = false;  // on this coarse grid, with these targets
    return answer;
  }
  answer.found = true;
  answer.placements = placements_of(stations, draft);
  answer.cost = cost;
  return answer;
}

GridAnswer solve_grid(const Rulebook& rules, double step, const Effort& effort, const Start& start,
                      const Reckoned* known) {
  const Problem& problem = *rules.problem;
  GridAnswer answer;
  answer.step = step;
  if (known != nullptr && known->step != step) known = nullptr;
  const auto reckoned = std::make_shared<Reckoned>();
  answer.reckoned = reckoned;
  reckoned->step = step;
  const std::size_t n = problem.labels.size();
  const double fair = fair_gap(problem);
  long nodes = effort.nodes;
  // Moves that improve a draft: in earnest, or for a glance.
  const long moves = std::clamp(2 * nodes, 100'000L, 400'000L);

  // First with one target for each label, then with all of them.
  Draft best;
  double best_cost = never;
  bool have = false;
  {
    const Offer offer = best_targets(problem);
    if (known != nullptr) {
      reckoned->first = known->first;
      for (Station& s : reckoned->first) s.rules = &rules;
    } else {
      reckoned->first = make_stations(rules, step, offer);
    }
    const std::vector<Station>& stations = reckoned->first;
    const std::vector<Assignment> all = splits(stations, offer);
    if (!start.placements.empty() && !start.spare) {
      best = draft_of(stations, start.placements);
      // One that was found on this grid may use targets that are not on offer yet.
      best_cost = start.step == step ? platewright::place::cost(problem, start.placements).total()
                                     : draft_cost(stations, fair, best);
      have = best_cost < broken;
    }
    answer.settled = have && start.settled && start.step == step;
    if (!have || (n <= 30 && !answer.settled)) {
      Draft draft;
      double cost = never;
      if (first_draft(
              stations, offer, fair, all, 3, moves, never,
              have      ? 0
              : n <= 64 ? std::min(300'000L, patience_for(n, 10'000'000))  // a proof finds one too
                        : patience_for(n, 10'000'000),
              draft, cost) &&
          cost < best_cost)
        best = draft, best_cost = cost, have = true;
      else if (!have && !draft.empty())
        best = draft;  // one that nearly is a placement
    }
    if (!have && start.spare && !start.placements.empty()) {
      Draft draft = draft_of(stations, start.placements);
      improve(stations, fair, draft, moves);
      if (const double cost = draft_cost(stations, fair, draft); cost < broken)
        best = std::move(draft), best_cost = cost, have = true;
    }
  }

  const Offer offer = all_targets(problem);
  std::vector<double> most;
  if (have) {
    most = least_costs(problem);
    const double sum = std::accumulate(most.begin(), most.end(), 0.0);
    for (double& m : most) m += best_cost - sum + 1e-6;
  }
  const bool all_known =
      known != nullptr && (known->cost == never || (have && best_cost <= known->cost));
  reckoned->cost = have ? best_cost : never;
  reckoned->all = all_known ? make_stations(rules, step, offer, most, false, {known->all, true})
                            : make_stations(rules, step, offer, most, false,
                                            {reckoned->first, offer == best_targets(problem)});
  const std::vector<Station>& stations = reckoned->all;
  const std::vector<Assignment> all = splits(stations, best_targets(problem));
  const auto keep_nearly = [&] {
    if (!best.empty() &&
        std::none_of(best.begin(), best.end(), [](const Seat& seat) { return seat.station < 0; }))
      answer.placements = placements_of(stations, best);
  };
  const auto untangled = [&] {
    return first_draft(stations, offer, fair, all, 3, moves, never, patience_for(n, 4'000'000),
                       best, best_cost);
  };
  if (!have && n > 64) have = untangled();
  // Where no proof follows that would find one, the quicker search comes first; of few labels the
  // one that also knows where there is none.
  const auto soon_found = [&] {
    return effort.for_proof() <= 0 && first_draft(stations, offer, fair, all, 3, moves, never,
                                                  soon_untangled, best, best_cost);
  };
  if (!have && n > few && n <= most_backtracked) have = soon_found();
  if (!have && n <= most_backtracked) {
    Backtracked any = backtrack(stations, 20 * nodes);
    if (any.found) {
      best = std::move(any.draft);
      have = true;
    } else if (any.complete) {
      answer.witness = witness(stations, answer.certain);
      answer.certain = true;
      keep_nearly();
      return answer;
    }
  }
  if (!have && n <= few) have = soon_found();
  if (have && !answer.settled) {
    answer.settled = improve(stations, fair, best, moves);
    best_cost = draft_cost(stations, fair, best);
    if (best_cost < broken && n <= most_backtracked)
      answer.settled = change_over(stations, fair, best, best_cost, moves) && answer.settled;
  }
  // Where no proof follows, windows see farther than moves do, and an exact search of one side
  // hardly ever finds anything.
  bool swept = have && best_cost < broken && n > few && n <= 64 && stations.size() > 1 &&
               effort.for_proof() <= 0 && nodes >= worth_windows;
  const auto sweep = [&](const RoutePrices& prices) {
    long work = nodes * 3 / 4;  // some 40 ms
    sweep_windows(stations, fair, best, best_cost, prices, {window}, window_nodes, work, 1e-3);
  };
  if (swept) sweep({});
  Proof proof;
  if (n > 0 && effort.for_proof() > 0)
    proof = n <= 64 ? prove(stations, fair, have ? best_cost : never, effort.for_proof(), {},
                            effort.stop)
            : have  ? improve_many(stations, fair, best, best_cost, effort.for_proof())
                    : Proof{};
  const auto take_better = [&] {
    if (!proof.better) return;
    best = proof.draft;
    best_cost = draft_cost(stations, fair, best);
    have = true;
  };
  if (effort.stop.stop_requested()) return answer;
  take_better();
  if (have && n > few && n <= 64 && !proof.complete && effort.for_proof() > 0) {
    // Windows do not stop where the proof of all did; and what they find makes it easier.
    if (!effort.brief_proof()) {
      long work = effort.for_proof() * 40;
      if (sweep_windows(stations, fair, best, best_cost, proof.prices, {10, 18, 28},
                        effort.for_proof() / 10, work)) {
        const double bound = proof.bound;
        proof = prove(stations, fair, best_cost, effort.for_proof() / 2, proof.prices);
        proof.bound = std::max(proof.bound, std::min(bound, best_cost));
        take_better();
      }
    } else if (stations.size() > 1) {
      if (best_cost - proof.bound > worth_a_sweep * best_cost) sweep(proof.prices);
      swept = true;
    }
  }
  answer.prices = proof.prices;
  if (!have && n <= 64 && !proof.complete) have = untangled();
  bool proven = n <= 64 && !swept;
  bool covered = false;  // every assignment was looked at
  double every = never;  // then: what each costs at least
  if (n <= 64 && !proof.complete && !swept) {
    const long looked_at = effort.for_proof() > 0 ? nodes : std::min(nodes, briefly_exact);
    std::vector<OneSide> sides;
    for (const Station& s : stations) sides.emplace_back(s, fair, looked_at);
    for (const Assignment& a : all) {
      if (a.least >= best_cost) continue;
      Draft draft;
      double cost = never;
      bool sure = false;
      if (exact(sides, stations, a, std::min(best_cost, broken), draft, cost, sure))
        best = draft, best_cost = cost, have = true;
      proven = proven && sure && (cost == never || cost >= best_cost);
    }
    if (have && n <= most_assigned_all_ways && stations.size() == 2 && problem.rows.empty())
      covered = all_assignments(sides, stations, best, best_cost, every);
    if (have && !covered && stations.size() > 1) {
      improve(stations, fair, best, moves);
      best_cost = draft_cost(stations, fair, best);
    }
  }
  if (!have || best_cost >= broken) {
    answer.witness = witness(stations, answer.certain);
    answer.certain = answer.certain || proof.complete || (proven && stations.size() == 1);
    keep_nearly();
    return answer;
  }
  answer.found = true;
  answer.placements = placements_of(stations, best);
  answer.cost = cost(problem, answer.placements).total();
  answer.bound = stations.size() == 1 && proven ? answer.cost
                 : covered                      ? std::min(answer.cost, every)
                                                : std::min(answer.cost, whole_bound(stations));
  answer.bound = std::max(answer.bound, std::min(answer.cost, proof.bound));
  return answer;
}

}  // namespace platewright::place
