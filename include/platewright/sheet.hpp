// The kinds of sheet, and what a person asks for.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/layout.hpp"
#include "platewright/result.hpp"

namespace platewright {

enum class SheetKind {
  poster, worksheet, copywork, key, colouring, numbered,
  // from the same table, each with pages of its key
  paste, matching, locate, sort, odd_one_out, true_or_false, fill_in,
  // puzzles and games
  word_search, criss_cross, scramble, missing_letters, maze, cards, memory, bingo, quiz,
  track, mat
};

// Which placement a kind's figure stands in.
enum class Placing {
  shared,    // the layout that poster, worksheet, copywork and key share
  numbered,  // numbers at the leaders, with room for their list
  bare,      // the figure without labels
  none,      // no figure to place
};

struct SheetKindInfo {
  SheetKind kind;
  std::string_view name;     // as on the command line
  std::string_view summary;  // one line
  Placing placing = Placing::shared;
};
// In the order that help lists them.
const std::vector<SheetKindInfo>& sheet_kinds();
// True for the kinds with pages of their own key: those dealt by seed.
bool is_review(SheetKind kind);
// True for cards, whose pages are a front, its back, a front ...
bool has_backs(SheetKind kind);
const SheetKindInfo& info_of(SheetKind kind);
std::string_view name_of(SheetKind kind);
// Error `kind-unknown` with the known names.
Result<SheetKind> find_sheet_kind(std::string_view name);

}  // namespace platewright
