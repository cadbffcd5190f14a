#include "place/two_sides.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/one_side.hpp"
#include "place/spoken.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// For each label the one target that some station reaches most cheaply.
Offer best_targets(const Problem& problem) {
  Offer offer(problem.labels.size());
  for (std::size_t i = 0; i < offer.size(); ++i) {
    const Label& label = problem.labels[i];
    double best = never;
    int chosen = 0;
    for (std::size_t t = 0; t < label.targets.size(); ++t) {
      double reach = never;
      for (const Column& c : problem.columns) {
        double sum = 0;
        for (const PagePoint& p : label.targets[t].points) sum += std::abs(p.x - c.edge);
        reach = std::min(reach, sum);
      }
      for (const Row& r : problem.rows) {
        double sum = 0;
        for (const PagePoint& p : label.targets[t].points) sum += std::abs(p.y - r.edge);
        reach = std::min(reach, sum);
      }
      const double unit = problem.weights.unit > 0 ? problem.weights.unit : 1.0;
      const double cost = label.targets[t].penalty + problem.weights.length * reach / unit;
      if (cost < best) best = cost, chosen = static_cast<int>(t);
    }
    offer[i] = {chosen};
  }
  return offer;
}

double middle(const Target& target) {
  double sum = 0;
  for (const PagePoint& p : target.points) sum += p.x;
  return sum / static_cast<double>(target.points.size());
}

// Labels by x of their first offered target, ties by anchor.
std::vector<int> by_x(const Problem& problem, const Offer& offer) {
  std::vector<int> order(problem.labels.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    const double x = middle(problem.labels[at(a)].targets[at(offer[at(a)].front())]);
    const double y = middle(problem.labels[at(b)].targets[at(offer[at(b)].front())]);
    return x != y ? x < y : problem.labels[at(a)].anchor < problem.labels[at(b)].anchor;
  });
  return order;
}

struct Load {
  double cost = 0;
  double extent = 0;
};

// How much room a label takes and what it costs at least on a station.
Load load(const Station& s, int label) {
  const StationLabel& l = s.labels[at(label)];
  const double gap = s.rules->problem->rules.label_gap;
  return {l.least_total, l.least_extent + gap};
}

// An assignment of labels to stations with what it costs at least.
struct Assignment {
  std::vector<int> station_of;
  double least = never;   // sum of cheapest places: a bound where nothing is overfull
  double guess = never;   // with the crowding of each station
  int cut = -1;
};

// What the labels of one station cost when they are stacked in the order of
// their targets, as near to them as the heights allow (pool adjacent violators).
double stacked_guess(const Station& s, const Offer& offer, const std::vector<int>& members) {
  const Problem& problem = *s.rules->problem;
  struct Item {
    double want, extent, shift;
    int label;
  };
  std::vector<Item> items;
  for (const int i : members) {
    const StationLabel& l = s.labels[at(i)];
    if (l.variants.empty()) return broken;
    double along = 0;
    const auto& points = problem.labels[at(i)].targets[at(offer[at(i)].front())].points;
    for (const PagePoint& p : points) along += s.row() ? p.x : p.y;
    along /= static_cast<double>(points.size());
    items.push_back({along - l.least_extent / 2, l.least_extent + problem.rules.label_gap, 0, i});
  }
  std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) {
    const double x = a.want + a.extent / 2, y = b.want + b.extent / 2;
    return x != y ? x < y : a.label < b.label;
  });
  struct Block {
    double sum, count;
  };
  std::vector<Block> blocks;
  double before = 0;
  for (Item& item : items) {
    item.shift = before;
    blocks.push_back({item.want - before, 1});
    before += item.extent;
    while (blocks.size() > 1) {
      Block& last = blocks[blocks.size() - 1];
      Block& prior = blocks[blocks.size() - 2];
      if (prior.sum * last.count <= last.sum * prior.count) break;
      prior.sum += last.sum;
      prior.count += last.count;
      blocks.pop_back();
    }
  }
  const double room = s.to - s.from - (before - problem.rules.label_gap);
  if (room < -1e-9) return broken * (1 - room);
  double cost = 0;
  std::size_t k = 0;
  for (const Block& block : blocks)
    for (int c = 0; c < static_cast<int>(block.count); ++c, ++k) {
      const double start = std::clamp(block.sum / block.count, s.from, s.from + room) + items[k].shift;
      const double port = start + s.labels[at(items[k].label)].least_extent / 2;
      const int target = offer[at(items[k].label)].front();
      cost += label_cost(problem, problem.labels[at(items[k].label)], s.side, 0, target,
                         s.row() ? PagePoint{port, s.line} : PagePoint{s.line, port}, false)
                  .total();
    }
  return cost;
}

