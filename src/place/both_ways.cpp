#include "place/both_ways.hpp"

#include <algorithm>

#include "base/at.hpp"

namespace platewright::place {
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
  return back_.before(k, entry, model_.lines[line].slots - 1 - slot);
}

double BothWays::rest_of(std::size_t line) const {
  return back_.start_of(model_.lines.size() - 1 - line);
}

void BothWays::thin(const RoutePrices& prices, double below) {
  ahead_.bound(prices);
  back_.bound(prices);
  leave_below(below);
}

double BothWays::thin_beyond(const RoutePrices& prices, double more) {
  const double bound = ahead_.bound(prices);
  back_.bound(prices);
  leave_below(bound + more);
  return bound;
}

void BothWays::leave_below(double below) {
  for (std::size_t k = 0; k < model_.lines.size(); ++k) {
    RouteModel::Line& line = model_.lines[k];
    RouteModel::Line& back = back_model_.lines[model_.lines.size() - 1 - k];
    for (std::size_t e = 0; e < line.entries.size(); ++e)
      for (int s = 0; s < line.slots; ++s) {
        double& cost = line.entries[e].cost[at(s)];
        if (cost == never) continue;
        const double total = ahead_.price_sum() +
                             through(ahead_.before(k, e, s), after(k, e, s)) +
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
