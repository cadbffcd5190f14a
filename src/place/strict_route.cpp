#include "place/strict_route.hpp"

#include <algorithm>
#include <cmath>

#include "place/leader.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

constexpr int far_away = Thresholds::far_away;

}  // namespace

Thresholds::Thresholds(const Problem& given, const RouteModel& model,
                       const std::vector<double>& step, bool loose_ports)
    : problem(&given), labels(given.labels.size()), loose(loose_ports) {
  for (std::size_t k = 0; k < model.lines.size(); ++k) {
    Place place;
    const bool row = k >= given.columns.size();
    const std::size_t index = row ? k - given.columns.size() : k;
    place.side = row ? given.rows[index].side : given.columns[index].side;
    place.edge = row ? given.rows[index].edge : given.columns[index].edge;
    place.from = row ? given.rows[index].left : given.columns[index].top;
    place.step = step[k];
    places.push_back(place);
    line.emplace_back(labels * labels, Bounds{});
    for (std::size_t i = 0; i < labels; ++i)
      for (std::size_t j = 0; j < labels; ++j)
        if (i != j)
          line.back()[i * labels + j] =
              between(k, given.labels[i].targets, given.labels[j].targets);
  }
}

// Nothing is asked as soon as some pair of targets asks something of the former
// label's port and another pair something of the latter's.
Thresholds::Bounds Thresholds::between(std::size_t k, std::span<const Target> former,
                                       std::span<const Target> latter) const {
  const Place& place = places[k];
  Station s;
  s.side = place.side;
  s.line = place.edge;
  const double stub = s.row() ? 0 : problem->stub;
  Bounds all{far_away, -far_away};
  bool asks_former = false, asks_latter = false;
  for (const Target& t : former)
    for (const Target& u : latter) {
      // Of a fork one branch is looked at.
      const PagePoint a = t.points.front(), b = u.points.front();
      const double reach_a = s.reach_of(a) - stub, reach_b = s.reach_of(b) - stub;
      const double along_a = s.row() ? a.x : a.y, along_b = s.row() ? b.x : b.y;
      if (!(reach_a > 0) || !(reach_b > 0)) continue;  // no leader from here at all
      if (reach_a < 0.01 || reach_b < 0.01 || distance(a, b) < 1e-3) return {};
      if (std::abs(reach_a - reach_b) < 1e-6) {
        if (along_a > along_b + 1e-3) continue;  // they always cross
        return {};
      }
      const double meet = along_a - (along_b - along_a) / (reach_b - reach_a) * reach_a;
      const double slot = std::clamp((meet - place.from) / place.step, -1e8, 1e8);
      constexpr double hair = 1e-5;
      if (reach_a < reach_b) {
        asks_latter = true;
        all.from = std::min(
            all.from, static_cast<int>(loose ? std::floor(slot - hair) : std::ceil(slot - hair)));
      } else {
        asks_former = true;
        all.until = std::max(all.until, static_cast<int>(std::floor(slot + hair)));
      }
      if (asks_former && asks_latter) return {};
    }
  if (asks_latter) all.until = far_away;
  if (asks_former) all.from = -far_away;
  return all;
}

StrictRoute::StrictRoute(const RouteModel& model, const Thresholds& thresholds)
    : model_(model), thresholds_(thresholds) {
  recount();
}

void StrictRoute::recount() {
  span_.assign(model_.lines.size(), {});
  for (std::size_t k = 0; k < model_.lines.size(); ++k)
    for (const RouteModel::Entry& e : model_.lines[k].entries) {
      Span span{model_.lines[k].slots, -1};
      for (int s = 0; s < model_.lines[k].slots; ++s)
        if (e.cost[at(s)] < never) span.first = std::min(span.first, s), span.last = s;
      span_[k].push_back(span);
    }
}

double StrictRoute::own(std::size_t line, const RouteModel::Entry& e, int slot) const {
  return e.cost[at(slot)] - prices_.label[at(e.label)] - model_.lines[line].lean * prices_.lean;
}