// Gives each label of one side to that side's columns and to the rows: a column
// that is full hands on the labels that lose least elsewhere.
Assignment filled(const std::vector<Station>& stations, const Offer& offer, std::vector<int> station_of) {
  const Problem& problem = *stations.front().rules->problem;
  Assignment a;
  std::vector<double> room(stations.size());
  for (std::size_t k = 0; k < stations.size(); ++k)
    room[k] = stations[k].to - stations[k].from + problem.rules.label_gap;
  for (std::size_t i = 0; i < station_of.size(); ++i)
    room[at(station_of[i])] -= load(stations[at(station_of[i])], static_cast<int>(i)).extent;
  for (;;) {
    double least = never;
    int who = -1, where = -1;
    for (std::size_t i = 0; i < station_of.size(); ++i) {
      const int k = station_of[i];
      const Load here = load(stations[at(k)], static_cast<int>(i));
      if (room[at(k)] >= -1e-9 && here.cost < never) continue;
      for (std::size_t other = 0; other < stations.size(); ++other) {
        if (static_cast<int>(other) == k) continue;
        const Load there = load(stations[other], static_cast<int>(i));
        if (there.cost == never || room[other] < there.extent) continue;
        const double more = here.cost == never ? -1e9 + there.cost : there.cost - here.cost;
        if (more < least) least = more, who = static_cast<int>(i), where = static_cast<int>(other);
      }
    }
    if (who < 0) break;
    room[at(station_of[at(who)])] += load(stations[at(station_of[at(who)])], who).extent;
    room[at(where)] -= load(stations[at(where)], who).extent;
    station_of[at(who)] = where;
  }
  a.least = 0;
  int left = 0, right = 0;
  for (std::size_t k = 0; k < stations.size(); ++k)
    if (room[k] < -1e-9) a.least += broken;
  for (std::size_t i = 0; i < station_of.size(); ++i) {
    const Station& s = stations[at(station_of[i])];
    const double cost = load(s, static_cast<int>(i)).cost;
    a.least += cost == never ? broken : cost;
    left += s.side == Side::left;
    right += s.side == Side::right;
  }
  const double balance = balance_cost(problem.weights, left, right);
  a.least += balance;
  a.guess = balance;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    std::vector<int> members;
    for (std::size_t i = 0; i < station_of.size(); ++i)
      if (station_of[i] == static_cast<int>(k)) members.push_back(static_cast<int>(i));
    a.guess += stacked_guess(stations[k], offer, members);
  }
  a.station_of = std::move(station_of);
  return a;
}

int first_station(const std::vector<Station>& stations, Side side) {
  for (std::size_t k = 0; k < stations.size(); ++k)
    if (stations[k].side == side) return static_cast<int>(k);
  return -1;
}

// Every split by a vertical line, most promising first; each assignment once.
std::vector<Assignment> splits(const std::vector<Station>& stations, const Offer& offer) {
  const Problem& problem = *stations.front().rules->problem;
  const int n = static_cast<int>(problem.labels.size());
  const int left = first_station(stations, Side::left), right = first_station(stations, Side::right);
  std::vector<Assignment> all;
  if (left < 0 || right < 0) {
    const int only = left >= 0 ? left : right >= 0 ? right : 0;
    all.push_back(filled(stations, offer, std::vector<int>(at(n), only)));
    all.back().cut = 0;
    return all;
  }
  const std::vector<int> order = by_x(problem, offer);
  for (int cut = 0; cut <= n; ++cut) {
    std::vector<int> station_of(at(n), right);
    for (int k = 0; k < cut; ++k) station_of[at(order[at(k)])] = left;
    all.push_back(filled(stations, offer, std::move(station_of)));
    all.back().cut = cut;
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Assignment& a, const Assignment& b) { return a.guess < b.guess; });
  std::vector<Assignment> once;
  for (Assignment& a : all)
    if (std::none_of(once.begin(), once.end(),
                     [&](const Assignment& b) { return a.station_of == b.station_of; }))
      once.push_back(std::move(a));
  return once;
}

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
  return std::to_string(problem.labels.size()) + " labels (" + tenths(need) + " mm of " + tenths(room) +
         " mm column height) have no placement whose leaders keep apart";
}

// Exact placement of one assignment on stations that hold at most 64 labels.
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
  if (draft_faults(stations, trial) > 0) {
    proven = false;
    return false;
  }
  draft = trial;
  cost = sum;
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

double whole_bound(const std::vector<Station>& stations) {
  double sum = 0;
  for (std::size_t i = 0; i < stations.front().labels.size(); ++i) {
    double least = never;
    for (const Station& s : stations) least = std::min(least, s.labels[i].least_total);
    sum += least;
  }
  return sum;
}

