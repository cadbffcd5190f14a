#include "place/two_sides.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "place/assignment.hpp"
#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/one_side.hpp"
#include "place/prove.hpp"
#include "place/spoken.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Why nothing was found: heights against room, or a label that no place takes.
std::string witness(const std::vector<Station>& stations, bool& certain) {
  const Problem& problem = *stations.front().rules->problem;
  certain = false;
  double need = 0, room = 0;
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    double extent = never;
    bool some = false;
    for (const Station& s : stations) {
      extent = std::min(extent, s.labels[i].least_extent);
      some = some || s.labels[i].least_total < never;
    }
    if (!some) {
      certain = true;
      return "label \"" + problem.labels[i].anchor +
             (extent == never ? "\" is wider than every column"
                              : "\" has no place from which its leader keeps every distance");
    }
    need += extent + problem.rules.label_gap;
  }
  for (const Station& s : stations) room += s.to - s.from + problem.rules.label_gap;
  if (need > room + 1e-9) {
    certain = true;
    return std::to_string(problem.labels.size()) + " labels need " + tenths(need) +
           " mm of column height; there are " + tenths(room) + " mm";
  }
  return std::to_string(problem.labels.size()) + " labels (" + tenths(need) + " mm of " +
         tenths(room) + " mm column height) have no placement whose leaders keep apart";
}

// Exact placement of one assignment on stations that hold at most 64 labels.
// False when nothing is below `below`, or (with `cost` set) when the leaders of
// two stations meet. `proven`: no search was cut short.
bool exact(std::vector<OneSide>& sides, const std::vector<Station>& stations, const Assignment& a,
           double below, Draft& draft, double& cost, bool& proven) {
  const Problem& problem = *stations.front().rules->problem;
  std::vector<LabelSet> sets(stations.size(), 0);
  int left = 0, right = 0;
  for (std::size_t i = 0; i < a.station_of.size(); ++i) {
    sets[at(a.station_of[i])] |= LabelSet{1} << i;
    left += stations[at(a.station_of[i])].side == Side::left;
    right += stations[at(a.station_of[i])].side == Side::right;
  }
  double sum = balance_cost(problem.weights, left, right);
  std::vector<double> least(stations.size());
  for (std::size_t k = 0; k < stations.size(); ++k) sum += least[k] = sides[k].quick_bound(sets[k]);
  proven = true;
  if (!(sum < below)) return false;
  Draft trial(a.station_of.size());
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const OneSide::Answer answer = sides[k].solve(sets[k], below - (sum - least[k]));
    proven = proven && answer.proven;
    if (!answer.found) return false;
    sum += answer.cost - least[k];
    for (const Choice& c : answer.choices) trial[at(c.label)] = {static_cast<int>(k), c};
  }
  cost = sum;
  if (draft_faults(stations, trial) > 0) return false;
  draft = trial;
  return true;
}

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

// Every assignment of few labels to two columns: each side exact, those left out
// whose cheapest places alone cost too much. What the sides cost without looking
// at each other is a bound for the assignment; where their leaders do not meet it
// is its cost. False when the effort ends before all are covered; else nothing
// costs less than `bound`.
constexpr std::size_t most_assigned_all_ways = 12;

bool all_assignments(std::vector<OneSide>& sides, const std::vector<Station>& stations, Draft& best,
                     double& best_cost, double& bound) {
  const Problem& problem = *stations.front().rules->problem;
  const std::size_t n = problem.labels.size();
  bound = never;
  for (LabelSet left = 0; left < LabelSet{1} << n; ++left) {
    const LabelSet right = ~left & ((LabelSet{1} << n) - 1);
    Assignment a;
    double least = 0;
    for (std::size_t i = 0; i < n; ++i) {
      a.station_of.push_back((left >> i & 1) != 0 ? 0 : 1);
      least += stations[at(a.station_of.back())].labels[i].least_total;
    }
    if (!(least < best_cost) ||
        !(sides[0].quick_bound(left) + sides[1].quick_bound(right) < best_cost))
      continue;
    Draft draft;
    double cost = never;
    bool proven = false;
    if (exact(sides, stations, a, best_cost, draft, cost, proven)) {
      best = draft;
      best_cost = cost;
    } else if (cost < best_cost) {
      bound = std::min(bound, cost);  // the sides' leaders meet
    }
    if (!proven) return false;
  }
  bound = std::min(bound, best_cost);
  return true;
}

double whole_bound(const std::vector<Station>& stations) {
  // Each group beyond one a station breaks a run somewhere.
  const Problem& problem = *stations.front().rules->problem;
  std::vector<std::string> groups;
  for (const Label& l : problem.labels) groups.push_back(l.group);
  std::sort(groups.begin(), groups.end());
  groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
  double sum =
      problem.weights.group_break * (groups.size() > stations.size()
                                         ? static_cast<double>(groups.size() - stations.size())
                                         : 0.0);
  for (std::size_t i = 0; i < stations.front().labels.size(); ++i) {
    double least = never;
    for (const Station& s : stations) least = std::min(least, s.labels[i].least_total);
    sum += least;
  }
  return sum;
}

