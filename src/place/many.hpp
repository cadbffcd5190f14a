// More labels than one exact search can hold: prices of all labels tell windows
// where to look, and what windows find makes the prices better, in turn; in the end the
// prices give the bound. Deterministic; effort is counted, not clocked.
#pragma once

#include "place/draft.hpp"
#include "place/prove.hpp"

namespace platewright::place {

// `draft` keeps every rule and costs `cost`; the answer has what was found if it is better.
// `nodes`: see Effort.
Proof improve_many(const std::vector<Station>& stations, double fair, const Draft& draft,
                   double cost, long nodes);

}  // namespace platewright::place