// Best draft by chains and moves over the most promising splits.
bool first_draft(const std::vector<Station>& stations, double fair, const std::vector<Assignment>& all,
                 std::size_t tries, long effort, double hopeless, int repairs,
                 Draft& best, double& best_cost) {
  best_cost = never;
  for (std::size_t k = 0; k < std::min(tries, all.size()); ++k) {
    Draft draft = draft_from(stations, fair, all[k].station_of, 8);
    if (draft_faults(stations, draft) > hopeless) continue;
    improve(stations, fair, draft, effort);
    double cost = draft_cost(stations, fair, draft);
    if (cost >= broken) {
      if (k == 0 || best_cost >= broken) repair(stations, fair, draft, k == 0 ? repairs : repairs / 3);
      improve(stations, fair, draft, effort);
      cost = draft_cost(stations, fair, draft);
    }
    if (cost < best_cost) best_cost = cost, best = draft;
  }
  return best_cost < broken;
}

}  // namespace

namespace {

// The labels' least extents, rounded up to slots, against what columns and rows hold.
bool overfull(const Problem& problem, double step) {
  const double gap = problem.rules.label_gap;
  double need = 0, room = 0, mean = 0;
  for (const Label& l : problem.labels) {
    double least = never, width = never;
    for (const Variant& v : l.variants) least = std::min(least, v.height), width = std::min(width, v.width);
    need += least + gap + step / 8;  // a slot is lost now and then
    mean += width + gap;
  }
  mean /= static_cast<double>(problem.labels.size());
  const double height = need / static_cast<double>(problem.labels.size());
  for (const Column& c : problem.columns) room += c.bottom - c.top + gap;
  for (const Row& r : problem.rows) room += (r.right - r.left + gap) / mean * height;
  return need > room + step;
}

}  // namespace

GridAnswer quick_grid(const Rulebook& rules, double step) {
  const Problem& problem = *rules.problem;
  GridAnswer answer;
  if (overfull(problem, step)) {
    answer.witness = "the labels need more room than columns and rows have";
    return answer;
  }
  const Offer offer = best_targets(problem);
  const std::vector<Station> stations = make_stations(rules, step, offer);
  const double fair = fair_gap(problem);
  Draft draft;
  double cost = never;
  const std::vector<Assignment> all = splits(stations, offer);
  if (all.front().guess >= broken || !first_draft(stations, fair, all, 1, 60'000, 2 + 0.12 * static_cast<double>(problem.labels.size()), 120, draft,
                   cost)) {
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
      if (first_draft(stations, fair, all, 3, 400'000, never, have ? 0 : 250, draft, cost) &&
          cost < best_cost)
        best = draft, best_cost = cost, have = true;
    }
    if (n <= 64) {
      std::vector<OneSide> sides;
      for (const Station& s : stations) sides.emplace_back(s, fair, nodes / 4);
      for (const Assignment& a : all) {
        if (a.least >= best_cost) continue;
        Draft draft;
        double cost = never;
        bool proven = false;
        if (exact(sides, stations, a, std::min(best_cost, broken), draft, cost, proven))
          best = draft, best_cost = cost, have = true;
      }
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
  if (!have) have = first_draft(stations, fair, all, 3, 400'000, never, 250, best, best_cost);
  if (have) {
    improve(stations, fair, best, 400'000);
    best_cost = draft_cost(stations, fair, best);
  }
  bool proven = n <= 64;
  if (n <= 64) {
    std::vector<OneSide> sides;
    for (const Station& s : stations) sides.emplace_back(s, fair, nodes);
    for (const Assignment& a : all) {
      if (a.least >= best_cost) continue;
      Draft draft;
      double cost = never;
      bool sure = false;
      if (exact(sides, stations, a, std::min(best_cost, broken), draft, cost, sure))
        best = draft, best_cost = cost, have = true;
      proven = proven && sure;
    }
    if (have && stations.size() > 1) {
      improve(stations, fair, best, 400'000);
      best_cost = draft_cost(stations, fair, best);
    }
  }
  if (!have || best_cost >= broken) {
    answer.witness = witness(stations, answer.certain);
    answer.certain = answer.certain || (proven && stations.size() == 1);
    return answer;
  }
  answer.found = true;
  answer.placements = placements_of(stations, best);
  answer.cost = cost(problem, answer.placements).total();
  answer.bound = stations.size() == 1 && proven ? answer.cost
                                               : std::min(answer.cost, whole_bound(stations));
  return answer;
}

}  // namespace platewright::place
