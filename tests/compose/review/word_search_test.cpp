// A thousand word searches, solved by a reader of its own: lines of the grid as text.
#include "compose/review/word_search.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "demo_words.hpp"

namespace platewright::compose {
namespace {

const std::vector<std::string> unwanted_words = {"BUM", "POO", "FART", "HELL", "ASS", "TIT", "SEX"};

GridRules rules_of(int size, int directions) {
  GridRules rules;
  rules.least_size = size;
  rules.directions = directions;
  for (char c = 'A'; c <= 'Z'; ++c)
    rules.frequency.emplace_back(std::string(1, c), c == 'E' || c == 'S' ? 9 : 3);
  for (const std::string& bad : unwanted_words) rules.unwanted.push_back(spelt(bad));
  return rules;
}

// The solver: every row, column and diagonal as a string, forwards and backwards, each
// with the squares that its letters come from. Knows nothing of how grids are made.
struct Line {
  std::string text;
  std::vector<int> squares;
  int direction;  // 0..7: E, S, SE, SW, W, N, NW, NE
};

std::vector<Line> lines_of(const WordGrid& grid) {
  const int n = grid.size;
  std::map<std::pair<int, int>, Line> lines;  // by direction and line
  for (int y = 0; y < n; ++y)
    for (int x = 0; x < n; ++x) {
      const std::string& letter = grid.letters[static_cast<std::size_t>(y * n + x)];
      const int keys[] = {y, x, x - y, x + y};
      for (int d = 0; d < 4; ++d) {
        Line& line = lines[{d, keys[d]}];
        line.text += letter;
        line.squares.push_back(y * n + x);
        line.direction = d;
      }
    }
  std::vector<Line> all;
  for (auto& [key, line] : lines) {
    Line back{{line.text.rbegin(), line.text.rend()},
              {line.squares.rbegin(), line.squares.rend()},
              line.direction + 4};
    all.push_back(line);
    all.push_back(back);
  }
  return all;
}

// Every place where the word stands, by its set of squares.
std::map<std::set<int>, std::set<int>> found(const std::vector<Line>& lines,
                                             const std::string& word) {
  std::map<std::set<int>, std::set<int>> places;
  for (const Line& line : lines)
    for (std::size_t at = line.text.find(word); at != std::string::npos;
         at = line.text.find(word, at + 1)) {
      std::set<int> squares;
      for (std::size_t i = 0; i < word.size(); ++i) squares.insert(line.squares[at + i]);
      places[squares].insert(line.direction);
    }
  return places;
}

std::vector<std::string> some_words(Random& random, std::size_t count, std::size_t longest) {
  std::vector<std::string> words = demo_terms(), taken;
  shuffle(words, random);
  for (const std::string& word : words) {
    bool fits = word.size() <= longest;
    for (const std::string& other : taken)
      fits = fits && !hides(spelt(other), spelt(word)) && !hides(spelt(word), spelt(other));
    if (fits && taken.size() < count) taken.push_back(word);
  }
  return taken;
}

TEST(Word_search, A_thousand_grids_show_each_word_once_and_nothing_unwanted) {
  const struct {
    int size, directions;
    std::size_t words;
  } ages[] = {{8, 1, 6}, {10, 2, 8}, {12, 4, 12}, {15, 4, 16}, {15, 8, 20}};
  int grown = 0;  // where words happen to fit no grid of their age
  for (int seed = 0; seed < 1000; ++seed) {
    const auto& age = ages[seed % 5];
    Random random(static_cast<std::uint64_t>(seed), "test");
    const std::vector<std::string> words =
        some_words(random, age.words, static_cast<std::size_t>(age.size));
    std::vector<Spelling> spellings;
    for (const std::string& word : words) spellings.push_back(spelt(word));
    const WordGrid grid = word_search(spellings, rules_of(age.size, age.directions), random);
    EXPECT_LE(grid.size, age.size + 1) << seed;
    grown += grid.size > age.size;
    ASSERT_EQ(grid.letters.size(), static_cast<std::size_t>(grid.size * grid.size));
    const std::vector<Line> lines = lines_of(grid);
    std::set<std::set<int>> of_words;
    for (std::size_t w = 0; w < words.size(); ++w) {
      const auto places = found(lines, words[w]);
      ASSERT_EQ(places.size(), 1U) << "seed " << seed << ": " << words[w];
      const auto& [squares, ways] = *places.begin();
      EXPECT_LT(*ways.begin(), age.directions) << "seed " << seed << ": " << words[w];
      // The key tells the same squares.
      std::set<int> told;
      const PlacedWord& p = grid.words[w];
      for (int i = 0; i < static_cast<int>(words[w].size()); ++i)
        told.insert((p.row + i * p.step.row) * grid.size + p.column + i * p.step.column);
      EXPECT_EQ(told, squares);
      of_words.insert(squares);
    }
    for (const std::string& bad : unwanted_words)
      for (const auto& [squares, ways] : found(lines, bad)) {
        bool inside = false;  // of a listed word
        for (const auto& word : of_words)
          inside = inside || std::includes(word.begin(), word.end(), squares.begin(), squares.end());
        EXPECT_TRUE(inside) << "seed " << seed << ": " << bad;
      }
  }
  EXPECT_LE(grown, 5);
}

// A page that says words run aslant has some that do, long as they are (German eye, 11 to 14).
TEST(Word_search, Uses_each_direction_that_it_names_for_long_words_too) {
  std::vector<Spelling> words;
  for (const char* word : {"ADERHAUT", "AUGENKAMMER", "AUGENMUSKEL", "GELBERFLECK", "HORNHAUT",
                           "HINTERE", "IRIS", "LEDERHAUT", "LINSE", "NETZHAUT", "ORASERRATA",
                           "PAPILLE", "PUPILLE", "SEHGRUBE", "GLASWAND", "ZILIARRING"})
    words.push_back(spelt(word));
  for (const int directions : {2, 4, 8}) {
    std::map<std::pair<int, int>, int> times;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      Random random(seed);
      const WordGrid grid = word_search(words, rules_of(15, directions), random);
      int aslant = 0;
      for (const PlacedWord& p : grid.words) {
        ++times[{p.step.column, p.step.row}];
        aslant += p.step.column != 0 && p.step.row != 0;
      }
      EXPECT_TRUE(directions == 2 || aslant > 0) << directions << " directions, seed " << seed;
    }
    EXPECT_EQ(times.size(), static_cast<std::size_t>(directions));
    for (const auto& [step, count] : times)
      EXPECT_GE(count * directions * 3, 16 * 20) << step.first << ' ' << step.second;
  }
}

TEST(Word_search, Is_the_same_by_the_same_seed_and_another_by_another) {
  const std::vector<Spelling> words = {spelt("AORTA"), spelt("LIVER"), spelt("KIDNEY")};
  const auto made = [&](std::uint64_t seed) {
    Random random(seed);
    return word_search(words, rules_of(10, 2), random).letters;
  };
  EXPECT_EQ(made(5), made(5));
  EXPECT_NE(made(5), made(6));
}

TEST(Word_search, Grows_for_a_word_longer_than_its_side) {
  Random random(1);
  EXPECT_GE(word_search({spelt("CONJUNCTIVA")}, rules_of(8, 1), random).size, 11);
}

TEST(Word_search, Fills_with_the_words_letters_where_a_language_has_no_frequencies) {
  Random random(1);
  GridRules rules;
  rules.least_size = 8;
  const WordGrid grid = word_search({{"ע", "י", "ן"}, {"ל", "ב"}}, rules, random);
  for (const std::string& letter : grid.letters)
    EXPECT_TRUE(std::string("עיןלב").find(letter) != std::string::npos) << letter;
}

TEST(Word_search, Knows_words_that_stand_in_others_forwards_or_backwards) {
  EXPECT_TRUE(hides(spelt("FOREWING"), spelt("WING")));
  EXPECT_TRUE(hides(spelt("TESTIS"), spelt("SIT")));
  EXPECT_FALSE(hides(spelt("WING"), spelt("FOREWING")));
  Random random(1);
  EXPECT_THROW(word_search({spelt("FOREWING"), spelt("WING")}, rules_of(10, 2), random),
               std::logic_error);
}

}  // namespace
}  // namespace platewright::compose
