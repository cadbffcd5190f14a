// Which labels go to which column or row: assignments worth trying, before any
// slot is chosen.
#pragma once

#include <vector>

#include "place/candidates.hpp"

namespace platewright::place {

// An assignment of labels to stations with what it costs at least.
struct Assignment {
  std::vector<int> station_of;
  double least = never;  // sum of cheapest places: a bound where nothing is overfull
  double guess = never;  // with the crowding of each station
  int cut = -1;
};

// For each label the one target that some station reaches most cheaply.
Offer best_targets(const Problem& problem);

// Every split of the labels by a vertical line, most promising first; columns
// that are too full hand labels on to where they lose least; each assignment once.
// With columns on one side only: that assignment.
std::vector<Assignment> splits(const std::vector<Station>& stations, const Offer& offer);

}  // namespace platewright::place
