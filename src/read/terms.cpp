#include <algorithm>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "read/encoding.hpp"
#include "read/read.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

bool ends_in_csv(std::string_view path) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  if (path.size() < 4) return false;
  std::string ending(path.substr(path.size() - 4));
  std::transform(ending.begin(), ending.end(), ending.begin(), small);
  return ending == ".csv" || ending == ".tsv";
}

void give_properties(Terms& terms, const std::vector<LabelSet>& given, bool csv, Reading& reading) {
  for (LabelSet& set : terms.sets) {
    const auto named = std::find_if(given.begin(), given.end(),
                                    [&](const LabelSet& g) { return g.name == set.name; });
    const auto for_all =
        std::find_if(given.begin(), given.end(), [](const LabelSet& g) { return g.name.empty(); });
    const auto found = named != given.end() ? named : csv ? for_all : given.end();
    if (found != given.end()) {
      set.youngest = found->youngest;
      set.oldest = found->oldest;
      set.language = found->language;
    } else if (csv) {
      reading.add(warning("set-properties", set.declared,
                          "set " + in_quotes(set.name) +
                              " has no ages and language; ages 7-10 and language en are taken",
                          "give --ages 7-10 --language en, or sets: {" + set.name +
                              ": {ages: 7-10, language: en}} in a style"));
    }
  }
}

// A set that labels nothing is most often a misspelt one; a term that no set
// labels is one only while others are labelled (a fresh starter file has none).
void check_used(const Terms& terms, Reading& reading) {
  bool any_label = false;
  for (const LabelSet& set : terms.sets) {
    const bool used = std::any_of(terms.terms.begin(), terms.terms.end(),
                                  [&](const Term& t) { return t.cells.contains(set.name); });
    any_label = any_label || used;
    if (!used && !terms.terms.empty())
      reading.add(warning("set-empty", set.declared,
                          "set " + in_quotes(set.name) + " labels nothing",
                          "fill in its texts or remove it"));
  }
  if (!any_label) return;
  for (const Term& term : terms.terms)
    if (term.cells.empty())
      reading.add(warning("term-empty", term.declared,
                          "term " + in_quotes(term.anchor) + " is labelled in no set",
                          "give it a text or remove it"));
}

}  // namespace

Result<Terms> terms(std::string_view bytes, const std::string& path,
                    const std::vector<LabelSet>& sets, const Limits& limits) {
  const Result<std::string> text = text_from(bytes, path);
  if (!text) return text.findings();
  Reading reading{path, {}};
  const bool csv = ends_in_csv(path);
  Terms table =
      csv ? terms_from_csv(*text, reading, limits) : terms_from_yaml(*text, sets, reading, limits);
  table.file = path;
  if (table.terms.size() > limits.terms)
    reading.error({}, "terms-many",
                  "there are " + std::to_string(table.terms.size()) + " terms, more than " +
                      std::to_string(limits.terms),
                  "split the file");
  if (!has_error(reading.findings)) {
    give_properties(table, sets, csv, reading);
    check_used(table, reading);
  }
  Findings findings = sorted(std::move(reading.findings));
  if (has_error(findings)) return findings;
  return {std::move(table), std::move(findings)};
}

}  // namespace platewright::read
