#include "place/windows.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/at.hpp"
#include "place/prove.hpp"
#include "place/window.hpp"

namespace platewright::place {
namespace {

class Sweep {
 public:
  Sweep(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
        const RoutePrices& prices, double worth)
      : stations_(stations),
        prices_(prices),
        rules_(*stations.front().rules),
        problem_(*rules_.problem),
        fair_(fair),
        draft_(draft),
        cost_(cost),
        worth_(worth),
        spots_(draft.size()),
        rank_(draft.size()),
        changed_(draft.size(), 0) {
    for (std::size_t i = 0; i < draft_.size(); ++i) place(i);
    line_up();
  }

  // Windows of so many labels, each around another one, that overlap by most of them;
  // true when any got better.
  bool sweep(std::size_t size, std::size_t turn, long nodes, long& work) {
    bool any = false;
    const std::vector<int> order = in_order();
    const std::size_t stride = std::max<std::size_t>(1, size / 4);
    for (std::size_t k = turn % stride; k < order.size(); k += stride) {
      if (work <= 0) break;
      const int seed = order[k];
      const std::vector<int> free = around(seed, size);
      int latest = 0;
      for (const int i : free) latest = std::max(latest, changed_[at(i)]);
      int& solved_at = solved_[free];
      if (solved_at > latest) continue;
      any = solve(free, seed, nodes, work) || any;
      solved_at = ++clock_;
    }
    return any;
  }

  // Windows of so many labels around those that break a rule.
  void mend(std::size_t size, long nodes, long& work) {
    for (const int seed : in_order())
      if (work > 0 && breaks_any(seed)) solve(around(seed, size), seed, nodes, work);
  }

  // Each station's labels slide along it, all at once and in their order.
  bool slide() {
    bool any = false;
    for (std::size_t k = 0; k < stations_.size(); ++k) {
      std::vector<Choice> order, slid;
      for (const int i : runs_[k]) order.push_back(draft_[at(i)].choice);
      if (!chain(stations_[k], fair_, order, slid)) continue;
      Draft trial = draft_;
      std::vector<int> moved;
      for (std::size_t r = 0; r < slid.size(); ++r) {
        if (slid[r].slot != order[r].slot) moved.push_back(slid[r].label);
        trial[at(slid[r].label)].choice = slid[r];
      }
      any = keep(std::move(trial), moved) || any;
    }
    return any;
  }

 private:
  void place(std::size_t i) {
    const Station& s = stations_[at(draft_[i].station)];
    spots_[i] = placed(problem_, placement_of(s, draft_[i].choice), static_cast<int>(i));
  }
  bool breaks_any(int label) const {
    const Seat& seat = draft_[at(label)];
    if (choice_cost(stations_[at(seat.station)], seat.choice) == never) return true;
    return std::any_of(spots_.begin(), spots_.end(), [&](const Placed& other) {
      return other.label != label && !compatible(rules_, spots_[at(label)], other);
    });
  }
  void line_up() {
    runs_.assign(stations_.size(), {});
    for (std::size_t i = 0; i < draft_.size(); ++i)
      runs_[at(draft_[i].station)].push_back(static_cast<int>(i));
    for (std::size_t k = 0; k < runs_.size(); ++k) {
      std::sort(runs_[k].begin(), runs_[k].end(), [&](int a, int b) {
        return draft_[at(a)].choice.slot < draft_[at(b)].choice.slot;
      });
      for (std::size_t r = 0; r < runs_[k].size(); ++r) rank_[at(runs_[k][r])] = r;
    }
  }
  PagePoint target(int i) const {
    const auto& points = spots_[at(i)].target->points;
    PagePoint sum{};
    for (const PagePoint& p : points) sum.x += p.x, sum.y += p.y;
    const auto many = static_cast<double>(points.size());
    return {sum.x / many, sum.y / many};
  }
  std::vector<int> in_order() const {
    std::vector<int> order;
    for (const auto& run : runs_) order.insert(order.end(), run.begin(), run.end());
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      const PagePoint p = target(a), q = target(b);
      return p.y != q.y ? p.y < q.y : p.x < q.x;
    });
    return order;
  }
  // The labels nearest to one, those between them on each station among them.
  std::vector<int> around(int seed, std::size_t size) const {
    std::vector<std::pair<double, int>> near;
    const PagePoint middle = target(seed);
    for (std::size_t i = 0; i < draft_.size(); ++i) {
      const double own = distance(middle, target(static_cast<int>(i)));
      near.emplace_back(own, static_cast<int>(i));
    }
    std::sort(near.begin(), near.end());
    std::vector<std::pair<std::size_t, std::size_t>> span(
        runs_.size(), {draft_.size(), 0});  // ranks [first, second)
    const auto total = [&](const auto& spans) {
      std::size_t sum = 0;
      for (const auto& [from, to] : spans) sum += from < to ? to - from : 0;
      return sum;
    };
    std::size_t misses = 0;
    for (const auto& [far, i] : near) {
      auto wider = span;
      auto& [from, to] = wider[at(draft_[at(i)].station)];
      from = std::min(from, rank_[at(i)]);
      to = std::max(to, rank_[at(i)] + 1);
      if (total(wider) <= size)
        span = std::move(wider);
      else if (++misses > size / 2)
        break;
    }
    std::vector<int> free;
    for (std::size_t k = 0; k < runs_.size(); ++k)
      for (std::size_t r = span[k].first; r < span[k].second; ++r) free.push_back(runs_[k][r]);
    std::sort(free.begin(), free.end());
    return free;
  }