double StrictRoute::bound(const RoutePrices& prices) {
  prices_ = prices;
  sum_ = 0;
  for (const double p : prices.label) sum_ += p;
  before_.resize(model_.lines.size());
  value_.resize(model_.lines.size());
  least_.resize(model_.lines.size());
  start_.assign(model_.lines.size(), never);
  double start = 0;
  std::vector<Two> next;  // [entry * shapes + shape]
  for (std::size_t k = 0; k < model_.lines.size(); ++k) {
    const RouteModel::Line& line = model_.lines[k];
    const std::size_t entries = line.entries.size(), shapes = at(line.shapes);
    auto& before = before_[k];
    auto& value = value_[k];
    auto& least = least_[k];
    for (auto* table : {&before, &value, &least}) {
      table->resize(entries);
      for (auto& row : *table) row.assign(at(line.slots), Two());
    }
    start_[k] = start;
    double end = start;
    std::vector<char> wanted(shapes);
    for (int t = 0; t < line.slots; ++t) {
      std::fill(wanted.begin(), wanted.end(), 0);
      for (std::size_t e = 0; e < entries; ++e)
        if (line.entries[e].cost[at(t)] < never) wanted[at(line.entries[e].shape)] = 1;
      // What each label offers to one of each shape here.
      next.assign(entries * shapes, Two());
      for (std::size_t e = 0; e < entries; ++e)
        for (std::size_t b = 0; b < shapes; ++b) {
          if (!wanted[b]) continue;
          const RouteModel::Pair& pair = line.pairs[at(line.entries[e].shape) * shapes + b];
          const int last = std::min(t - pair.nearest, span_[k][e].last);
          if (last < span_[k][e].first) continue;
          Two& two = next[e * shapes + b];
          const int many = static_cast<int>(pair.cost.size());
          const int level = t - pair.nearest - many;
          if (level >= span_[k][e].first) two.take(least[e][at(level)], pair.cost.back());
          for (int s = last; s > level && s >= span_[k][e].first; --s)
            two.take(value[e][at(s)], pair.cost[at(t - pair.nearest - s)]);
        }
      for (std::size_t f = 0; f < entries; ++f) {
        const RouteModel::Entry& to = line.entries[f];
        if (!(to.cost[at(t)] < never)) continue;
        Two two;
        two.take(start, -2, start);
        const std::size_t shape = at(to.shape);
        for (std::size_t e = 0; e < entries; ++e) {
          const Two& offer = next[e * shapes + shape];
          const RouteModel::Entry& from = line.entries[e];
          if (!(offer.best < two.other) || from.label == to.label) continue;
          const double group = model_.group_of[at(from.label)] == model_.group_of[at(to.label)]
                                   ? 0.0
                                   : model_.group_break;
          const double whole = offer.without(to.label) + group;
          if (!(whole < two.other)) continue;
          const Thresholds::Bounds& bounds =
              thresholds_.line[k][at(from.label) * thresholds_.labels + at(to.label)];
          if (t < bounds.from) continue;
          const RouteModel::Pair& pair = line.pairs[at(from.shape) * shapes + shape];
          if (bounds.until >= std::min(t - pair.nearest, span_[k][e].last)) {
            two.take(whole, from.label, never);
            continue;
          }
          // Its ports may lie no later than `until`.
          const int first = span_[k][e].first;
          if (bounds.until < first) continue;
          const int level = t - pair.nearest - static_cast<int>(pair.cost.size());
          double best = never;
          if (const int l = std::min(level, bounds.until); l >= first)
            best = least[e][at(l)].without(to.label) + pair.cost.back();
          for (int s = bounds.until; s > level && s >= first; --s)
            best = std::min(
                best, value[e][at(s)].without(to.label) + pair.cost[at(t - pair.nearest - s)]);
          two.take(best + group, from.label, never);
        }
        before[f][at(t)] = two;
        const double mine = own(k, to, t);
        value[f][at(t)] = {two.best + mine, two.label, two.other + mine};
        end = std::min(end, two.best + mine);
      }
      for (std::size_t e = 0; e < entries; ++e) {
        least[e][at(t)] = value[e][at(t)];
        if (t > 0) least[e][at(t)].take(least[e][at(t - 1)], 0);
      }
    }
    start = end;
  }
  end_ = start;
  return sum_ + end_;
}

