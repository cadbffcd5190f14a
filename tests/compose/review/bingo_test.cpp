// Bingo's odds against published numbers and against games played out.
#include "compose/review/bingo.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <set>

namespace platewright::compose {
namespace {

const BingoShape plain{3, {}};
const BingoShape with_middle{3, {4}};

// W(j) for 3 x 3 cards and, with a free middle, for their eight squares: computed by
// inclusion and exclusion apart from this program.
TEST(Bingo, Counts_the_sets_that_hold_a_line) {
  EXPECT_EQ(winning_sets(plain),
            (std::vector<std::uint64_t>{0, 0, 0, 8, 48, 98, 82, 36, 9, 1}));
  EXPECT_EQ(winning_sets(with_middle),
            (std::vector<std::uint64_t>{0, 0, 4, 28, 62, 56, 28, 8, 1}));
}

TEST(Bingo, Mean_calls_are_the_table_s) {
  const struct {
    int words;
    double without, with;
  } table[] = {{12, 6.201, 5.014}, {16, 8.109, 6.557}, {20, 10.017, 8.100}, {24, 11.925, 9.643},
               {30, 14.787, 11.957}};
  for (const auto& row : table) {
    EXPECT_NEAR(mean_calls(plain, row.words), row.without, 1e-3) << row.words;
    EXPECT_NEAR(mean_calls(with_middle, row.words), row.with, 1e-3) << row.words;
  }
}

// The well-known odds of one 5 x 5 card with a free middle among 75 numbers, whose columns
// hold fifteen numbers each, differ from a card filled from all words; what both share is
// that a full table of calls wins for sure and none before a line's length.
TEST(Bingo, No_card_wins_before_a_line_is_full_and_every_card_at_the_end) {
  for (const int words : {9, 12, 20, 30}) {
    EXPECT_EQ(chance_by(plain, words, 2), 0);
    EXPECT_GT(chance_by(plain, words, 3), 0);
    EXPECT_NEAR(chance_by(plain, words, words), 1, 1e-12);
    for (int k = 1; k <= words; ++k)
      EXPECT_GE(chance_by(plain, words, k), chance_by(plain, words, k - 1) - 1e-12);
  }
}

// Played out: a card, a shuffled order of words, and the call that first fills a line,
// found by looking at the card's rows.
int winning_call(const std::vector<int>& card, int side, std::vector<int> order, Random& random) {
  shuffle(order, random);
  std::set<int> called{-1};
  for (std::size_t k = 0; k < order.size(); ++k) {
    called.insert(order[k]);
    const auto crossed = [&](int row, int column) {
      return called.count(card[static_cast<std::size_t>(row * side + column)]) > 0;
    };
    bool fall = true, rise = true;
    for (int i = 0; i < side; ++i) {
      bool row = true, column = true;
      for (int j = 0; j < side; ++j) {
        row = row && crossed(i, j);
        column = column && crossed(j, i);
      }
      if (row || column) return static_cast<int>(k) + 1;
      fall = fall && crossed(i, i);
      rise = rise && crossed(i, side - 1 - i);
    }
    if (fall || rise) return static_cast<int>(k) + 1;
  }
  return static_cast<int>(order.size()) + 1;
}

TEST(Bingo, A_hundred_thousand_games_agree_with_the_formula) {
  const std::pair<BingoShape, int> games[] = {
      {plain, 12}, {with_middle, 12}, {{3, {1, 5, 6}}, 7}, {{4, {}}, 20}};
  for (const auto& [shape, words] : games) {
    Random random(99, "bingo games");
    const auto card = deal_bingo(shape, words, 1, 3, random).front();
    std::vector<int> order(static_cast<std::size_t>(words));
    std::iota(order.begin(), order.end(), 0);
    constexpr int n = 100000;
    std::vector<int> won(static_cast<std::size_t>(words) + 2, 0);
    double sum = 0, squares = 0;
    for (int game = 0; game < n; ++game) {
      const int call = winning_call(card, shape.side, order, random);
      ++won[static_cast<std::size_t>(call)];
      sum += call;
      squares += static_cast<double>(call) * call;
    }
    const double mean = sum / n;
    const double error = std::sqrt((squares / n - mean * mean) / n);
    EXPECT_NEAR(mean, mean_calls(shape, words), 4 * error) << shape.side << ' ' << words;
    int by_now = 0;
    for (int k = 0; k <= words; ++k) {
      by_now += won[static_cast<std::size_t>(k)];
      const double p = chance_by(shape, words, k);
      EXPECT_NEAR(static_cast<double>(by_now) / n, p, 4.5 * std::sqrt(p * (1 - p) / n) + 1e-9)
          << shape.side << ' ' << words << ' ' << k;
    }
  }
}

TEST(Bingo, Any_two_cards_differ_in_three_squares_at_least) {
  for (const int words : {6, 7, 8, 9, 12, 20})
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
      const auto shape = bingo_shape(3, words, false);
      ASSERT_TRUE(shape);
      Random random(seed);
      const auto cards = deal_bingo(*shape, words, 30, 3, random);
      EXPECT_EQ(cards.size(), 30U) << words;
      for (std::size_t a = 0; a < cards.size(); ++a) {
        std::set<int> on_card;
        int with_words = 0;
        for (std::size_t s = 0; s < cards[a].size(); ++s) {
          if (cards[a][s] < 0) continue;
          ++with_words;
          on_card.insert(cards[a][s]);
          EXPECT_LT(cards[a][s], words);
        }
        EXPECT_EQ(with_words, shape->squares());
        EXPECT_EQ(on_card.size(), static_cast<std::size_t>(with_words)) << "a word twice";
        for (std::size_t b = 0; b < a; ++b) {
          int different = 0;
          for (std::size_t s = 0; s < cards[a].size(); ++s) different += cards[a][s] != cards[b][s];
          EXPECT_GE(different, 3);
        }
      }
    }
}

TEST(Bingo, Small_sets_get_free_squares_but_no_free_line) {
  EXPECT_FALSE(bingo_shape(3, 5, false));
  EXPECT_EQ(bingo_shape(4, 16, false)->side, 4);
  EXPECT_EQ(bingo_shape(4, 15, false)->side, 3);
  EXPECT_EQ(bingo_shape(3, 9, true)->free, std::vector<int>{4});
  for (const int words : {6, 7, 8, 9}) {
    const auto shape = bingo_shape(4, words, false);
    EXPECT_LE(shape->squares(), words);
    EXPECT_EQ(winning_sets(*shape)[0], 0U);
  }
}

}  // namespace
}  // namespace platewright::compose
