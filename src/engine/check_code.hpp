// A short code printed on a worksheet and on its key, so that a teacher sees
// that they belong together.
#pragma once

#include <string>

#include "platewright/layout.hpp"

namespace platewright {

// Six characters from the words, their order and the layout to 0.01 mm: consonants
// and digits that are hard to misread and spell nothing.
std::string check_code(const Layout& layout, const std::string& set, const std::string& figure);

}  // namespace platewright
