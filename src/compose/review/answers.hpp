// Terms as letter puzzles ask for them: spelt in capitals, without what stands in brackets.
#pragma once

#include <string>
#include <vector>

#include "compose/review/flow.hpp"
#include "compose/review/word_search.hpp"

namespace platewright::compose {

struct Answer {
  Spelling letters;              // of all its words, joined
  std::vector<std::size_t> lengths;  // letters of each word: LEFT LUNG is 4, 4
  std::string shown;             // capitals with spaces between words
  StudyTerm term;
};

Spelling spelt(const SheetInput& input, std::string_view text);
// The whole term.
Answer answer_of(const SheetInput& input, const StudyTerm& term);
std::vector<Spelling> unwanted_of(const SheetInput& input);

// At most `most` answers of `shortest` to `longest` letters of which none hides another: whole
// terms in their order, then, where these are too few, one word each of those that are too long
// or, where `single_words` are asked, of more than one.
std::vector<Answer> separate_answers(const SheetInput& input, const std::vector<StudyTerm>& terms,
                                     std::size_t shortest, std::size_t longest, std::size_t most,
                                     bool single_words);

}  // namespace platewright::compose