  bool solve(const std::vector<int>& free, int seed, long nodes, long& work) {
    std::vector<std::size_t> gaps(runs_.size(), 0);
    for (std::size_t k = 0; k < runs_.size(); ++k) {
      const Station& s = stations_[k];
      const PagePoint p = target(seed);
      const double along = s.row() ? p.x : p.y;
      while (gaps[k] < runs_[k].size() &&
             s.along(draft_[at(runs_[k][gaps[k]])].choice.slot) < along)
        ++gaps[k];
    }
    const Window window(stations_, draft_, spots_, runs_, free, gaps, fair_);
    if (window.labels().size() > 64) return false;
    RoutePrices prices;
    if (!prices_.label.empty())
      for (const int i : window.labels()) prices.label.push_back(prices_.label[at(i)]);
    // A window that breaks rules has no cost yet.
    const double least = window.cost() < broken ? window.cost() - worth_ * cost_ : never;
    const Proof proof = prove(window.stations(), fair_, least, nodes, prices);
    work -= static_cast<long>(proof.work);
    if (!proof.better) return false;
    Draft trial = draft_;
    window.put(proof.draft, trial);
    return keep(std::move(trial), window.labels());
  }
  // True when it is better; `labels`: those that may have moved.
  bool keep(Draft trial, const std::vector<int>& labels) {
    const double now = draft_cost(stations_, fair_, trial);
    if (!(now < cost_ - 1e-9)) return false;
    ++clock_;
    draft_ = std::move(trial);
    cost_ = now;
    for (const int i : labels) {
      place(at(i));
      changed_[at(i)] = clock_;
    }
    line_up();
    return true;
  }

  const std::vector<Station>& stations_;
  const RoutePrices& prices_;
  const Rulebook& rules_;
  const Problem& problem_;
  double fair_;
  Draft& draft_;
  double& cost_;
  double worth_;
  std::vector<Placed> spots_;
  std::vector<std::vector<int>> runs_;
  std::vector<std::size_t> rank_;
  std::vector<int> changed_;
  std::map<std::vector<int>, int> solved_;  // by the labels set free: when
  int clock_ = 1;
};

}  // namespace

bool sweep_windows(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
                   const RoutePrices& prices, const std::vector<std::size_t>& sizes, long nodes,
                   long& work, double worth) {
  if (draft.empty()) return false;
  constexpr std::size_t most_turns = 8;
  constexpr double worth_a_turn = 1e-3;  // of the cost; else wider windows do more
  Sweep sweep(stations, fair, draft, cost, prices, worth);
  const double before = cost;
  for (const std::size_t size : sizes)
    for (std::size_t turn = 0; turn < most_turns && work > 0; ++turn) {
      const double was = cost;
      const bool swept = sweep.sweep(size, turn, nodes, work), slid = sweep.slide();
      if (!(swept || slid) || was - cost < worth_a_turn * cost) break;
    }
  return cost < before;
}

bool mend_windows(const std::vector<Station>& stations, double fair, Draft& draft, double& cost,
                  const RoutePrices& prices, const std::vector<std::size_t>& sizes, long nodes,
                  long& work) {
  if (std::any_of(draft.begin(), draft.end(), [](const Seat& seat) { return seat.station < 0; }))
    return false;
  Sweep sweep(stations, fair, draft, cost, prices, 0);
  for (const std::size_t size : sizes)
    if (!(cost < broken)) {
      sweep.mend(size, nodes, work);
      // Elsewhere labels move, too, and make room.
      if (!(cost < broken) && size == sizes.front()) {
        sweep.sweep(size, 0, nodes, work);
        sweep.mend(size, nodes, work);
      }
    }
  return cost < broken;
}

}  // namespace platewright::place
