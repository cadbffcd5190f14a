// A search through every place of every label, for what the quicker searches
// overlook: labels of two stations whose leaders go around each other, forks
// around a label, columns with one way to fill them.
#pragma once

#include "place/draft.hpp"

namespace platewright::place {

struct Backtracked {
  bool found = false;
  bool complete = false;  // nothing on these slots was left out: `draft` is the optimum, or there is none
  double cost = never;
  Draft draft;
};

// Depth first, the label with fewest places left next, its cheapest place first;
// places that break a rule with a chosen one are struck off (forward checking,
// Haralick and Elliott 1980), and branches whose cheapest places left cost more
// than the best known are cut. `checks` bounds the pairs of places compared.
Backtracked backtrack(const std::vector<Station>& stations, double fair, long checks);

}  // namespace platewright::place
