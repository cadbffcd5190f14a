// The kinds of review sheet and game, one function each. Findings that they share:
// `terms-few`, `clues-missing`, `groups-missing` (errors where too little is left, else warnings).
#pragma once

#include "compose/plan.hpp"
#include "platewright/result.hpp"

namespace platewright::compose {

Result<ComposedSheet> paste(const SheetInput& input);
Result<ComposedSheet> matching(const SheetInput& input);
Result<ComposedSheet> locate(const SheetInput& input);
Result<ComposedSheet> sort_groups(const SheetInput& input);
Result<ComposedSheet> odd_one_out(const SheetInput& input);
Result<ComposedSheet> true_or_false(const SheetInput& input);
Result<ComposedSheet> fill_in(const SheetInput& input);
Result<ComposedSheet> word_search_sheet(const SheetInput& input);
Result<ComposedSheet> criss_cross_sheet(const SheetInput& input);
Result<ComposedSheet> scramble(const SheetInput& input);
Result<ComposedSheet> missing_letters(const SheetInput& input);
Result<ComposedSheet> maze_sheet(const SheetInput& input);
Result<ComposedSheet> cards(const SheetInput& input);
Result<ComposedSheet> memory(const SheetInput& input);
Result<ComposedSheet> bingo(const SheetInput& input);
Result<ComposedSheet> quiz(const SheetInput& input);
Result<ComposedSheet> track(const SheetInput& input);
Result<ComposedSheet> mat(const SheetInput& input);

// The terms that have a clue (a group), at least `least` of them.
Result<std::vector<StudyTerm>> with_clues(const SheetInput& input, std::size_t least);
Result<std::vector<StudyTerm>> with_groups(const SheetInput& input, std::size_t least);
// Error `terms-few` unless the set has at least `least` terms.
Findings enough_terms(const SheetInput& input, std::size_t least, std::string_view kind);

// Groups in the order of their names, each with its terms.
struct TermGroup {
  std::string name;
  std::vector<StudyTerm> terms;
};
std::vector<TermGroup> grouped(const std::vector<StudyTerm>& terms);

}  // namespace platewright::compose