// Best draft by chains and moves over the most promising splits; where each breaks a
// rule, the shortest leaders all around are one more start, and the start with the
// fewest faults is untangled, unless there are more than `hopeless`.
bool first_draft(const std::vector<Station>& stations, const Offer& offer, double fair,
                 const std::vector<Assignment>& all, std::size_t tries, long effort,
                 double hopeless, long patience, Draft& best, double& best_cost) {
  best_cost = never;
  Draft start;
  int faults = std::numeric_limits<int>::max();
  const auto consider = [&](Draft draft) {
    improve(stations, fair, draft, effort);
    const double cost = draft_cost(stations, fair, draft);
    if (cost < best_cost) best_cost = cost, best = draft;
    if (best_cost < broken) return;
    if (const int now = draft_faults(stations, draft); now < faults)
      faults = now, start = std::move(draft);
  };
  for (std::size_t k = 0; k < std::min(tries, all.size()); ++k)
    consider(draft_from(stations, fair, all[k].station_of, 8));
  if (best_cost < broken) return true;
  if (patience <= 0) return false;
  if (faults > 3 * hopeless) return false;
  if (Draft draft; draft_by_matching(stations, offer, fair, draft)) consider(std::move(draft));
  if (best_cost < broken) return true;
  if (faults > hopeless) return false;
  if (!untangle(stations, start, patience)) {
    best = std::move(start);
    best_cost = draft_cost(stations, fair, best);
    return false;
  }
  improve(stations, fair, start, effort);
  best_cost = draft_cost(stations, fair, start);
  best = std::move(start);
  return best_cost < broken;
}

}  // namespace

namespace {

// The labels' least extents, rounded up to slots, against what columns and rows hold.
bool overfull(const Problem& problem, double step, std::string& witness) {
  const double gap = problem.rules.label_gap;
  double need = 0, room = 0, mean = 0;
  for (const Label& l : problem.labels) {
    double least = never, width = never;
    for (const Variant& v : l.variants)
      least = std::min(least, v.height), width = std::min(width, v.width);
    need += least + gap + step / 8;  // a slot is lost now and then
    mean += width + gap;
  }
  mean /= static_cast<double>(problem.labels.size());
  const double height = need / static_cast<double>(problem.labels.size());
  for (const Column& c : problem.columns) room += c.bottom - c.top + gap;
  for (const Row& r : problem.rows) room += (r.right - r.left + gap) / mean * height;
  if (need <= room + step) return false;
  witness = std::to_string(problem.labels.size()) + " labels need " + tenths(need) +
            " mm of columns and rows; there are " + tenths(room) + " mm";
  return true;
}

}  // namespace

GridAnswer quick_grid(const Rulebook& rules, double step, long patience) {
  const Problem& problem = *rules.problem;
  GridAnswer answer;
  if (overfull(problem, step, answer.witness)) return answer;
  const Offer offer = best_targets(problem);
  const std::vector<Station> stations = make_stations(rules, step, offer);
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

GridAnswer solve_grid(const Rulebook& rules, double step, const Effort& effort,
                      const std::vector<Placement>& start) {
  const Problem& problem = *rules.problem;
  GridAnswer answer;
  const std::size_t n = problem.labels.size();
  const double fair = fair_gap(problem);
  long nodes = effort.nodes;
  // Moves that improve a draft: in earnest, or for a glance.
  const long moves = std::clamp(2 * nodes, 60'000L, 400'000L);

  // First with one target for each label, then with all of them.
  Draft best;
  double best_cost = never;
  bool have = false;
  {
    const Offer offer = best_targets(problem);
    const std::vector<Station> stations = make_stations(rules, step, offer);
    const std::vector<Assignment> all = splits(stations, offer);
    if (!start.empty()) {
      best = draft_of(stations, start);
      best_cost = draft_cost(stations, fair, best);
      have = best_cost < broken;
    }
    if (!have || n <= 30) {
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
  }

  const Offer offer = all_targets(problem);
  std::vector<double> most;
  if (have) {
    most = least_costs(problem);
    const double sum = std::accumulate(most.begin(), most.end(), 0.0);
    for (double& m : most) m += best_cost - sum + 1e-6;
  }
  const std::vector<Station> stations = make_stations(rules, step, offer, most);
  const std::vector<Assignment> all = splits(stations, best_targets(problem));
  const auto untangled = [&] {
    return first_draft(stations, offer, fair, all, 3, moves, never, patience_for(n, 4'000'000),
                       best, best_cost);
  };
  if (!have && n > 64) have = untangled();
  if (have) {
    improve(stations, fair, best, moves);
    best_cost = draft_cost(stations, fair, best);
  }
  Proof proof;
  if (n > 0 && effort.for_proof() > 0)
    proof = prove(stations, fair, have ? best_cost : never, effort.for_proof());
  answer.prices = proof.prices;
  if (proof.better) {
    best = proof.draft;
    best_cost = draft_cost(stations, fair, best);
    have = true;
  }
  if (!have && n <= 64 && !proof.complete) have = untangled();
  bool proven = n <= 64;
  bool covered = false;  // every assignment was looked at
  double every = never;  // then: what each costs at least
  if (n <= 64 && !proof.complete) {
    std::vector<OneSide> sides;
    for (const Station& s : stations) sides.emplace_back(s, fair, nodes);
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
    if (!best.empty() &&
        std::none_of(best.begin(), best.end(), [](const Seat& seat) { return seat.station < 0; }))
      answer.placements = placements_of(stations, best);
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
