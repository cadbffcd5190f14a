// From one station to all: which labels go to which column or row.
#pragma once

#include <memory>
#include <string>

#include "place/draft.hpp"
#include "place/place.hpp"
#include "place/route.hpp"

namespace platewright::place {

struct GridAnswer {
  bool found = false;
  std::vector<Placement> placements;  // not found: the best that breaks rules, or none
  double cost = never;
  double bound = 0;      // proven for the whole model on this grid: all assignments
  RoutePrices prices;    // of labels, that gave the bound
  std::string witness;   // when not found
  bool certain = false;  // not found, and no placement exists on this grid
  double step = 0;       // of the grid; 0: between the slots
  bool settled = false;  // see Start
  std::shared_ptr<const Reckoned> reckoned = nullptr;
};

struct Reckoned {
  double step = 0;
  std::vector<Station> first, all;  // with each label's best target on offer, and with all
  double cost = never;              // `all` has what a placement cheaper than this can use
};

// The best placement on the grid of this step: the proof over all stations (prove.hpp), for more
// labels windows and prices (many.hpp); where the proof ends early, windows, and splits of the
// labels by a vertical line, each side exact; up to 12 labels on two columns: every assignment.
// `start`: of the same problem on some grid, too. `known`: likewise, or null.
GridAnswer solve_grid(const Rulebook& rules, double step, const Effort& effort,
                      const Start& start = {}, const Reckoned* known = nullptr);

// The problem's slot, made longer where a column would have too many of them, and then so that
// labels' boxes stack with little room lost to rounding.
double slot_of(const Problem& problem);
// The slot to give a problem: its own, or a longer one where that is so short against its columns
// and its labels, as on large papers, that longer ones find the same in less time.
double slot_on_page(const Problem& problem);
// About how long the cells of a bound off the grid should be; see cells.hpp.
double cell_of(const Problem& problem);

// A quick placement by chains and moves only, for searches over many figures'
// sizes: every rule holds, the cost is not the least. `patience` bounds what is spent
// on untangling leaders (see draft.hpp).
GridAnswer quick_grid(const Rulebook& rules, double step, long patience = 1'000'000);

}  // namespace platewright::place
