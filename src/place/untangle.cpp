// Weighted min-conflicts with pushing (Morris, "The breakout method for escaping
// from local minima", AAAI 1993): a label in conflict moves to the place where
// conflicts weigh least, its new neighbours giving way along the column or row;
// where no move helps, the conflicts that are left grow heavier.
#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/at.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

struct Item {
  int station = -1;
  Choice choice;
  Placed placed;
  double start = 0, end = 0;  // of the box along the station
  bool clear = false;         // its leader breaks no rule by itself
};

class Tangle {
 public:
  Tangle(const std::vector<Station>& stations, const Draft& draft, long effort)
      : stations_(stations),
        rules_(*stations.front().rules),
        gap_(rules_.problem->rules.label_gap),
        n_(draft.size()),
        effort_(effort),
        items_(n_),
        clash_(n_ * n_, false),
        weight_(n_ * n_, 1),
        own_weight_(n_, 2),
        runs_(stations.size()) {
    for (std::size_t i = 0; i < n_; ++i)
      if (draft[i].station >= 0) {
        items_[i] = item(draft[i].station, draft[i].choice);
        runs_[at(draft[i].station)].push_back(static_cast<int>(i));
      }
    for (auto& run : runs_) sort_run(run);
    for (std::size_t i = 0; i < n_; ++i)
      for (std::size_t j = 0; j < i; ++j) note(i, j);
  }

  bool run() {
    keep();
    const long patience = effort_ / 5 * 2;
    while (best_faults_ > 0 && effort_ > std::max(0L, best_at_ - patience)) {
      bool moved = false;
      looked_ = false;
      effort_ -= static_cast<long>(n_ * n_ / 16);
      for (const int label : troubled()) {
        moved = move(label);
        if (moved || effort_ <= 0) break;
      }
      if (!moved && !looked_) break;  // there is no room for any of them anywhere
      if (!moved) {
        make_heavier();
      } else {
        keep();
      }
    }
    return best_faults_ == 0;
  }

  const Draft& best() const { return best_; }

 private:
  // A box; `complete` adds what its leader needs.
  Item box(int station, const Choice& choice) const {
    const Station& s = stations_[at(station)];
    Item m;
    m.station = station;
    m.choice = choice;
    const double along = s.along(choice.slot);
    m.start = along - s.before(choice.label, choice.variant);
    m.end = along + s.after(choice.label, choice.variant);
    return m;
  }
  void complete(Item& m) const {
    const Station& s = stations_[at(m.station)];
    const Choice& choice = m.choice;
    const Label& label = rules_.problem->labels[at(choice.label)];
    const PagePoint port = s.port(choice.slot);
    m.placed = make_placed(choice.label, s.side,
                           box_at(s.side, label.variants[at(choice.variant)], port), port,
                           label.targets[at(choice.target)]);
    m.clear = line(s, choice) < never;
  }
  Item item(int station, const Choice& choice) const {
    Item m = box(station, choice);
    complete(m);
    return m;
  }
  // How much room the labels of a station take, gaps and all; one left out.
  double taken(std::size_t station, int but) const {
    double sum = 0;
    for (const int label : runs_[station])
      if (label != but) sum += items_[at(label)].end - items_[at(label)].start + gap_;
    return sum;
  }

  static double line(const Station& s, const Choice& c) {
    const StationLabel& l = s.labels[at(c.label)];
    for (std::size_t k = 0; k < l.targets.size(); ++k)
      if (l.targets[k] == c.target) return l.lines[k * at(s.slots) + at(c.slot)];
    return never;
  }

  void sort_run(std::vector<int>& run) const {
    std::sort(run.begin(), run.end(), [&](int a, int b) {
      return items_[at(a)].start != items_[at(b)].start ? items_[at(a)].start < items_[at(b)].start
                                                        : a < b;
    });
  }

  void note(std::size_t i, std::size_t j) {
    const bool now = items_[i].station >= 0 && items_[j].station >= 0 &&
                     !compatible(rules_, items_[i].placed, items_[j].placed);
    clash_[i * n_ + j] = clash_[j * n_ + i] = now;
  }

