// Whether labels have any placement at all on these slots: a search through every place of
// every label, for what the quicker searches overlook (labels of two stations whose leaders go
// around each other, forks around a label, columns with one way to fill them), and to say soon
// that there is none.
#pragma once

#include "place/draft.hpp"

namespace platewright::place {

struct Backtracked {
  bool found = false;
  bool complete = false;  // nothing was left out: `draft` is a placement, or there is none
  Draft draft;            // the first that was found, of cheap places
};

// Depth first, each label's cheapest place first; places that break a rule with a chosen one are
// struck off (forward checking, Haralick and Elliott 1980). Next comes the label with fewest
// places left for the trouble it made so far, and the search begins anew now and then, so that
// it soon turns to the few labels that cannot stand together (dom/wdeg, Boussemart, Hemery,
// Lecoutre, Sais 2004). `checks` bounds the pairs of places compared.
Backtracked backtrack(const std::vector<Station>& stations, long checks);

}  // namespace platewright::place
