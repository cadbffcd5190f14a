#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "base/at.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

// A draft with what a change touches kept ready.
struct Board {
  const std::vector<Station>& stations;
  double fair;
  Draft& draft;
  const Problem& problem;
  std::vector<Placed> spots;
  // Where each label is, once more, for the loops over all of them.
  struct Middle {
    int station = -1;
    double along = 0;  // of its box, along the station
  };
  std::vector<Middle> middles;
  std::size_t last_clash = 0;  // the label that was last in the way: often it is again

  Board(const std::vector<Station>& s, double f, Draft& d)
      : stations(s),
        fair(f),
        draft(d),
        problem(*s.front().rules->problem),
        spots(d.size()),
        middles(d.size()) {
    for (std::size_t i = 0; i < d.size(); ++i)
      if (d[i].station >= 0) put(i, d[i]);
  }
  double middle_of(const Station& s, const PageBox& box) const {
    return (s.start(box) + s.end(box)) / 2;
  }
  void put(std::size_t label, const Seat& seat) {
    draft[label] = seat;
    spots[label] = spot(seat);
    middles[label] = {seat.station, middle_of(stations[at(seat.station)], spots[label].box)};
  }
  Placed spot(const Seat& seat) const {
    return placed(problem, placement_of(stations[at(seat.station)], seat.choice),
                  seat.choice.label);
  }
  double pair_cost(int a, int b, const Station& s) const {
    return gap_cost(problem.weights, s.start(spots[at(b)].box) - s.end(spots[at(a)].box), fair) +
           group_cost(problem.weights, problem.labels[at(a)], problem.labels[at(b)]);
  }
  // Neighbours of a label's box on a station; -1: none.
  void neighbours(int station, const PageBox& box, int label, int& before, int& after) const {
    before = after = -1;
    const double middle = middle_of(stations[at(station)], box);
    double low = -1e300, high = 1e300;
    for (std::size_t i = 0; i < middles.size(); ++i) {
      const int k = static_cast<int>(i);
      if (middles[i].station != station || k == label) continue;
      const double m = middles[i].along;
      if (m <= middle && m > low) low = m, before = k;
      if (m > middle && m < high) high = m, after = k;
    }
  }
  // What the draft's neighbour terms grow by with this label there, between these; -1: none.
  double joining(int label, const Station& s, const PageBox& box, int before, int after) const {
    double sum = 0;
    const auto term = [&](int other, double free) {
      return gap_cost(problem.weights, free, fair) +
             group_cost(problem.weights, problem.labels[at(other)], problem.labels[at(label)]);
    };
    if (before >= 0) sum += term(before, s.start(box) - s.end(spots[at(before)].box));
    if (after >= 0) sum += term(after, s.start(spots[at(after)].box) - s.end(box));
    if (before >= 0 && after >= 0) sum -= pair_cost(before, after, s);
    return sum;
  }
  // The labels that this one would break a rule with, counted up to `enough`.
  int clashes(const Placed& me, int enough) {
    const Rulebook& rules = *stations.front().rules;
    const auto clash = [&](std::size_t i) {
      return static_cast<int>(i) != me.label && middles[i].station >= 0 &&
             !compatible(rules, me, spots[i]);
    };
    const std::size_t first = last_clash;
    int count = clash(first);
    for (std::size_t i = 0; i < middles.size() && count < enough; ++i)
      if (i != first && clash(i)) ++count, last_clash = i;
    return count;
  }
  double balance(int from, int to) const {
    int left = 0, right = 0;
    for (const Seat& seat : draft) {
      if (seat.station < 0) continue;
      left += stations[at(seat.station)].side == Side::left;
      right += stations[at(seat.station)].side == Side::right;
    }
    const double now = balance_cost(problem.weights, left, right);
    if (from >= 0) {
      left -= stations[at(from)].side == Side::left;
      right -= stations[at(from)].side == Side::right;
    }
    left += stations[at(to)].side == Side::left;
    right += stations[at(to)].side == Side::right;
    return balance_cost(problem.weights, left, right) - now;
  }
  double standing(int label) {
    const Seat& seat = draft[at(label)];
    if (seat.station < 0) return 10 * broken;
    const double own = choice_cost(stations[at(seat.station)], seat.choice);
    int before = -1, after = -1;
    neighbours(seat.station, spots[at(label)].box, label, before, after);
    return (own == never ? broken : own) +
           joining(label, stations[at(seat.station)], spots[at(label)].box, before, after) +
           broken * clashes(spots[at(label)], 1 << 20);
  }
};

