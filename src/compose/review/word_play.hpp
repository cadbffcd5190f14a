// Words taken apart: scrambled letters and letters left out. Pure.
#pragma once

#include <vector>

#include "base/random.hpp"
#include "compose/review/word_search.hpp"

namespace platewright::compose {

// True when one of `unwanted` stands in the letters.
bool spells(const Spelling& letters, const std::vector<Spelling>& unwanted);

// The letters in another order, never the word itself, none of `words` and nothing
// unwanted; a word whose letters have no other order stays as it is.
Spelling scrambled(const Spelling& word, const std::vector<Spelling>& words,
                   const std::vector<Spelling>& unwanted, Random& random);

// Which letters of a word are left out: `percent` of them, at least one and never all;
// the first stays, and no three in a row go while others may.
std::vector<bool> gaps(std::size_t letters, int percent, Random& random);

}  // namespace platewright::compose
