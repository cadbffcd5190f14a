// Criss-crosses: words that cross in shared letters, all joined, none side by side by
// accident. Pure: the same words and chance give the same puzzle.
#pragma once

#include <string>
#include <vector>

#include "base/random.hpp"
#include "compose/review/word_search.hpp"

namespace platewright::compose {

struct CrossWord {
  std::size_t word = 0;   // index of the words asked
  int column = 0;
  int row = 0;
  bool down = false;
  int number = 0;         // as printed; across and down words may share one
};

struct CrissCross {
  int columns = 0;
  int rows = 0;
  std::vector<CrossWord> words;        // by number, across before down
  std::vector<std::size_t> left_out;   // indices of the words asked, ascending
  int crossings = 0;
  // No puzzle of these words has more: each crossing takes two equal letters, which no
  // other crossing takes.
  int most_crossings = 0;
};

struct CrossRules {
  int most_columns = 20;
  int most_rows = 24;
  int tries = 400;          // puzzles built by chance; the best is kept
};

// Best of `tries`: most words, then most crossings for the room taken. Words must differ.
CrissCross criss_cross(const std::vector<Spelling>& words, const CrossRules& rules,
                       Random& random);

}  // namespace platewright::compose