  double trouble(std::size_t i) const {
    if (items_[i].station < 0) return 1e6;
    double sum = items_[i].clear ? 0 : own_weight_[i];
    for (std::size_t j = 0; j < n_; ++j)
      if (clash_[i * n_ + j]) sum += weight_[i * n_ + j];
    return sum;
  }

  std::vector<int> troubled() const {
    std::vector<std::pair<double, int>> found;
    for (std::size_t i = 0; i < n_; ++i)
      if (const double sum = trouble(i); sum > 0) found.emplace_back(-sum, static_cast<int>(i));
    std::sort(found.begin(), found.end());
    std::vector<int> labels;
    for (const auto& [sum, label] : found) labels.push_back(label);
    return labels;
  }

  int faults() const {
    int count = 0;
    for (std::size_t i = 0; i < n_; ++i) {
      count += items_[i].station < 0 || !items_[i].clear;
      for (std::size_t j = 0; j < i; ++j) count += clash_[i * n_ + j];
    }
    return count;
  }

  void keep() {
    const int now = faults();
    if (!best_.empty() && now >= best_faults_) return;
    best_faults_ = now;
    best_at_ = effort_;
    best_.assign(n_, {});
    for (std::size_t i = 0; i < n_; ++i) best_[i] = {items_[i].station, items_[i].choice};
  }

  void make_heavier() {
    for (std::size_t i = 0; i < n_; ++i) {
      if (items_[i].station >= 0 && !items_[i].clear) ++own_weight_[i];
      for (std::size_t j = 0; j < n_; ++j)
        if (clash_[i * n_ + j]) ++weight_[i * n_ + j];
    }
  }

  // Those that must give way when `me` stands on its station, pushed as little as
  // can be; false when there is no room.
  bool push(const Item& me, std::vector<Item>& moved) {
    const Station& s = stations_[at(me.station)];
    const auto& run = runs_[at(me.station)];
    const double middle = (me.start + me.end) / 2;
    moved.clear();
    moved.push_back(me);
    const auto first_after = std::partition_point(run.begin(), run.end(), [&](int other) {
      return (items_[at(other)].start + items_[at(other)].end) / 2 < middle;
    });
    const auto after = static_cast<std::size_t>(first_after - run.begin());
    double limit = me.start - gap_;
    for (std::size_t r = after; r-- > 0;) {
      if (run[r] == me.choice.label) continue;
      const Item& other = items_[at(run[r])];
      if (other.end <= limit + 1e-9) break;
      Choice c = other.choice;
      c.slot = static_cast<int>(std::floor((limit - s.after(c.label, c.variant) - s.from) / s.step + 1e-7));
      --effort_;
      if (c.slot < 0 || !box_fits(s, c.label, c.variant, c.slot)) return false;
      moved.push_back(box(me.station, c));
      limit = moved.back().start - gap_;
    }
    limit = me.end + gap_;
    for (std::size_t r = after; r < run.size(); ++r) {
      if (run[r] == me.choice.label) continue;
      const Item& other = items_[at(run[r])];
      if (other.start >= limit - 1e-9) break;
      Choice c = other.choice;
      c.slot = static_cast<int>(std::ceil((limit + s.before(c.label, c.variant) - s.from) / s.step - 1e-7));
      --effort_;
      if (c.slot >= s.slots || !box_fits(s, c.label, c.variant, c.slot)) return false;
      moved.push_back(box(me.station, c));
      limit = moved.back().end + gap_;
    }
    return true;
  }

