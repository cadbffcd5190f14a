#include "platewright/sheet.hpp"

#include <algorithm>

#include "base/nearest.hpp"
#include "base/quote.hpp"

namespace platewright {

// The one place where kinds are listed.
const std::vector<SheetKindInfo>& sheet_kinds() {
  static const std::vector<SheetKindInfo> kinds = {
      {SheetKind::poster, "poster", "the labelled figure, as large as it fits"},
      {SheetKind::worksheet, "worksheet", "blanks to write on instead of the labels"},
      {SheetKind::copywork, "copywork", "labels to trace, then a ruled line to copy them on"},
      {SheetKind::key, "key", "the worksheet filled in, for the teacher"},
      {SheetKind::colouring, "colouring", "outlines to colour in", Placing::bare},
      {SheetKind::numbered, "numbered", "numbers at the leaders, names in a list below",
       Placing::numbered},
      {SheetKind::paste, "paste", "words to cut out and boxes at the leaders to paste them in"},
      {SheetKind::matching, "matching", "words to join with their clues, or pictures, by lines",
       Placing::none},
      {SheetKind::locate, "locate", "an outline to draw each part in, and lines to write about it",
       Placing::none},
      {SheetKind::sort, "sort", "words to write in the groups they belong to", Placing::none},
      {SheetKind::odd_one_out, "odd-one-out", "rows of words with a stranger to cross out",
       Placing::none},
      {SheetKind::true_or_false, "true-or-false", "clues that belong to their word, or do not",
       Placing::none},
      {SheetKind::fill_in, "fill-in", "clues with a line for the word", Placing::none},
      {SheetKind::word_search, "word-search", "words hidden in a square of letters",
       Placing::none},
      {SheetKind::criss_cross, "criss-cross", "a crossword from the clues", Placing::none},
      {SheetKind::scramble, "scramble", "words with their letters mixed up", Placing::none},
      {SheetKind::missing_letters, "missing-letters", "words with letters left out",
       Placing::none},
      {SheetKind::maze, "maze", "a way that passes the parts in order", Placing::none},
      {SheetKind::cards, "cards", "picture cards with the name behind", Placing::none},
      {SheetKind::memory, "memory", "pairs, or threes, of cards to find", Placing::none},
      {SheetKind::bingo, "bingo", "bingo cards, all different, and the caller's cards",
       Placing::none},
      {SheetKind::quiz, "quiz", "question cards with the answer behind", Placing::none},
      {SheetKind::track, "track", "a board to play with die and question cards", Placing::none},
      {SheetKind::mat, "mat", "a thick outline to fill with modelling dough", Placing::none},
  };
  return kinds;
}

const SheetKindInfo& info_of(SheetKind kind) {
  const auto& kinds = sheet_kinds();
  return *std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.kind == kind; });
}

bool is_review(SheetKind kind) { return kind >= SheetKind::paste; }

bool has_backs(SheetKind kind) {
  return kind == SheetKind::cards || kind == SheetKind::memory || kind == SheetKind::quiz;
}

std::string_view name_of(SheetKind kind) { return info_of(kind).name; }

Result<SheetKind> find_sheet_kind(std::string_view name) {
  std::vector<std::string_view> names;
  for (const SheetKindInfo& info : sheet_kinds()) {
    if (info.name == name) return info.kind;
    names.push_back(info.name);
  }
  return error("kind-unknown", {}, "there is no kind of sheet " + in_quotes(name),
               did_you_mean(name, names, "use " + listed(names)));
}

}  // namespace platewright
