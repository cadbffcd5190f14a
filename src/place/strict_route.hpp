// The bound of route.hpp, made sharper label by label: neighbours' leaders do not
// cross, and no route goes back to the label before the last.
//
// Of two labels, i before j on one line, let the line through their targets meet
// the ports' line at y*. Their straight leaders cross just when i's target is the
// nearer one and j's port lies before y*, or j's is and i's port lies behind it.
// So each order of two labels asks something of one port only.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "place/route.hpp"

namespace platewright::place {

// By order of two labels: where the port of one of them may lie.
struct Thresholds {
  static constexpr int far_away = 1 << 28;
  struct Bounds {
    int from = -far_away;  // least slot of the latter label
    int until = far_away;  // last slot of the former
  };
  // `loose_ports`: ports may lie anywhere in their slots, not just at their starts.
  // `step` by line, mm.
  Thresholds(const Problem& given, const RouteModel& model, const std::vector<double>& step,
             bool loose_ports);
  // What every choice among these targets asks.
  Bounds between(std::size_t k, std::span<const Target> former,
                 std::span<const Target> latter) const;
  const Bounds& at(std::size_t k, int former, int latter) const {
    return line[k][static_cast<std::size_t>(former) * labels + static_cast<std::size_t>(latter)];
  }

  struct Place {
    Side side = Side::left;
    double edge = 0, from = 0, step = 1;
  };
  const Problem* problem;
  std::size_t labels;
  bool loose;
  std::vector<Place> places;
  std::vector<std::vector<Bounds>> line;  // [line][former * labels + latter]
};

class StrictRoute {
 public:
  StrictRoute(const RouteModel& model, const Thresholds& thresholds);

  double bound(const RoutePrices& prices);
  void meets(std::vector<int>& times, int& lean) const;
  // Values up to each place, the place itself left out: [line][entry][slot].
  const std::vector<std::vector<std::vector<Two>>>& before() const { return before_; }
  const Thresholds& thresholds() const { return thresholds_; }
  double start_of(std::size_t line) const { return start_[line]; }
  double price_sum() const { return sum_; }
  double own(std::size_t line, const RouteModel::Entry& e, int slot) const;
  // Places of the model were taken away.
  void recount();

 private:
  struct Span {
    int first = 0, last = -1;  // slots that are open
  };
  const RouteModel& model_;
  const Thresholds& thresholds_;
  RoutePrices prices_;
  double sum_ = 0, end_ = never;
  std::vector<double> start_;
  std::vector<std::vector<Span>> span_;
  std::vector<std::vector<std::vector<Two>>> before_, value_, least_;
};

// A model with its routes forwards and backwards, which know together what each
// place costs at least.
class BothWays {
 public:
  BothWays(const RouteModel& model, const Thresholds& thresholds);
  BothWays(const BothWays&) = delete;
  BothWays& operator=(const BothWays&) = delete;

  double bound(const RoutePrices& prices) { return ahead_.bound(prices); }
  void meets(std::vector<int>& times, int& lean) const { ahead_.meets(times, lean); }
  // Takes away the places of which no route by these prices costs less than `below`.
  void thin(const RoutePrices& prices, double below);

  const RouteModel& model() const { return model_; }
  const StrictRoute& ahead() const { return ahead_; }
  // Routes from a place on, after `look_back`.
  const Two& after(std::size_t line, std::size_t entry, int slot) const;
  double rest_of(std::size_t line) const;
  void look_back(const RoutePrices& prices) { back_.bound(prices); }

 private:
  RouteModel model_, back_model_;
  Thresholds thresholds_, back_thresholds_;
  StrictRoute ahead_, back_;
};

// The least of routes through a place, the place left out: no label is met right
// before and right after it.
inline double through(const Two& before, const Two& after) {
  if (before.label < 0 || before.label != after.label) return before.best + after.best;
  return std::min(before.best + after.other, before.other + after.best);
}

}  // namespace platewright::place