  // What conflicts weigh more after the move than before; stops once that is `most` or more.
  double gain(std::vector<Item>& moved, double most) {
    mark_.assign(n_, -1);
    for (std::size_t m = 0; m < moved.size(); ++m) mark_[at(moved[m].choice.label)] = static_cast<int>(m);
    double before = 0;
    for (std::size_t m = 0; m < moved.size(); ++m) {
      const std::size_t i = at(moved[m].choice.label);
      if (items_[i].station < 0) before += 1e6;
      else if (!items_[i].clear) before += own_weight_[i];
      for (std::size_t j = 0; j < n_; ++j)
        if (clash_[i * n_ + j] && (mark_[j] < 0 || mark_[j] > static_cast<int>(m)))
          before += weight_[i * n_ + j];
    }
    double now = 0;
    for (Item& m : moved)
      if (line(stations_[at(m.station)], m.choice) == never) now += own_weight_[at(m.choice.label)];
    if (now - before >= most) return never;
    for (Item& m : moved) complete(m);
    for (std::size_t m = 0; m < moved.size(); ++m) {
      const std::size_t i = at(moved[m].choice.label);
      for (std::size_t j = 0; j < n_; ++j) {
        if (j == i || (mark_[j] >= 0 && mark_[j] < static_cast<int>(m))) continue;
        if (mark_[j] < 0 && items_[j].station < 0) continue;
        const Placed& other = mark_[j] < 0 ? items_[j].placed : moved[at(mark_[j])].placed;
        --effort_;
        if (!compatible(rules_, moved[m].placed, other)) {
          now += weight_[i * n_ + j];
          if (now - before >= most) return never;
        }
      }
    }
    return now - before;
  }

  // The best other place for one label; true when it went there.
  bool move(int label) {
    double best = -1e-6;
    double best_cost = never;
    std::vector<Item> trial, chosen;
    const Item& here = items_[at(label)];
    for (std::size_t k = 0; k < stations_.size(); ++k) {
      const Station& s = stations_[k];
      const StationLabel& l = s.labels[at(label)];
      if (taken(k, label) + l.least_extent > s.to - s.from + 1e-9) continue;
      for (std::size_t t = 0; t < l.targets.size(); ++t)
        for (int slot = 0; slot < s.slots; ++slot) {
          const double cost = l.lines[t * at(s.slots) + at(slot)];
          if (cost == never) continue;
          for (const int v : l.variants) {
            if (here.station == static_cast<int>(k) && here.choice.slot == slot &&
                here.choice.variant == v && here.choice.target == l.targets[t])
              continue;
            if (!box_fits(s, label, v, slot)) continue;
            --effort_;
            if (!push(box(static_cast<int>(k), {label, v, l.targets[t], slot}), trial)) continue;
            looked_ = true;
            const double now = gain(trial, best + 1e-6);
            if (now < best - 1e-9 || (now < best + 1e-9 && cost < best_cost))
              best = now, best_cost = cost, chosen = trial;
          }
        }
    }
    if (chosen.empty()) return false;
    for (const Item& m : chosen) {
      const int from = items_[at(m.choice.label)].station;
      if (from != m.station) {
        if (from >= 0) std::erase(runs_[at(from)], m.choice.label);
        runs_[at(m.station)].push_back(m.choice.label);
      }
      items_[at(m.choice.label)] = m;
    }
    sort_run(runs_[at(chosen.front().station)]);
    for (const Item& m : chosen)
      for (std::size_t j = 0; j < n_; ++j)
        if (j != at(m.choice.label)) note(at(m.choice.label), j);
    return true;
  }

  const std::vector<Station>& stations_;
  const Rulebook& rules_;
  double gap_;
  std::size_t n_;
  long effort_;
  std::vector<Item> items_;
  std::vector<char> clash_;
  std::vector<double> weight_, own_weight_;
  std::vector<std::vector<int>> runs_;
  std::vector<int> mark_;
  Draft best_;
  int best_faults_ = 0;
  long best_at_ = 0;     // effort left when it was found
  bool looked_ = false;  // some label had another place to go to
};

}  // namespace

long patience_for(std::size_t labels, long most) {
  const auto n = static_cast<long>(labels);
  return std::min(most, (n <= 12 ? 800 : 5000) * n * n);
}

bool untangle(const std::vector<Station>& stations, Draft& draft, long effort) {
  if (stations.empty()) return false;
  Tangle tangle(stations, draft, effort);
  const bool free = tangle.run();
  draft = tangle.best();
  return free;
}

}  // namespace platewright::place
