// Criss-crosses, read back from their letters alone: entries, numbers, neighbours.
#include "compose/review/criss_cross.hpp"

#include <gtest/gtest.h>

#include <map>
#include <queue>
#include <set>

#include "demo_words.hpp"

namespace platewright::compose {
namespace {

// The solver sees letters on squares; it finds every run of two or more and numbers them
// as crosswords are: row by row, one number for both entries of a square.
struct Entry {
  int number;
  bool down;
  std::string word;
  friend auto operator<=>(const Entry&, const Entry&) = default;
};

std::set<Entry> entries_of(const std::map<std::pair<int, int>, std::string>& letters) {  // (row, column)
  const auto there = [&](int row, int column) { return letters.count({row, column}) > 0; };
  std::set<Entry> entries;
  int number = 0;
  for (const auto& [at, letter] : letters) {
    const auto [row, column] = at;
    const bool across = !there(row, column - 1) && there(row, column + 1);
    const bool down = !there(row - 1, column) && there(row + 1, column);
    if (!across && !down) continue;
    ++number;
    for (const bool is_down : {false, true}) {
      if (is_down ? !down : !across) continue;
      std::string word;
      for (int i = 0; there(row + (is_down ? i : 0), column + (is_down ? 0 : i)); ++i)
        word += letters.at({row + (is_down ? i : 0), column + (is_down ? 0 : i)});
      entries.insert({number, is_down, word});
    }
  }
  return entries;
}

bool connected(const std::map<std::pair<int, int>, std::string>& letters) {
  std::set<std::pair<int, int>> seen{letters.begin()->first};
  std::queue<std::pair<int, int>> open;
  open.push(letters.begin()->first);
  while (!open.empty()) {
    const auto [row, column] = open.front();
    open.pop();
    for (const auto& next : {std::pair{row + 1, column}, {row - 1, column}, {row, column + 1}, {row, column - 1}})
      if (letters.count(next) && seen.insert(next).second) open.push(next);
  }
  return seen.size() == letters.size();
}

void check(const std::vector<std::string>& words, const CrissCross& puzzle, int seed) {
  std::map<std::pair<int, int>, std::string> letters;
  std::set<Entry> asked;
  int shared = 0;
  for (const CrossWord& w : puzzle.words) {
    const std::string& word = words[w.word];
    asked.insert({w.number, w.down, word});
    for (int i = 0; i < static_cast<int>(word.size()); ++i) {
      const std::pair at{w.row + (w.down ? i : 0), w.column + (w.down ? 0 : i)};
      const std::string letter(1, word[static_cast<std::size_t>(i)]);
      const auto [there, fresh] = letters.emplace(at, letter);
      shared += !fresh;
      ASSERT_EQ(there->second, letter) << seed;
      ASSERT_TRUE(at.first >= 0 && at.first < puzzle.rows && at.second >= 0 &&
                  at.second < puzzle.columns)
          << seed;
    }
  }
  // Exactly the words asked, with the numbers of the standard, and nothing else anywhere.
  EXPECT_EQ(entries_of(letters), asked) << seed;
  EXPECT_TRUE(connected(letters)) << seed;
  EXPECT_EQ(puzzle.crossings, shared) << seed;
  EXPECT_LE(puzzle.crossings, puzzle.most_crossings) << seed;
  EXPECT_EQ(puzzle.words.size() + puzzle.left_out.size(), words.size()) << seed;
}

TEST(Criss_cross, Two_hundred_puzzles_hold_their_words_and_nothing_else) {
  int whole = 0;
  long crossings = 0;
  for (int seed = 0; seed < 200; ++seed) {
    Random random(static_cast<std::uint64_t>(seed), "test");
    std::vector<std::string> words = demo_terms();
    shuffle(words, random);
    words.resize(20);
    std::vector<Spelling> spellings;
    for (const std::string& word : words) spellings.push_back(spelt(word));
    const CrissCross puzzle = criss_cross(spellings, {}, random);
    check(words, puzzle, seed);
    whole += puzzle.left_out.empty();
    crossings += puzzle.crossings;
    EXPECT_LE(puzzle.columns, 20);
    EXPECT_LE(puzzle.rows, 24);
  }
  // All twenty words in 95 of 100 puzzles; on average well more crossings than the
  // nineteen that hold twenty words together.
  EXPECT_GE(whole, 190);
  EXPECT_GT(crossings, 200 * 21);
}

TEST(Criss_cross, Leaves_out_what_shares_no_letter) {
  const std::vector<std::string> words = {"ABC", "BCD", "XYZ"};
  std::vector<Spelling> spellings;
  for (const std::string& word : words) spellings.push_back(spelt(word));
  Random random(1);
  const CrissCross puzzle = criss_cross(spellings, {}, random);
  check(words, puzzle, 1);
  EXPECT_EQ(puzzle.left_out, std::vector<std::size_t>{2});
}

TEST(Criss_cross, Keeps_to_the_room_it_is_given) {
  const std::vector<std::string> words = {"CONJUNCTIVA", "CORNEA", "IRIS"};
  std::vector<Spelling> spellings;
  for (const std::string& word : words) spellings.push_back(spelt(word));
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    Random random(seed);
    const CrissCross puzzle = criss_cross(spellings, {8, 12, 20}, random);
    check(words, puzzle, static_cast<int>(seed));
    EXPECT_LE(puzzle.columns, 8);
    EXPECT_LE(puzzle.rows, 12);
  }
}

// Brute force for three words: no arrangement of them has more crossings than the bound,
// and the search finds the most that there are.
TEST(Criss_cross, Finds_the_most_crossings_of_three_words_that_make_a_ring) {
  // TAR across, TON down, RUN ... T A R / O . U / N . N has corner crossings only by two words.
  const std::vector<std::string> words = {"TAR", "TON", "RUE", "NUE"};
  std::vector<Spelling> spellings;
  for (const std::string& word : words) spellings.push_back(spelt(word));
  Random random(2);
  CrossRules rules;
  rules.tries = 400;
  const CrissCross puzzle = criss_cross(spellings, rules, random);
  check(words, puzzle, 2);
  // T A R    four words round a square: four crossings, which no arrangement of four
  // O . U    words of three letters exceeds (two ends each).
  // N U E
  EXPECT_EQ(puzzle.crossings, 4);
  EXPECT_EQ(puzzle.columns * puzzle.rows, 9);
}

}  // namespace
}  // namespace platewright::compose
