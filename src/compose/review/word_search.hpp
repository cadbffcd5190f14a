// Word searches: words in a square of letters, each placed once and found once.
// Pure: the same words, rules and chance give the same grid.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/random.hpp"

namespace platewright::compose {

// One capital a square, combining marks and all.
using Spelling = std::vector<std::string>;

struct GridRules {
  int least_size = 10;                 // squares along one side; grows where the words need it
  int directions = 2;                  // 1, 2, 4 or 8; see `grid_steps`
  std::vector<std::pair<std::string, double>> frequency;  // of fillers; empty: the words' letters
  std::vector<Spelling> unwanted;      // what the grid may not spell outside a listed word
};

struct GridStep {
  int column = 0;
  int row = 0;
};
// Across; down; aslant downwards both ways; then the same four backwards.
const std::vector<GridStep>& grid_steps();

struct PlacedWord {
  int column = 0;
  int row = 0;
  GridStep step;
};

struct WordGrid {
  int size = 0;
  std::vector<std::string> letters;    // row by row
  std::vector<PlacedWord> words;       // in the order asked
  const std::string& at(int column, int row) const {
    return letters[static_cast<std::size_t>(row * size + column)];
  }
};

// True when one word stands in the other, forwards or backwards, so that they cannot both
// be found just once.
bool hides(const Spelling& longer, const Spelling& shorter);

// No word may hide another. Throws std::logic_error when they do, a fault of the program.
WordGrid word_search(const std::vector<Spelling>& words, const GridRules& rules, Random& random);

}  // namespace platewright::compose
