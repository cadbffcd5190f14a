// The slot model of label placement, written a second time from the published
// headers (problem.hpp, place.hpp, verify.hpp, cost.hpp, leader.hpp) and what
// defines the cost and a leader (cost.cpp, detail.cpp, leader.cpp), WITHOUT SIGHT
// OF THE SOLVER or of verify.cpp. Outside references in this folder stand
// on it: none of its geometry, cost or enumeration is shared with src/place.
//
// The grid. problem.hpp calls `slot` the "grid step for ports, mm" and says no
// more; seen from outside, and checked by `Grid.Ports_lie_on_whole_slots_from_the_top`:
//   columns: port y = column.top + k * slot, k = 0, 1, ..., box inside [top, bottom]
//   rows:    port x = row.left + k * slot,   k = 0, 1, ..., box inside [left, right]
//
// Hard rules that the headers leave open, as place::verify applies them, seen
// from outside: a leader keeps 0.5 mm from foreign label boxes whatever the
// rules say; boxes and leaders may touch an obstacle's edge; only chosen targets
// count; where two labels' targets lie nearer than 2 mm, whichever targets are
// chosen, leader_gap and anchor_gap shrink to half that distance (0 for a shared end).
#pragma once

#include <cstddef>
#include <vector>

#include "place/problem.hpp"
#include "stroke.hpp"

namespace platewright::oracle {

inline constexpr double leader_label_clear = 0.5;  // mm
inline constexpr double tolerance = 1e-6;          // mm, as verify.hpp states

// One way to place one label. `line` numbers columns first, then rows.
struct Option {
  place::Placement placement;
  std::size_t line = 0;
  std::size_t label = 0;
  std::vector<Stroke> strokes;  // the leader: stub and branches
  std::vector<PagePoint> ends;  // its target points
  double own_cost = 0;          // cost terms of this label alone
};

Option option_of(const place::Problem& problem, std::size_t label, const place::Placement& placement);

// All options of a label on the slot grid that keep the rules by themselves.
std::vector<Option> options(const place::Problem& problem, std::size_t label);
std::vector<std::vector<Option>> options(const place::Problem& problem);

// Rules for one label alone, and between two labels; `slack` in mm is how far a
// rule may be missed.
bool stands_alone(const place::Problem& problem, const Option& option, double slack = tolerance);
bool compatible(const place::Problem& problem, const Option& a, const Option& b,
                double slack = tolerance);

// The cost of a neighbouring pair on one line, upper (or left) one first.
double pair_cost(const place::Problem& problem, std::size_t label_a, const Option& a,
                 std::size_t label_b, const Option& b);
// Extent along its line, mm.
double start_of(const Option& option);
double end_of(const Option& option);

// Published cost of a whole placement; chosen[i] belongs to label i.
double total_cost(const place::Problem& problem, const std::vector<const Option*>& chosen);
double total_cost(const place::Problem& problem, const std::vector<place::Placement>& placements);
double wished_gap(const place::Problem& problem);

// How far apart two labels' targets can be had, mm (0: a shared end).
double ends_apart(const place::Problem& problem, std::size_t label_a, std::size_t label_b);

}  // namespace platewright::oracle