void StrictRoute::meets(std::vector<int>& times, int& lean) const {
  times.assign(prices_.label.size(), 0);
  lean = 0;
  double rest = end_;
  for (std::size_t k = model_.lines.size(); k-- > 0;) {
    const RouteModel::Line& line = model_.lines[k];
    if (start_[k] <= rest) continue;
    const std::size_t entries = line.entries.size(), shapes = at(line.shapes);
    std::size_t entry = 0;
    int slot = -1, not_before = -1;
    double best = never;
    for (std::size_t e = 0; e < entries; ++e)
      for (int s = span_[k][e].first; s <= span_[k][e].last; ++s)
        if (value_[k][e][at(s)].best < best) best = value_[k][e][at(s)].best, entry = e, slot = s;
    while (slot >= 0) {
      const RouteModel::Entry& to = line.entries[entry];
      ++times[at(to.label)];
      lean -= line.lean;
      // Whose label came before: the best that is not the one behind.
      double least = start_[k];
      std::size_t next = 0;
      int at_slot = -1;
      for (std::size_t e = 0; e < entries; ++e) {
        const RouteModel::Entry& from = line.entries[e];
        if (from.label == to.label || from.label == not_before) continue;
        const Thresholds::Bounds& bounds =
            thresholds_.line[k][at(from.label) * thresholds_.labels + at(to.label)];
        if (slot < bounds.from) continue;
        const RouteModel::Pair& pair = line.pairs[at(from.shape) * shapes + at(to.shape)];
        const double group = model_.group_of[at(from.label)] == model_.group_of[at(to.label)]
                                 ? 0
                                 : model_.group_break;
        const int last = std::min({slot - pair.nearest, span_[k][e].last, bounds.until});
        for (int s = last; s >= span_[k][e].first; --s) {
          const int d = std::min(slot - pair.nearest - s, static_cast<int>(pair.cost.size()) - 1);
          const double v = value_[k][e][at(s)].without(to.label) + group + pair.cost[at(d)];
          if (v < least) least = v, next = e, at_slot = s;
        }
      }
      not_before = to.label;
      entry = next;
      slot = at_slot;
    }
    rest = start_[k];
  }
}

namespace {

// The same backwards: lines and slots in reverse, so that what comes before is
// what comes after.
RouteModel mirrored(const RouteModel& model) {
  RouteModel back = model;
  std::reverse(back.lines.begin(), back.lines.end());
  for (RouteModel::Line& line : back.lines) {
    for (RouteModel::Entry& e : line.entries) std::reverse(e.cost.begin(), e.cost.end());
    const std::vector<RouteModel::Pair> pairs = line.pairs;
    for (std::size_t a = 0; a < at(line.shapes); ++a)
      for (std::size_t b = 0; b < at(line.shapes); ++b)
        line.pairs[a * at(line.shapes) + b] = pairs[b * at(line.shapes) + a];
  }
  return back;
}

Thresholds mirrored(const RouteModel& model, const Thresholds& thresholds) {
  Thresholds back = thresholds;
  std::reverse(back.line.begin(), back.line.end());
  const std::size_t n = thresholds.labels;
  for (std::size_t k = 0; k < model.lines.size(); ++k) {
    const std::size_t original = model.lines.size() - 1 - k;
    const int last = model.lines[original].slots - 1;
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j) {
        const Thresholds::Bounds& b = thresholds.line[original][j * n + i];
        back.line[k][i * n + j] = {last - b.until, last - b.from};
      }
  }
  return back;
}

}  // namespace

BothWays::BothWays(const RouteModel& model, const Thresholds& thresholds)
    : model_(model),
      back_model_(mirrored(model)),
      thresholds_(thresholds),
      back_thresholds_(mirrored(model, thresholds)),
      ahead_(model_, thresholds_),
      back_(back_model_, back_thresholds_) {}

const Two& BothWays::after(std::size_t line, std::size_t entry, int slot) const {
  const std::size_t k = model_.lines.size() - 1 - line;
  return back_.before()[k][entry][at(model_.lines[line].slots - 1 - slot)];
}

double BothWays::rest_of(std::size_t line) const {
  return back_.start_of(model_.lines.size() - 1 - line);
}

void BothWays::thin(const RoutePrices& prices, double below) {
  ahead_.bound(prices);
  back_.bound(prices);
  for (std::size_t k = 0; k < model_.lines.size(); ++k) {
    RouteModel::Line& line = model_.lines[k];
    RouteModel::Line& back = back_model_.lines[model_.lines.size() - 1 - k];
    for (std::size_t e = 0; e < line.entries.size(); ++e)
      for (int s = 0; s < line.slots; ++s) {
        double& cost = line.entries[e].cost[at(s)];
        if (cost == never) continue;
        const double total = ahead_.price_sum() +
                             through(ahead_.before()[k][e][at(s)], after(k, e, s)) +
                             ahead_.own(k, line.entries[e], s);
        if (total < below) continue;
        cost = never;
        back.entries[e].cost[at(line.slots - 1 - s)] = never;
      }
  }
  ahead_.recount();
  back_.recount();
}

}  // namespace platewright::place
