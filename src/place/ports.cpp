#include "place/ports.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "place/cost.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

constexpr int port_reach = 2;  // steps to either side that one dynamic program looks at
constexpr std::size_t places = 2 * port_reach + 1;
constexpr double port_hair = 1e-10;  // costs nearer than this are equal

}  // namespace

Ports::Ports(const Rulebook& rules, std::vector<Placement>& placements)
    : rules_(rules),
      problem_(*rules.problem),
      fair_(fair_gap(*rules.problem)),
      sums_(rules.problem->weights.detail != 0 ? DetailSums(rules.problem->detail) : DetailSums()),
      all_(placements),
      spots_(placements.size()),
      hulls_(placements.size()),
      runs_(problem_.columns.size() + problem_.rows.size()),
      run_of_(placements.size()) {
  for (std::size_t c = 0; c < problem_.columns.size(); ++c)
    runs_[c] = {true, problem_.columns[c].top, problem_.columns[c].bottom, {}};
  for (std::size_t r = 0; r < problem_.rows.size(); ++r)
    runs_[problem_.columns.size() + r] = {
        false, problem_.rows[r].left, problem_.rows[r].right, {}};
  for (std::size_t i = 0; i < all_.size(); ++i) {
    const bool column = all_[i].side == Side::left || all_[i].side == Side::right;
    run_of_[i] =
        static_cast<std::size_t>(all_[i].column) + (column ? 0 : problem_.columns.size());
    runs_[run_of_[i]].members.push_back(i);
    spots_[i] = placed(problem_, all_[i], static_cast<int>(i));
    hulls_[i] = united(spots_[i].leader, spots_[i].box);
  }
  for (Run& run : runs_)
    std::sort(run.members.begin(), run.members.end(), [&](std::size_t a, std::size_t b) {
      const double x = start(a) + length(a) / 2, y = start(b) + length(b) / 2;
      return x != y ? x < y : problem_.labels[a].anchor < problem_.labels[b].anchor;
    });
}

double Ports::start(std::size_t i) const {
  return runs_[run_of_[i]].column ? all_[i].box.top() : all_[i].box.left();
}

double Ports::length(std::size_t i) const {
  return runs_[run_of_[i]].column ? all_[i].box.h : all_[i].box.w;
}

Placement Ports::slid(std::size_t i, double by) const {
  const Run& run = runs_[run_of_[i]];
  // Stops at the ends of the column.
  by = std::min(by, run.to - length(i) - start(i));
  by = std::max(by, run.from - start(i));
  Placement p = all_[i];
  (run.column ? p.port.y : p.port.x) += by;
  const Variant& v = problem_.labels[i].variants[static_cast<std::size_t>(p.variant)];
  p.box = box_at(p.side, v, p.port);
  return p;
}

PageBox Ports::around(const PageBox& hull) const {
  const Rules& r = problem_.rules;
  return hull.grown(std::max({r.label_gap, r.leader_gap, r.anchor_gap, leader_to_box}) +
                    problem_.stub + 0.01);
}

void Ports::put(std::size_t i, const Placement& placement) {
  all_[i] = placement;
  spots_[i] = placed(problem_, placement, static_cast<int>(i));
  hulls_[i] = united(spots_[i].leader, spots_[i].box);
}

bool Ports::spread() {
  const double gap = problem_.rules.label_gap;
  for (const Run& run : runs_) {
    struct Block {
      double sum = 0, count = 0;
    };
    std::vector<Block> blocks;
    std::vector<double> shift;
    double before = 0;
    for (const std::size_t i : run.members) {
      shift.push_back(before);
      blocks.push_back({start(i) - before, 1});
      before += length(i) + gap;
      while (blocks.size() > 1) {
        const Block last = blocks.back();
        Block& prior = blocks[blocks.size() - 2];
        if (prior.sum * last.count < last.sum * prior.count) break;
        prior.sum += last.sum;
        prior.count += last.count;
        blocks.pop_back();
      }
    }
    const double room = run.to - run.from - (before - gap);
    if (!run.members.empty() && room < -1e-9) return false;
    std::size_t rank = 0;
    for (const Block& block : blocks)
      for (int k = 0; k < static_cast<int>(block.count); ++k, ++rank) {
        const std::size_t i = run.members[rank];
        const double at =
            std::clamp(block.sum / block.count, run.from, run.from + std::max(0.0, room));
        put(i, slid(i, at + shift[rank] - start(i)));
      }
  }
  return true;
}

// Rules with all labels but the neighbours on its run, where those are now.
bool Ports::stands_apart(std::size_t i, const Placement& at, const Placed& spot) const {
  if (!stands(rules_, at, static_cast<int>(i))) return false;
  const PageBox near = around(united(spot.leader, spot.box));
  for (std::size_t j = 0; j < all_.size(); ++j) {
    if (j == i || !overlap(near, hulls_[j])) continue;
    if (run_of_[j] != run_of_[i]) {
      if (!compatible(rules_, spot, spots_[j])) return false;
      continue;
    }
    // Targets stay where they are, wherever the label goes.
    for (const PagePoint& p : spots_[j].target->points)
      if (spot.leader.grown(problem_.rules.anchor_gap + problem_.stub).contains(p) &&
          !passes(rules_, spot, static_cast<int>(j), p))
        return false;
  }
  return true;
}