// Who stands on a station beside one label that may move along it, and what the neighbour terms
// grow by with it at each place: reckoned when first asked for, since its targets share them.
class Joining {
 public:
  Joining(const Board& board, int label, int station)
      : board_(board), station_(board.stations[at(station)]), label_(label) {
    for (std::size_t i = 0; i < board.middles.size(); ++i)
      if (board.middles[i].station == station && static_cast<int>(i) != label)
        others_.push_back({board.middles[i].along, static_cast<int>(i)});
    std::ranges::sort(others_);
    known_.assign(station_.labels[at(label)].variants.size() * at(station_.slots), unknown);
  }
  // `way`: into the variants that fit the station.
  double at_place(std::size_t way, int slot) {
    double& known = known_[way * at(station_.slots) + at(slot)];
    if (known != unknown) return known;
    const Label& label = board_.problem.labels[at(label_)];
    const int variant = station_.labels[at(label_)].variants[way];
    const PageBox box = box_at(station_.side, label.variants[at(variant)], station_.port(slot));
    const auto after =
        std::ranges::upper_bound(others_, board_.middle_of(station_, box), {}, &Other::along);
    return known = board_.joining(label_, station_, box,
                                  after == others_.begin() ? -1 : std::prev(after)->label,
                                  after == others_.end() ? -1 : after->label);
  }

 private:
  struct Other {
    double along = 0;
    int label = 0;
    auto operator<=>(const Other&) const = default;
  };
  static constexpr double unknown = 1e301;
  const Board& board_;
  const Station& station_;
  int label_;
  std::vector<Other> others_;
  std::vector<double> known_;
};

// The best other place for one label. Places are looked at in the order of what
// they cost without broken rules, so the first that breaks none is the best.
bool move_one(Board& board, int label, long& effort) {
  const double now = board.standing(label);
  const Label& whole = board.problem.labels[at(label)];
  double best = now - 1e-7;
  Seat best_seat;
  struct Place {
    double value;
    std::uint32_t seat;
  };
  std::vector<Place> places;
  std::vector<std::uint32_t> firsts;  // number of each station's first place
  std::uint32_t seats = 0;
  // A place's neighbour terms can be below zero by what closing a gap saves, and by no more:
  // between two groups a label is of another group than at least one of them.
  const double most_saved = board.problem.weights.gap + 1e-9;
  for (std::size_t k = 0; k < board.stations.size(); ++k) {
    const Station& s = board.stations[k];
    const StationLabel& l = s.labels[at(label)];
    const double balance = board.balance(board.draft[at(label)].station, static_cast<int>(k));
    firsts.push_back(seats);
    const auto ways = static_cast<std::uint32_t>(l.variants.size());
    const std::size_t slots = at(s.slots), lines = l.targets.size() * slots;
    Joining joining(board, label, static_cast<int>(k));
    for (std::size_t line = 0; line < lines; ++line) {
      if (line % lines_in_block == 0 &&
          l.blocks[line / lines_in_block] + balance - most_saved >= best) {
        line += lines_in_block - 1;
        continue;
      }
      const double cost = l.lines[line] + balance;
      if (cost - most_saved >= best) continue;
      for (std::uint32_t w = 0; w < ways; ++w) {
        const double least = cost + whole.variants[at(l.variants[w])].penalty;
        if (least - most_saved >= best) continue;
        const double value = least + joining.at_place(w, static_cast<int>(line % slots));
        if (value < best)
          places.push_back({value, seats + static_cast<std::uint32_t>(line) * ways + w});
      }
    }
    seats += static_cast<std::uint32_t>(lines) * ways;
  }
  const auto seat_of = [&](std::uint32_t seat) {
    const auto k = static_cast<std::size_t>(std::upper_bound(firsts.begin(), firsts.end(), seat) -
                                            firsts.begin() - 1);
    const StationLabel& l = board.stations[k].labels[at(label)];
    const std::size_t ways = l.variants.size(), slots = at(board.stations[k].slots);
    const std::size_t line = (seat - firsts[k]) / ways;
    return Seat{static_cast<int>(k),
                {label, l.variants[(seat - firsts[k]) % ways], l.targets[line / slots],
                 static_cast<int>(line % slots)}};
  };
  // Few of them are looked at, so they are taken from a heap, cheapest first.
  const auto later = [](const Place& a, const Place& b) {
    return a.value != b.value ? a.value > b.value : a.seat > b.seat;
  };
  std::make_heap(places.begin(), places.end(), later);
  int clashing = 0;
  for (auto end = places.end(); end != places.begin(); --end) {
    const Place place = places.front();
    if (place.value >= best || clashing > 600) break;
    std::pop_heap(places.begin(), end, later);
    const Seat seat = seat_of(place.seat);
    if (!box_fits(board.stations[at(seat.station)], label, seat.choice.variant, seat.choice.slot))
      continue;
    effort -= 1;
    if (effort < 0) break;
    const Placed me = board.spot(seat);
    const int enough = 1 + static_cast<int>(std::max(0.0, (best - place.value) / broken));
    const int clashes = board.clashes(me, enough);
    clashing += clashes > 0;
    if (place.value + broken * clashes < best)
      best = place.value + broken * clashes, best_seat = seat;
  }
  if (best_seat.station < 0) return false;
  board.put(at(label), best_seat);
  return true;
}

