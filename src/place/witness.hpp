// Why no placement was found, in words.
#pragma once

#include <string>
#include <vector>

#include "place/candidates.hpp"

namespace platewright::place {

// The first label that has no place on any of them; -1: none.
int homeless(const std::vector<Station>& stations);

// Heights against room, or a label that no place takes. `certain`: no placement exists.
std::string witness(const std::vector<Station>& stations, bool& certain);

// The labels' least extents, rounded up to slots, are more than columns and rows hold.
bool overfull(const Problem& problem, double step, std::string& witness);

}  // namespace platewright::place
