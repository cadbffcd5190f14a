// A lower bound on all stations together (route.hpp): the cheapest route on which
// neighbours' leaders do not cross and that never goes back to the label before the last.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "place/thresholds.hpp"

namespace platewright::place {

// Where places were left out of the model (Line::closed), a *shortcut* stands for them: from any
// place to any later one past whatever lies between, for as much as the cheapest place left out
// costs at least by the prices. Prices are lowered where that would be next to nothing.
class StrictRoute {
 public:
  StrictRoute(const RouteModel& model, const Thresholds& thresholds);

  double bound(const RoutePrices& prices);
  struct Met {
    int times = 0, slot = 0;  // the latest one
  };
  // Of the cheapest route: how often it meets each label (and, added up, on which line:
  // [line * labels + label]); how many more on the left than on the right.
  void meets(std::vector<int>& times, int& lean, std::vector<Met>* by_line = nullptr) const;
  // The value up to a place, the place itself left out.
  const Two& before(std::size_t line, std::size_t entry, int slot) const {
    static const Two nothing;
    const Span& span = span_[line][entry];
    if (slot < span.first || slot > span.last) return nothing;
    return tables_[line].before[where(span, slot)];
  }
  const Thresholds& thresholds() const { return thresholds_; }
  // As the last bound used them, and whose were lowered.
  const RoutePrices& prices() const { return prices_; }
  const std::vector<char>& lowered() const { return lowered_; }
  double start_of(std::size_t line) const { return start_[line]; }
  // Of all labels' prices, and the least that the balance costs beyond them.
  double price_sum() const { return sum_; }
  double own(std::size_t line, const RouteModel::Entry& e, int slot) const;
  // Places of the model were taken away.
  void recount();

 private:
  struct Span {
    int first = 0, last = -1;  // slots that are open
    std::size_t base = 0;      // of the first one in the line's tables
  };
  struct From {  // the least value at or before a slot, and where that is
    double value = never;
    std::size_t entry = 0;
    int slot = -1;
  };
  struct Shortcuts {
    double price = never;       // of one past places that were left out
    std::vector<From> any;      // [slot * groups + group]: of that group's places before it
    std::vector<From> retired;  // of labels whose last place lies far behind; gap included
  };
  // An entry with open places, as the program along a line wants it.
  struct Stretch {
    Span span;
    int entry = 0, label = 0, shape = 0, group = 0;
  };
  // By span.base + slot - span.first.
  struct Tables {
    std::vector<double> cost;        // of the place
    std::vector<double> value;       // of the cheapest route up to it
    std::vector<Two> before, least;  // the same without it; the least of its entry up to it
  };
  // What a line's labels ask of each other: [former * stretches + latter].
  // The former never comes before the latter: from = far_away.
  using Asks = std::vector<Thresholds::Bounds>;
  class Offers;
  static std::size_t where(const Span& span, int slot) {
    return span.base + static_cast<std::size_t>(slot - span.first);
  }
  // What a route through a place costs where the label before it is not this one.
  double without(std::size_t k, const RouteModel::Entry& e, std::size_t place, int label) const {
    const Tables& tables = tables_[k];
    if (label != tables.before[place].label) return tables.value[place];
    return tables.before[place].other + own(k, e, tables.cost[place]);
  }
  double own(std::size_t k, const RouteModel::Entry& e, double cost) const {
    return cost - prices_.label[static_cast<std::size_t>(e.label)] -
           model_.lines[k].lean * prices_.lean;
  }
  void line_bound(std::size_t k, double start);
  const From& last_of(std::size_t k) const;  // where the cheapest route leaves a line
  void lower_prices();

  const RouteModel& model_;
  const Thresholds& thresholds_;
  RoutePrices prices_;
  double sum_ = 0, end_ = never;
  std::vector<double> start_;
  std::vector<std::vector<Span>> span_;
  std::vector<std::vector<Stretch>> stretches_;  // in the order of their first slots
  std::vector<Asks> asks_;
  std::vector<Tables> tables_;
  std::vector<Shortcuts> shortcuts_;
  std::vector<char> lowered_;
};

}  // namespace platewright::place
