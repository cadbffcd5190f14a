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
  void meets(std::vector<int>& times, int& lean) const;
  // The value up to a place, the place itself left out.
  const Two& before(std::size_t line, std::size_t entry, int slot) const {
    static const Two nothing;
    const Span& span = span_[line][entry];
    if (slot < span.first || slot > span.last) return nothing;
    return before_[line][span.base + static_cast<std::size_t>(slot - span.first)];
  }
  const Thresholds& thresholds() const { return thresholds_; }
  // As the last bound used them, and whose were lowered.
  const RoutePrices& prices() const { return prices_; }
  const std::vector<char>& lowered() const { return lowered_; }
  double start_of(std::size_t line) const { return start_[line]; }
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
  const Two& look(const std::vector<Two>& table, const Span& span, int slot) const {
    return table[span.base + static_cast<std::size_t>(slot - span.first)];
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
  std::vector<std::vector<std::size_t>> by_first_;  // entries in the order of their first slots
  std::vector<std::vector<Two>> before_, value_, least_;  // [line][span.base + slot - span.first]
  std::vector<Shortcuts> shortcuts_;
  std::vector<char> lowered_;
};

}  // namespace platewright::place
