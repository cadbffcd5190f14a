// Emphasis in running text: *leaning* and **heavy** words, as many plain-text conventions have it.
#pragma once

#include <string>
#include <vector>

#include "platewright/page_text.hpp"

namespace platewright::read {

// Takes the asterisks that enclose words out of a text and says what stood within. One that
// encloses nothing (2 * 3) stays, as does one after a backslash, which is taken away.
std::vector<Emphasis> take_emphasis(std::string& text);

}  // namespace platewright::read
