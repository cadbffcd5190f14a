// What the YAML and the CSV reader of a table of terms share.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "platewright/terms.hpp"
#include "read/read.hpp"
#include "read/reading.hpp"
#include "read/yaml.hpp"

namespace platewright::read {

// `given` are sets whose properties come from elsewhere.
Terms terms_from_yaml(std::string_view text, const std::vector<LabelSet>& given, Reading& reading,
                      const Limits& limits);
Terms terms_from_csv(std::string_view text, Reading& reading, const Limits& limits);

// --- terms_text.cpp

// A text as written, made fit for a sheet: line breaks as '\n', each line
// trimmed, empty lines dropped. Errors `text-control`, `text-too-long`.
std::string clean_text(std::string_view text, Place place, std::string_view what, Reading& reading,
                       const Limits& limits);

// A cell's wording: as clean_text, with the warning `label-long` above 120 characters.
Wording wording(const std::vector<std::pair<std::string, Place>>& texts, std::string_view what,
                Reading& reading, const Limits& limits);

// The name of an anchor: error `anchor-name` when it is empty, longer than 200
// bytes or has control characters.
bool check_anchor_name(std::string_view name, Place place, Reading& reading);

// The key of a text by set or language, as TextBySet wants it. Error `text-key`
// for what is neither a set's name nor well formed as a language.
std::optional<std::string> text_key(std::string_view key, Place place,
                                    const std::vector<LabelSet>& sets, std::string_view what,
                                    Reading& reading);

// One text, or a map of texts by set or language.
TextBySet text_by_set(const YamlNode& node, std::string_view what,
                      const std::vector<LabelSet>& sets, Reading& reading, const Limits& limits);

// "left", "right", "any" or empty. Error `side-unknown`.
PreferredSide preferred_side(std::string_view text, Place place, Reading& reading);
// yes or no; empty: as the style says. Error `inside-unknown`.
InsideWish inside_wish(std::string_view text, Place place, Reading& reading);

// --- terms_sets.cpp

// {name: {ages: 4-6, language: en}}. Errors `set-name`, `set-ages`,
// `set-language`, `key-unknown`, `key-duplicate`; warning `set-properties`
// where ages or language are missing and the defaults (7-10, en) are taken;
// not for those in `given`, whose properties come from elsewhere.
std::vector<LabelSet> read_sets(const YamlNode& node, const std::vector<LabelSet>& given,
                                Reading& reading);

// Keeps the first 64. Error `sets-many`.
void check_set_count(std::vector<LabelSet>& sets, Place place, Reading& reading);

// Letters, digits, '-' and '_' (any script), not one of the table's own
// columns. Error `set-name`.
bool check_set_name(std::string_view name, Place place, Reading& reading);

}  // namespace platewright::read
