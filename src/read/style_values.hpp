// One value of a style file into its place.
#pragma once

#include <string>

#include "read/style_fields.hpp"
#include "read/yaml.hpp"

namespace platewright::read {

// Errors: `length-invalid`, `colour-invalid`, `style-value` (wrong shape),
// `style-range`. What is at fault leaves the old value.
void read_style_value(const YamlNode& node, const std::string& what, const StyleTarget& target,
                      double least, double most, Reading& reading);

// The list of age rows. A row may leave keys out: they come from `ages` as it
// was. Errors as above, and `ages-order`; warning `text-floor-low` below the
// published floors (ages to 6: 14 pt, to 10: 10 pt, above: 8 pt) of the row's
// youngest readers.
void read_ages(const YamlNode& node, std::vector<AgeRow>& ages, Reading& reading);

// The list of rows of puzzles, likewise.
void read_puzzles(const YamlNode& node, std::vector<PuzzleRow>& puzzles, Reading& reading);

// Everything that a style file says, onto what it extends. `root` is a map.
// Errors as above, `key-unknown`, `key-duplicate`, `not-a-map`; warning `contrast-low`.
void apply_style(const YamlNode& root, Style& style, Reading& reading);

}  // namespace platewright::read