// Two labels exchange their ports, each keeping its variant where it fits.
bool swap_two(Board& board, int a, int b) {
  const Seat seat_a = board.draft[at(a)], seat_b = board.draft[at(b)];
  if (seat_a.station < 0 || seat_b.station < 0) return false;
  const auto moved = [&](const Seat& who, const Seat& where) {
    const Station& s = board.stations[at(where.station)];
    Seat best;
    double least = never;
    for (const int t : s.labels[at(who.choice.label)].targets) {
      const Seat seat{where.station, {who.choice.label, who.choice.variant, t, where.choice.slot}};
      const double cost = choice_cost(s, seat.choice);
      if (cost < least) least = cost, best = seat;
    }
    return best;
  };
  const Seat new_a = moved(seat_a, seat_b), new_b = moved(seat_b, seat_a);
  if (new_a.station < 0 || new_b.station < 0) return false;
  const double before = draft_cost(board.stations, board.fair, board.draft);
  board.draft[at(a)] = new_a;
  board.draft[at(b)] = new_b;
  if (draft_cost(board.stations, board.fair, board.draft) < before - 1e-7) {
    board.put(at(a), new_a);
    board.put(at(b), new_b);
    return true;
  }
  board.draft[at(a)] = seat_a;
  board.draft[at(b)] = seat_b;
  return false;
}

}  // namespace

std::vector<Placement> placements_of(const std::vector<Station>& stations, const Draft& draft) {
  std::vector<Placement> all(draft.size());
  for (std::size_t i = 0; i < draft.size(); ++i)
    if (draft[i].station >= 0)
      all[i] = placement_of(stations[at(draft[i].station)], draft[i].choice);
  return all;
}

double draft_cost(const std::vector<Station>& stations, double fair, const Draft& draft) {
  if (stations.empty()) return 10 * broken * static_cast<double>(draft.size());
  const Problem& problem = *stations.front().rules->problem;
  double sum = 0;
  int left = 0, right = 0;
  std::vector<std::vector<PageBox>> boxes(stations.size());
  std::vector<std::vector<std::size_t>> runs(stations.size());
  std::vector<Placed> spots(draft.size());
  for (std::size_t i = 0; i < draft.size(); ++i) {
    if (draft[i].station < 0) {
      sum += 10 * broken;
      continue;
    }
    const Station& s = stations[at(draft[i].station)];
    const double own = choice_cost(s, draft[i].choice);
    sum += own == never ? broken : own;
    spots[i] = placed(problem, placement_of(s, draft[i].choice), static_cast<int>(i));
    runs[at(draft[i].station)].push_back(i);
    left += s.side == Side::left;
    right += s.side == Side::right;
  }
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    auto& run = runs[k];
    std::sort(run.begin(), run.end(), [&](std::size_t a, std::size_t b) {
      return s.start(spots[a].box) < s.start(spots[b].box);
    });
    for (std::size_t r = 1; r < run.size(); ++r)
      sum += gap_cost(problem.weights, s.start(spots[run[r]].box) - s.end(spots[run[r - 1]].box),
                      fair) +
             group_cost(problem.weights, problem.labels[run[r - 1]], problem.labels[run[r]]);
  }
  for (std::size_t i = 0; i < draft.size(); ++i)
    for (std::size_t j = i + 1; j < draft.size(); ++j)
      if (draft[i].station >= 0 && draft[j].station >= 0 &&
          !compatible(*stations.front().rules, spots[i], spots[j]))
        sum += broken;
  return sum + balance_cost(problem.weights, left, right);
}

int draft_faults(const std::vector<Station>& stations, const Draft& draft) {
  if (stations.empty()) return static_cast<int>(draft.size());
  const Problem& problem = *stations.front().rules->problem;
  int faults = 0;
  std::vector<Placed> spots;
  for (std::size_t i = 0; i < draft.size(); ++i) {
    if (draft[i].station < 0 ||
        choice_cost(stations[at(draft[i].station)], draft[i].choice) == never) {
      ++faults;
      continue;
    }
    const Placed me = placed(problem, placement_of(stations[at(draft[i].station)], draft[i].choice),
                             static_cast<int>(i));
    for (const Placed& other : spots)
      if (!compatible(*stations.front().rules, me, other)) ++faults;
    spots.push_back(me);
  }
  return faults;
}

bool improve(const std::vector<Station>& stations, double fair, Draft& draft, long effort) {
  if (stations.empty() || draft.empty()) return true;
  Board board(stations, fair, draft);
  const int n = static_cast<int>(draft.size());
  for (int pass = 0; pass < 30 && effort > 0; ++pass) {
    bool changed = false;
    for (int i = 0; i < n && effort > 0; ++i) changed = move_one(board, i, effort) || changed;
    // Neighbours on a station, and pairs that break a rule.
    for (int i = 0; i < n && effort > 0; ++i)
      for (int j = i + 1; j < n; ++j) {
        if (draft[at(i)].station < 0 || draft[at(j)].station < 0) continue;
        const bool clash =
            !compatible(*stations.front().rules, board.spots[at(i)], board.spots[at(j)]);
        if (!clash) continue;
        effort -= n * n / 2;
        changed = swap_two(board, i, j) || changed;
      }
    if (!changed) return effort > 0;
  }
  return false;
}

}  // namespace platewright::place
