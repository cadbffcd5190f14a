// A station is a column or a row with its slots: where a port may lie, which
// leaders from there keep every rule that does not depend on other labels'
// choices, and what each costs.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "place/rulebook.hpp"

namespace platewright::place {

inline constexpr double never = std::numeric_limits<double>::infinity();

// For each label the targets offered (indices into Label::targets).
using Offer = std::vector<std::vector<int>>;
Offer all_targets(const Problem& problem);

struct StationLabel {
  std::vector<int> targets;    // offered and reachable from here at all
  std::vector<double> reach;   // for each: distance of its farthest point from the station's line
  std::vector<double> lines;   // [k * slots + slot] cost without the variant's penalty, or never
  std::vector<double> blocks;  // the least of each `lines_in_block` of `lines`
  std::vector<double> least;   // [slot] over targets, with the cheapest variant that fits
  std::vector<int> variants;   // that fit the station
  double least_extent = 0;     // shortest of them along the station
  double least_total = never;  // over slots
};

// Fills in `blocks`.
inline constexpr std::size_t lines_in_block = 32;
void note_blocks(StationLabel& label);

struct Station {
  const Rulebook* rules = nullptr;
  Side side = Side::left;
  int index = 0;    // into Problem::columns or rows
  double line = 0;  // x of a column, y of a row
  double from = 0;  // along the station: first slot, and end
  double to = 0;
  double across = 0;  // width of a column, height of a row
  double step = 1;
  int slots = 0;
  std::vector<StationLabel> labels;  // by problem label

  bool row() const { return side == Side::top || side == Side::bottom; }
  double along(int slot) const { return from + step * slot; }
  PagePoint port(int slot) const {
    return row() ? PagePoint{along(slot), line} : PagePoint{line, along(slot)};
  }
  // How far a box reaches before and after its port along the station.
  double before(int label, int variant) const;
  double after(int label, int variant) const;
  double reach_of(PagePoint p) const {
    switch (side) {
      case Side::left:
        return p.x - line;
      case Side::right:
        return line - p.x;
      case Side::top:
        return p.y - line;
      default:
        return line - p.y;
    }
  }
  double start(const PageBox& b) const { return row() ? b.left() : b.top(); }
  double end(const PageBox& b) const { return row() ? b.right() : b.bottom(); }
};

// One way to place one label on one station. `target` indexes Label::targets.
struct Choice {
  int label = 0;
  int variant = 0;
  int target = 0;
  int slot = 0;
};

// Leaders that cost more than `most` of their label are left out (empty: none
// are): an exact reduction where a placement is known that is that good.
// Columns first, then rows, in the problem's order. `to_first_homeless`: labels after the
// first that has no place anywhere are not looked at, since nothing can be placed then.
// `known`: what leaders cost there is not reckoned again.
struct KnownStations {  // of the same problem and step, or none
  std::span<const Station> stations = {};
  bool whole = false;  // the same targets on offer, and no less of `most`
};
std::vector<Station> make_stations(const Rulebook& rules, double step, const Offer& offer,
                                   const std::vector<double>& most = {},
                                   bool to_first_homeless = false, const KnownStations& known = {});
// Lower bound on what a label costs anywhere on the stations' lines, detail left out.
std::vector<double> least_costs(const Problem& problem);

Placement placement_of(const Station& station, const Choice& choice);
// Box inside the station and off the obstacles.
bool box_fits(const Station& station, int label, int variant, int slot);
// Cost of a choice by itself; never when it breaks a rule.
double choice_cost(const Station& station, const Choice& choice);

}  // namespace platewright::place
