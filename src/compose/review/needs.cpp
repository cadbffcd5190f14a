// What kinds of review sheet need of the table, and what to say where it lacks.
#include <algorithm>
#include <map>

#include "base/quote.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

Result<std::vector<StudyTerm>> having(const SheetInput& input, std::string StudyTerm::*what,
                                      std::string_view name, std::string_view code,
                                      std::size_t least) {
  std::vector<StudyTerm> terms;
  std::vector<std::string_view> lacking;
  for (const StudyTerm& term : input.terms) {
    if ((term.*what).empty())
      lacking.push_back(term.anchor);
    else
      terms.push_back(term);
  }
  const std::size_t missing = lacking.size();
  constexpr std::size_t most_named = 6;
  if (lacking.size() > most_named) lacking.resize(most_named);
  const std::string message =
      std::to_string(missing) + " of " + std::to_string(input.terms.size()) + " terms have no " +
      std::string(name) + (missing > 0 ? ": " + listed(lacking) : "") +
      (missing > most_named ? " and others" : "");
  if (terms.size() < least)
    return error(std::string(code), {input.table, 0, 0},
                 missing > 0 ? message
                             : "the label set has " + std::to_string(terms.size()) +
                                   " terms, fewer than " + std::to_string(least),
                 missing > 0 ? "add " + std::string(name) + ": to their rows; this kind of sheet needs " +
                                   std::to_string(least)
                             : "fill in more of its column");
  Findings warnings;
  if (missing > 0)
    warnings.push_back(warning(std::string(code), {input.table, 0, 0}, message,
                               "add " + std::string(name) + ": to their rows; they are left out"));
  return {std::move(terms), std::move(warnings)};
}

}  // namespace

Result<std::vector<StudyTerm>> with_clues(const SheetInput& input, std::size_t least) {
  return having(input, &StudyTerm::clue, "clue", "clues-missing", least);
}

Result<std::vector<StudyTerm>> with_groups(const SheetInput& input, std::size_t least) {
  return having(input, &StudyTerm::group, "group", "groups-missing", least);
}

Findings enough_terms(const SheetInput& input, std::size_t least, std::string_view kind) {
  if (input.terms.size() >= least) return {};
  return {error("terms-few", {input.table, 0, 0},
                std::string(kind) + " needs " + std::to_string(least) +
                    " terms at least; the label set has " + std::to_string(input.terms.size()),
                "fill in more of its column, or choose another kind")};
}

std::vector<TermGroup> grouped(const std::vector<StudyTerm>& terms) {
  std::map<std::string, std::vector<StudyTerm>> by_name;
  for (const StudyTerm& term : terms) by_name[term.group].push_back(term);
  std::vector<TermGroup> groups;
  for (auto& [name, members] : by_name) groups.push_back({name, std::move(members)});
  return groups;
}

}  // namespace platewright::compose
