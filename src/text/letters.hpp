// Words as puzzles spell them: one capital a square.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace platewright::text {

// The letters of `text`, each with its marks, as capitals of the language (ß becomes
// SS); digits count, all else is left out. `fold_accents`: base letters only.
std::vector<std::string> capitals(std::string_view text, std::string_view language,
                                  bool fold_accents = false);

}  // namespace platewright::text
