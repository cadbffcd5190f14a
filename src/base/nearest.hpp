// What somebody may have meant: the known names nearest to a misspelt one.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/did_you_mean.hpp"

namespace platewright {

// Fewest insertions, deletions, substitutions and swaps of neighbours that turn
// one into the other (optimal string alignment; Damerau 1964), in bytes,
// capital letters A-Z counting as small ones.
std::size_t edit_distance(std::string_view a, std::string_view b);

// At most `most` of the known names, nearest first (ties in the order given),
// none farther than a third of the name's length (at least 1, at most 3).
std::vector<std::string_view> nearest(std::string_view name,
                                      std::span<const std::string_view> known,
                                      std::size_t most = 3);

}  // namespace platewright
