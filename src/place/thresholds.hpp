// What the order of two labels on one line asks of their ports, so that straight leaders
// do not cross.
//
// Of two labels, i before j on one line, let the line through their targets meet
// the ports' line at y*. Their leaders cross just when i's target is the
// nearer one and j's port lies before y*, or j's is and i's port lies behind it.
// So each order of two labels asks something of one port only.
#pragma once

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

}  // namespace platewright::place
