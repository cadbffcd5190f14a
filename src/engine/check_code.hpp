// A short code printed on a worksheet and on its key, so that a teacher sees
// that they belong together.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "compose/plan.hpp"
#include "platewright/layout.hpp"

namespace platewright {

// Six characters from the words, their order and the layout to 0.01 mm: consonants
// and digits that are hard to misread and spell nothing.
std::string check_code(const Layout& layout, const std::string& set, const std::string& figure);

// The same for a review page: its kind, set, seed, terms with clues and groups, and figure.
std::string check_code(std::string_view kind, std::uint64_t seed, const std::string& set,
                       const std::vector<compose::StudyTerm>& terms, const std::string& figure);

}  // namespace platewright
