#include <algorithm>
#include <array>
#include <utility>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/language.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {
namespace {

constexpr int oldest_reader = 120;
constexpr std::size_t most_sets = 64;
constexpr std::array<std::string_view, 6> own_columns = {
    "anchor", "clue", "group", "pronunciation", "side", "inside"};

bool is_own_column(std::string_view name) {
  return std::find(own_columns.begin(), own_columns.end(), name) != own_columns.end();
}

using Ages = std::pair<int, int>;

// "4-6", "4–6", "8", "14+".
std::optional<Ages> ages_of_text(std::string_view text) {
  const auto years = [](std::string_view t) { return parse_integer(trimmed(t)); };
  if (const auto one = years(text)) return Ages{*one, *one};
  if (text.ends_with('+')) {
    const auto from = years(text.substr(0, text.size() - 1));
    return from ? std::optional(Ages{*from, 99}) : std::nullopt;
  }
  for (const std::string_view dash : {"-", "–"}) {
    const std::size_t at = text.find(dash);
    if (at == std::string_view::npos) continue;
    const auto from = years(text.substr(0, at));
    const auto to = years(text.substr(at + dash.size()));
    if (from && to) return Ages{*from, *to};
  }
  return std::nullopt;
}

std::optional<Ages> read_ages(const YamlNode& node, Reading& reading) {
  std::optional<Ages> ages;
  std::string written = "this";
  if (node.is_scalar()) {
    written = in_quotes(node.text);
    ages = ages_of_text(trimmed(node.text));
  } else if (node.is_list() && node.items.size() == 2) {
    const auto from = parse_integer(node.items[0].text);
    const auto to = parse_integer(node.items[1].text);
    if (from && to) ages = Ages{*from, *to};
  }
  const bool good =
      ages && ages->first >= 0 && ages->first <= ages->second && ages->second <= oldest_reader;
  if (good) return ages;
  reading.error(node.place, "set-ages", written + " is not a span of ages from 0 to 120",
                "write ages as 7-10, 8 or 14+");
  return std::nullopt;
}

std::optional<std::string> read_language(const YamlNode& node, Reading& reading) {
  if (node.is_scalar())
    if (auto tag = language_tag(node.text)) return tag;
  const bool underscore = node.text.find('_') != std::string::npos;
  reading.error(
      node.place, "set-language", in_quotes(node.text) + " is not a language tag (BCP 47)",
      underscore ? "write a hyphen, such as en-GB" : "write a code such as en, de or pt-BR");
  return std::nullopt;
}

}  // namespace

void check_set_count(std::vector<LabelSet>& sets, Place place, Reading& reading) {
  if (sets.size() <= most_sets) return;
  reading.error(
      place, "sets-many",
      "there are " + std::to_string(sets.size()) + " sets, more than " + std::to_string(most_sets),
      "split the file");
  sets.resize(most_sets);
}

bool check_set_name(std::string_view name, Place place, Reading& reading) {
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || static_cast<unsigned char>(c) >= 0x80;
  };
  if (is_own_column(name)) {
    reading.error(place, "set-name",
                  "a set is called " + in_quotes(name) + ", which is a column of the table itself",
                  "rename the set");
    return false;
  }
  if (name.empty() || name.size() > 60 || !std::all_of(name.begin(), name.end(), allowed)) {
    reading.error(place, "set-name", in_quotes(name) + " is not a name for a set",
                  "use letters, digits, \"-\" and \"_\", at most 60");
    return false;
  }
  return true;
}

std::vector<LabelSet> read_sets(const YamlNode& node, const std::vector<LabelSet>& given,
                                Reading& reading) {
  std::vector<LabelSet> sets;
  const auto read_set = [&](const YamlNode& key, const YamlNode& value) {
    // A set with faults is kept, so that the texts that name it are no faults too.
    check_set_name(key.text, key.place, reading);
    if (is_own_column(key.text)) return;
    LabelSet set;
    set.name = key.text;
    set.declared = reading.at(key.place);
    std::string missing;
    if (value.is_null()) {
      missing = "ages and language";
    } else {
      bool has_ages = false;
      bool has_language = false;
      const std::array<YamlField, 2> fields = {{
          {"ages",
           [&](const YamlNode& n) {
             has_ages = true;
             if (const auto ages = read_ages(n, reading))
               std::tie(set.youngest, set.oldest) = *ages;
           }},
          {"language",
           [&](const YamlNode& n) {
             has_language = true;
             if (auto tag = read_language(n, reading)) set.language = *std::move(tag);
           }},
      }};
      read_map(value, "set " + in_quotes(key.text), fields, reading);
      if (!has_ages && value.is_map()) missing = has_language ? "ages" : "ages and language";
      if (!has_language && has_ages) missing = "language";
    }
    const bool elsewhere = std::any_of(given.begin(), given.end(),
                                       [&](const LabelSet& g) { return g.name == set.name; });
    if (!missing.empty() && !elsewhere)
      reading.warning(key.place, "set-properties",
                      "set " + in_quotes(key.text) + " has no " + missing +
                          "; ages 7-10 and language en are taken",
                      "write {ages: 7-10, language: en}");
    sets.push_back(std::move(set));
  };
  read_named(node, "sets", "key-duplicate", read_set, reading);
  check_set_count(sets, node.place, reading);
  return sets;
}

}  // namespace platewright::read
