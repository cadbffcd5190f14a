// The hard rules as the solver asks for them: pair by pair, on the slot grid
// and off it. `verify` states the same rules again on its own.
#pragma once

#include <cstddef>
#include <vector>

#include "place/leader.hpp"
#include "place/problem.hpp"

namespace platewright::place {

// A leader keeps this far off a foreign label's box, mm.
inline constexpr double leader_to_box = 0.5;
// The solver keeps this much more than each rule asks, so that rounding never
// breaks one.
inline constexpr double slack = 1e-7;

// A label as placed: what the rules need to know.
struct Placed {
  int label = 0;
  Side side = Side::left;
  PageBox box;
  PagePoint port;
  const Target* target = nullptr;
  PageBox leader{};  // around all branches, for quick answers
};
Placed make_placed(int label, Side side, const PageBox& box, PagePoint port, const Target& target);

// How far apart two labels' leaders and anchors must keep. Where the targets of
// two labels cannot lie twice a rule's distance apart, the rule asks for half
// of what they can: leaders to nearly coincident anchors must get close.
struct Rulebook {
  explicit Rulebook(const Problem& problem);
  const Problem* problem;
  std::size_t n;
  std::vector<double> separation;  // n x n, mm, most that targets of the pair can lie apart
  double apart(int a, int b) const {
    return separation[static_cast<std::size_t>(a) * n + static_cast<std::size_t>(b)];
  }
  double leader_gap(int a, int b) const;
  double anchor_gap(int a, int b) const;
};

// No leader runs over an obstacle, but to a target in it.
bool clear_of_obstacles(const Problem& problem, const Placed& self);

// Rules of one label by itself: inside its column or row, off the obstacles,
// its target on the far side of the port.
bool stands(const Rulebook& rules, const Placement& placement, int label);
// Rules between two labels.
bool compatible(const Rulebook& rules, const Placed& a, const Placed& b);
// Rules between a's leader and one point of b's target.
bool passes(const Rulebook& rules, const Placed& a, int other, PagePoint point);

Placed placed(const Problem& problem, const Placement& placement, int label);
// The box that a variant takes with its port at `port`.
PageBox box_at(Side side, const Variant& variant, PagePoint port);

}  // namespace platewright::place