// The best places around where the labels of one run are; `held` ones stay.
bool Ports::propose(const Run& run, double step, bool leaders, const std::vector<bool>& held,
                    std::vector<Placement>& moved) const {
  const std::size_t n = run.members.size();
  struct Place {
    Placement at;
    Placed spot;
    double own = never, sum = never;
    int from = -1;
  };
  std::vector<std::array<Place, places>> table(n);
  const double least_gap = problem_.rules.label_gap - slack / 2;
  for (std::size_t r = 0; r < n; ++r) {
    const std::size_t i = run.members[r];
    for (int k = -port_reach; k <= port_reach; ++k) {
      Place& place = table[r][static_cast<std::size_t>(k + port_reach)];
      if (k != 0 && held[i]) continue;
      place.at = k == 0 ? all_[i] : slid(i, k * step);
      place.spot = placed(problem_, place.at, static_cast<int>(i));
      place.own = label_cost(problem_, problem_.labels[i], place.at.side, place.at.variant,
                             place.at.target, place.at.port, false)
                      .total() +
                  detail_cost(problem_, problem_.labels[i], place.at.side, place.at.target,
                              place.at.port, &sums_);
      if (leaders && !stands_apart(i, place.at, place.spot)) place.own += broken;
    }
  }
  for (std::size_t r = 0; r < n; ++r)
    for (Place& place : table[r]) {
      if (r == 0) {
        place.sum = place.own;
        continue;
      }
      if (place.own == never) continue;
      for (std::size_t k = 0; k < places; ++k) {
        const Place& prior = table[r - 1][k];
        if (prior.sum == never) continue;
        const double free = run.column ? place.at.box.top() - prior.at.box.bottom()
                                       : place.at.box.left() - prior.at.box.right();
        if (free < least_gap) continue;
        double sum = prior.sum + place.own + gap_cost(problem_.weights, free, fair_);
        if (!(sum < place.sum)) continue;
        if (leaders && !compatible(rules_, prior.spot, place.spot)) sum += broken;
        if (sum < place.sum) {
          place.sum = sum;
          place.from = static_cast<int>(k);
        }
      }
    }
  std::size_t best = port_reach;
  for (std::size_t k = 0; k < places; ++k)
    if (table[n - 1][k].sum < table[n - 1][best].sum - port_hair) best = k;
  if (table[n - 1][best].sum == never) return false;
  moved.resize(n);
  bool any = false;
  for (std::size_t r = n; r-- > 0;) {
    const Place& place = table[r][best];
    moved[r] = place.at;
    any = any || best != port_reach;
    if (r > 0) best = static_cast<std::size_t>(place.from);
  }
  return any;
}

double Ports::value(bool leaders) const { return cost() + (leaders ? broken * faults() : 0); }

bool Ports::improve_run(const Run& run, double step, bool leaders) {
  const double now = value(leaders);
  std::vector<bool> held(all_.size(), false);
  constexpr int tries = 4;
  for (int k = 0; k < tries; ++k) {
    std::vector<Placement> moved, kept;
    if (!propose(run, step, leaders, held, moved)) return false;
    for (std::size_t r = 0; r < moved.size(); ++r) {
      kept.push_back(all_[run.members[r]]);
      put(run.members[r], moved[r]);
    }
    if (value(leaders) < now - port_hair) return true;
    // Labels that met others farther along the run stay where they were.
    bool more = false;
    for (std::size_t a = 0; a < moved.size(); ++a)
      for (std::size_t b = a + 2; b < moved.size(); ++b) {
        const std::size_t i = run.members[a], j = run.members[b];
        if ((held[i] && held[j]) || compatible(rules_, spots_[i], spots_[j])) continue;
        held[i] = held[j] = more = true;
      }
    for (std::size_t r = 0; r < kept.size(); ++r) put(run.members[r], kept[r]);
    if (!more) return false;
  }
  return false;
}

void Ports::descend(double coarsest, double finest, bool leaders) {
  constexpr int most_rounds = 24;
  for (double step = coarsest; step >= finest; step /= 2)
    for (int round = 0; round < most_rounds; ++round) {
      bool better = false;
      for (const Run& run : runs_)
        if (!run.members.empty()) better = improve_run(run, step, leaders) || better;
      if (!better) break;
    }
}

double Ports::cost() const { return place::cost(problem_, all_).total(); }

int Ports::faults() const {
  int count = 0;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    count += !stands(rules_, all_[i], static_cast<int>(i));
    const PageBox near = around(hulls_[i]);
    for (std::size_t j = 0; j < i; ++j)
      count += overlap(near, hulls_[j]) && !compatible(rules_, spots_[i], spots_[j]);
  }
  return count;
}

}  // namespace platewright::place
