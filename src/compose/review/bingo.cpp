#include "compose/review/bingo.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>

namespace platewright::compose {
namespace {

constexpr int deals_a_card = 300;

std::vector<std::uint32_t> lines_of(int side) {
  std::vector<std::uint32_t> lines;
  const auto bit = [side](int row, int column) { return 1U << (row * side + column); };
  std::uint32_t falling = 0, rising = 0;
  for (int i = 0; i < side; ++i) {
    std::uint32_t row = 0, column = 0;
    for (int j = 0; j < side; ++j) {
      row |= bit(i, j);
      column |= bit(j, i);
    }
    lines.push_back(row);
    lines.push_back(column);
    falling |= bit(i, i);
    rising |= bit(i, side - 1 - i);
  }
  lines.push_back(falling);
  lines.push_back(rising);
  return lines;
}

double choose_log(int n, int k) {
  return std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
}

}  // namespace

std::optional<BingoShape> bingo_shape(int side, int words, bool free_middle) {
  for (; side > 3; --side)
    if (words >= side * side) {
      const bool middle = free_middle && side % 2 == 1;
      return BingoShape{side, middle ? std::vector<int>{side * side / 2} : std::vector<int>{}};
    }
  if (words >= 9) return BingoShape{3, free_middle ? std::vector<int>{4} : std::vector<int>{}};
  if (words == 8) return BingoShape{3, {4}};
  // One free square in each row and column, none more on a diagonal than a line needs.
  if (words >= 6) return BingoShape{3, {1, 5, 6}};
  return std::nullopt;
}

std::vector<std::uint64_t> winning_sets(const BingoShape& shape) {
  // A 5 x 5 card has 2^25 sets: a moment; larger ones are not dealt.
  const int all = shape.side * shape.side;
  std::vector<int> squares;
  std::uint32_t free = 0;
  for (int s = 0; s < all; ++s) {
    if (std::find(shape.free.begin(), shape.free.end(), s) == shape.free.end())
      squares.push_back(s);
    else
      free |= 1U << s;
  }
  // Lines as sets of word squares, renumbered without the free ones.
  std::vector<std::uint32_t> lines;
  for (const std::uint32_t line : lines_of(shape.side)) {
    std::uint32_t own = 0;
    for (std::size_t i = 0; i < squares.size(); ++i)
      if (line & (1U << squares[i])) own |= 1U << i;
    lines.push_back(own);
  }
  const int n = static_cast<int>(squares.size());
  std::vector<std::uint64_t> sets(static_cast<std::size_t>(n) + 1, 0);
  for (std::uint32_t set = 0; set < (1U << n); ++set)
    for (const std::uint32_t line : lines)
      if ((set & line) == line) {
        ++sets[static_cast<std::size_t>(std::popcount(set))];
        break;
      }
  return sets;
}

namespace {

double chance_with(const std::vector<std::uint64_t>& sets, int words, int calls) {
  const int n = static_cast<int>(sets.size()) - 1;
  double chance = 0;
  for (int j = 0; j <= n; ++j) {
    if (sets[static_cast<std::size_t>(j)] == 0 || j > calls || calls - j > words - n) continue;
    // C(n,j) cancels.
    chance += static_cast<double>(sets[static_cast<std::size_t>(j)]) *
              std::exp(choose_log(words - n, calls - j) - choose_log(words, calls));
  }
  return std::min(1.0, chance);
}

}  // namespace

double chance_by(const BingoShape& shape, int words, int calls) {
  return chance_with(winning_sets(shape), words, std::min(calls, words));
}

double mean_calls(const BingoShape& shape, int words) {
  const auto sets = winning_sets(shape);
  double mean = 0;
  for (int k = 0; k < words; ++k) mean += 1 - chance_with(sets, words, k);
  return mean;
}

double chance_of_any(const BingoShape& shape, int words, int calls, int cards) {
  return 1 - std::pow(1 - chance_by(shape, words, calls), cards);
}

std::vector<std::vector<int>> deal_bingo(const BingoShape& shape, int words, int cards,
                                         int least_different, Random& random) {
  const int n = shape.squares();
  std::vector<int> pool(static_cast<std::size_t>(words));
  std::iota(pool.begin(), pool.end(), 0);
  const auto draw = [&] {
    shuffle(pool, random);
    std::vector<int> card;
    int next = 0;
    for (int s = 0; s < shape.side * shape.side; ++s)
      card.push_back(std::find(shape.free.begin(), shape.free.end(), s) != shape.free.end()
                         ? -1
                         : pool[static_cast<std::size_t>(next++)]);
    return card;
  };
  const auto places_apart = [](const std::vector<int>& a, const std::vector<int>& b) {
    int count = 0;
    for (std::size_t i = 0; i < a.size(); ++i) count += a[i] != b[i];
    return count;
  };
  const auto words_apart = [&](const std::vector<int>& a, const std::vector<int>& b) {
    return static_cast<int>(std::count_if(
        a.begin(), a.end(), [&](int w) { return std::find(b.begin(), b.end(), w) == b.end(); }));
  };
  // No two cards can differ in more words than are left over.
  const int most_words_apart = std::min(least_different, words - n);
  std::vector<std::vector<int>> dealt;
  while (static_cast<int>(dealt.size()) < cards) {
    std::optional<std::vector<int>> best;
    int best_words = -1;
    for (int attempt = 0; attempt < deals_a_card; ++attempt) {
      std::vector<int> card = draw();
      bool fits = true;
      int least_words = words;
      for (const auto& other : dealt) {
        fits = fits && places_apart(card, other) >= least_different;
        least_words = std::min(least_words, words_apart(card, other));
      }
      if (!fits || least_words <= best_words) continue;
      best = std::move(card);
      best_words = least_words;
      if (best_words >= most_words_apart) break;
    }
    if (!best) break;
    dealt.push_back(std::move(*best));
  }
  return dealt;
}

}  // namespace platewright::compose
