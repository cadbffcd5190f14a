// Every key that a style file may have, in one table.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "platewright/style.hpp"

namespace platewright::read {

// Where a key's value lives.
using StyleTarget = std::variant<Length*, CardSize*, double*, int*, bool*, Colour*, LeaderMark*, std::string*,
                                 std::vector<std::string>*>;

struct StyleField {
  std::string_view section;
  std::string_view key;
  StyleTarget (*target)(Style&);
  // Least and most: mm for a length, else the bare number. Not used for the rest.
  double least = 0.0;
  double most = 0.0;
};

// In the order that styles/classroom.yaml shows them. `ages`, `puzzles`,
// `sets`, `description` and `extends` are not fields but read by hand.
const std::vector<StyleField>& style_fields();

struct AgeField {
  std::string_view key;
  Length AgeRow::*member;
  double least = 0.0;  // mm
  double most = 0.0;
};
// All of an age row but `up-to`.
const std::vector<AgeField>& age_fields();

struct PuzzleField {
  std::string_view key;
  int PuzzleRow::*member;
  double least = 0.0;
  double most = 0.0;
};
// All of a row of puzzles but `up-to`.
const std::vector<PuzzleField>& puzzle_fields();

std::string_view name_of(LeaderMark mark);

}  // namespace platewright::read
