// A placement being worked on: which station and choice each label has, what it
// costs, and which pairs of labels break a rule.
#pragma once

#include <vector>

#include "place/candidates.hpp"

namespace platewright::place {

struct Seat {
  int station = -1;  // -1: not placed
  Choice choice;
};
using Draft = std::vector<Seat>;  // by label

// What one broken rule weighs in a heuristic search: more than any cost.
inline constexpr double broken = 1e4;

// Cheap order-preserving placement of the labels of one station in the given
// order: a chain dynamic program over slots, exact for that order and those
// variants and targets, with rules between neighbours only. False when the
// heights do not fit the slots.
bool chain(const Station& station, double fair, const std::vector<Choice>& order,
           std::vector<Choice>& placed);

// A draft from an assignment of labels to stations: chains in the order of the
// targets, neighbours whose leaders cross swapped until none do or `rounds` end.
Draft draft_from(const std::vector<Station>& stations, double fair,
                 const std::vector<int>& station_of, int rounds);

// The column of each row so that every row has a column of its own and the sum of
// `cost` (row by row) is least; rows <= columns. O(rows^2 columns).
std::vector<std::size_t> least_assignment(const std::vector<double>& cost, std::size_t rows,
                                          std::size_t columns);

// A draft in which all labels have the shortest leaders together over evenly
// spaced ports on all stations, then chains in that order. False when there are
// fewer ports than labels.
bool draft_by_matching(const std::vector<Station>& stations, const Offer& offer, double fair,
                       Draft& draft);

// Variants for a run: the cheapest for each label, then the ones that save most
// height for their penalty, until the run fits.
void fit_variants(const Station& station, std::vector<Choice>& order);

// Total cost, with `broken` for each pair and each label that breaks a rule and
// 10 * broken for each label not placed.
double draft_cost(const std::vector<Station>& stations, double fair, const Draft& draft);
int draft_faults(const std::vector<Station>& stations, const Draft& draft);

// Moves single labels to better places (any station, slot, variant, target) and
// swaps pairs, while that lowers draft_cost; `effort` bounds the places looked at. False when it
// ended them.
bool improve(const std::vector<Station>& stations, double fair, Draft& draft, long effort);

// Moves labels that break a rule, one at a time, to where broken rules weigh least,
// neighbours giving way; rules that stay broken grow heavier. Leaves the draft with
// the fewest faults seen; true when it has none. `effort` bounds the search, some
// 0.1 us each.
bool untangle(const std::vector<Station>& stations, Draft& draft, long effort);
// What is worth spending on so many labels, at most `most`: few are soon untangled, or never,
// and are searched exactly where they are not.
long patience_for(std::size_t labels, long most);

std::vector<Placement> placements_of(const std::vector<Station>& stations, const Draft& draft);

}  // namespace platewright::place
