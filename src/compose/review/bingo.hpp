// Bingo: the chance that a card has won, and cards that differ. Pure.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/random.hpp"

namespace platewright::compose {

// A card of side x side squares; `free` squares count as crossed from the start. Its
// lines are the rows, the columns and the two diagonals.
struct BingoShape {
  int side = 3;
  std::vector<int> free;               // squares, row by row
  int squares() const { return side * side - static_cast<int>(free.size()); }  // with words
};

// The largest card up to `side` that `words` words fill: with fewer than nine words some
// squares of a 3 x 3 card are free, so that no line is. Nothing below six words.
std::optional<BingoShape> bingo_shape(int side, int words, bool free_middle);

// W(j): the sets of j word squares that hold a whole line, j = 0 .. squares().
std::vector<std::uint64_t> winning_sets(const BingoShape& shape);

// Chance that one card has won after `calls` of `words` words, each called once at random:
// the sum over j of C(n,j) C(N-n,k-j) / C(N,k) times W(j) / C(n,j).
double chance_by(const BingoShape& shape, int words, int calls);
// Mean number of the call that wins, for one card: the sum of 1 - chance_by(k), k >= 0.
double mean_calls(const BingoShape& shape, int words);
// Chance that the first of `cards` dealt cards has won by then, taken as independent.
double chance_of_any(const BingoShape& shape, int words, int calls, int cards);

// For each card the word of each square, -1 where it is free. Any two cards differ in at
// least `least_different` squares; where the words allow it, the first cards also differ
// in their words. Fewer cards than asked where there are no more.
std::vector<std::vector<int>> deal_bingo(const BingoShape& shape, int words, int cards,
                                         int least_different, Random& random);

}  // namespace platewright::compose
