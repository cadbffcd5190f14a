#include "place/assignment.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/at.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

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
  // What is wider than the station stands nowhere on it, and takes no room.
  return {l.least_total, l.least_extent < never ? l.least_extent + gap : 0};
}

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
      const double start =
          std::clamp(block.sum / block.count, s.from, s.from + room) + items[k].shift;
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
Assignment filled(const std::vector<Station>& stations, const Offer& offer,
                  std::vector<int> station_of) {
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

}  // namespace

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

std::vector<Assignment> splits(const std::vector<Station>& stations, const Offer& offer) {
  const Problem& problem = *stations.front().rules->problem;
  const int n = static_cast<int>(problem.labels.size());
  const int left = first_station(stations, Side::left),
            right = first_station(stations, Side::right);
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

}  // namespace platewright::place
