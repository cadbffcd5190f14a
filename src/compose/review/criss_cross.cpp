#include "compose/review/criss_cross.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <tuple>

namespace platewright::compose {
namespace {

// The board that one puzzle grows on: twice as wide as allowed, begun in the middle.
class Board {
 public:
  Board(const std::vector<Spelling>& words, const CrossRules& rules)
      : words_(words),
        rules_(rules),
        width_(2 * std::max(rules.most_columns, rules.most_rows) + 3),
        letters_(static_cast<std::size_t>(width_ * width_)),
        taken_(letters_.size(), 0) {}

  void begin(std::size_t word, bool down) {
    const int middle = width_ / 2;
    const int half = static_cast<int>(words_[word].size()) / 2;
    put({word, down ? middle : middle - half, down ? middle - half : middle, down, 0});
  }

  bool allowed(std::size_t word, bool down) const {
    const int n = static_cast<int>(words_[word].size());
    return n <= (down ? rules_.most_rows : rules_.most_columns);
  }

  struct Place {
    CrossWord word;
    int crossings = 0;
    int growth = 0;  // squares that the bounding box gains
  };

  // The best place of a word that crosses what stands there; ties by chance.
  std::optional<Place> best_place(std::size_t word, Random& random, double greed) const {
    std::optional<Place> best;
    double best_score = 0;
    int ties = 0;
    const Spelling& letters = words_[word];
    for (const CrossWord& other : placed_) {
      const Spelling& there = words_[other.word];
      for (std::size_t j = 0; j < there.size(); ++j)
        for (std::size_t i = 0; i < letters.size(); ++i) {
          if (letters[i] != there[j]) continue;
          const int column = other.column + (other.down ? 0 : static_cast<int>(j));
          const int row = other.row + (other.down ? static_cast<int>(j) : 0);
          CrossWord at{word, column, row, !other.down, 0};
          (at.down ? at.row : at.column) -= static_cast<int>(i);
          const int crossings = fits(at);
          if (crossings < 1) continue;
          const int growth = growth_of(at);
          if (growth < 0) continue;
          const double score = crossings * greed - growth;
          if (!best || score > best_score + 1e-9) {
            best = Place{at, crossings, growth};
            best_score = score;
            ties = 1;
          } else if (score > best_score - 1e-9 &&
                     random.below(static_cast<std::size_t>(++ties)) == 0) {
            best = Place{at, crossings, growth};
          }
        }
    }
    return best;
  }

  void put(const CrossWord& word) {
    const Spelling& letters = words_[word.word];
    for (int i = 0; i < static_cast<int>(letters.size()); ++i) {
      const std::size_t s = square(word, i);
      if (taken_[s]) ++crossings_;
      letters_[s] = letters[static_cast<std::size_t>(i)];
      taken_[s] = static_cast<unsigned char>(taken_[s] | (word.down ? 2U : 1U));
    }
    const int n = static_cast<int>(letters.size());
    const int right = word.column + (word.down ? 1 : n), bottom = word.row + (word.down ? n : 1);
    if (placed_.empty()) {
      left_ = word.column;
      top_ = word.row;
      right_ = right;
      bottom_ = bottom;
    }
    left_ = std::min(left_, word.column);
    top_ = std::min(top_, word.row);
    right_ = std::max(right_, right);
    bottom_ = std::max(bottom_, bottom);
    placed_.push_back(word);
  }

  std::size_t count() const { return placed_.size(); }
  int crossings() const { return crossings_; }
  int area() const { return (right_ - left_) * (bottom_ - top_); }

  CrissCross take() const {
    CrissCross puzzle;
    puzzle.columns = right_ - left_;
    puzzle.rows = bottom_ - top_;
    puzzle.words = placed_;
    puzzle.crossings = crossings_;
    for (CrossWord& word : puzzle.words) {
      word.column -= left_;
      word.row -= top_;
    }
    return puzzle;
  }

 private:
  std::size_t square(const CrossWord& word, int i) const {
    const int column = word.column + (word.down ? 0 : i);
    const int row = word.row + (word.down ? i : 0);
    return static_cast<std::size_t>(row * width_ + column);
  }
  bool taken(int column, int row) const {
    return column >= 0 && row >= 0 && column < width_ && row < width_ &&
           taken_[static_cast<std::size_t>(row * width_ + column)] != 0;
  }

  // Crossings that the word would make; < 1: it can't stand there.
  int fits(const CrossWord& word) const {
    const Spelling& letters = words_[word.word];
    const int n = static_cast<int>(letters.size());
    const int dx = word.down ? 0 : 1, dy = word.down ? 1 : 0;
    if (word.column < 1 || word.row < 1 || word.column + n * dx >= width_ - 1 ||
        word.row + n * dy >= width_ - 1)
      return -1;
    // Nothing right before its first letter or after its last.
    if (taken(word.column - dx, word.row - dy) || taken(word.column + n * dx, word.row + n * dy))
      return -1;
    int crossings = 0;
    for (int i = 0; i < n; ++i) {
      const std::size_t s = square(word, i);
      const int column = word.column + i * dx, row = word.row + i * dy;
      if (taken_[s]) {
        if (letters_[s] != letters[static_cast<std::size_t>(i)]) return -1;
        if (taken_[s] & (word.down ? 2U : 1U)) return -1;  // along another word
        ++crossings;
      } else if (taken(column + dy, row + dx) || taken(column - dy, row - dx)) {
        return -1;  // a free square beside a letter would spell what no clue asks
      }
    }
    return crossings;
  }

  int growth_of(const CrossWord& word) const {
    const int n = static_cast<int>(words_[word.word].size());
    const int left = std::min(left_, word.column), top = std::min(top_, word.row);
    const int right = std::max(right_, word.column + (word.down ? 1 : n));
    const int bottom = std::max(bottom_, word.row + (word.down ? n : 1));
    if (right - left > rules_.most_columns || bottom - top > rules_.most_rows) return -1;
    return (right - left) * (bottom - top) - area();
  }

  const std::vector<Spelling>& words_;
  const CrossRules& rules_;
  int width_;
  std::vector<std::string> letters_;
  std::vector<unsigned char> taken_;  // 1: by an across word, 2: by a down word
  std::vector<CrossWord> placed_;
  int crossings_ = 0;
  int left_ = 0, top_ = 0, right_ = 0, bottom_ = 0;
};

// Row by row from the top; one number for an across and a down word of one square.
void number(CrissCross& puzzle) {
  std::sort(puzzle.words.begin(), puzzle.words.end(), [](const CrossWord& a, const CrossWord& b) {
    return std::tie(a.row, a.column, a.down) < std::tie(b.row, b.column, b.down);
  });
  int last = 0;
  for (std::size_t i = 0; i < puzzle.words.size(); ++i) {
    CrossWord& word = puzzle.words[i];
    const bool shares = i > 0 && puzzle.words[i - 1].row == word.row &&
                        puzzle.words[i - 1].column == word.column;
    word.number = shares ? last : ++last;
  }
  std::stable_sort(puzzle.words.begin(), puzzle.words.end(),
                   [](const CrossWord& a, const CrossWord& b) { return a.down < b.down; });
}

}  // namespace

CrissCross criss_cross(const std::vector<Spelling>& words, const CrossRules& rules,
                       Random& random) {
  std::optional<Board> best;
  const auto better = [](const Board& a, const Board& b) {
    if (a.count() != b.count()) return a.count() > b.count();
    // A crossing is worth a twelfth of the room of twenty words, roughly.
    return a.crossings() * 12 - a.area() > b.crossings() * 12 - b.area();
  };
  for (int attempt = 0; attempt < rules.tries; ++attempt) {
    std::vector<std::size_t> waiting(words.size());
    std::iota(waiting.begin(), waiting.end(), 0U);
    shuffle(waiting, random);
    // Long words first, with some chance in the order.
    std::vector<std::size_t> key(words.size());
    for (const std::size_t w : waiting) key[w] = 2 * words[w].size() + random.below(5);
    std::stable_sort(waiting.begin(), waiting.end(),
                     [&](std::size_t a, std::size_t b) { return key[a] > key[b]; });
    Board board(words, rules);
    const double greed = 6.0 + 6.0 * static_cast<double>(random.below(4));
    bool begun = false;
    // What finds no place now may find one when more stands there.
    for (bool again = true; again && !waiting.empty();) {
      again = false;
      std::vector<std::size_t> later;
      for (const std::size_t w : waiting) {
        if (!begun) {
          const bool down = random.below(2) == 1;
          if (!board.allowed(w, down) && !board.allowed(w, !down)) continue;
          board.begin(w, board.allowed(w, down) ? down : !down);
          begun = true;
          continue;
        }
        if (const auto place = board.best_place(w, random, greed)) {
          board.put(place->word);
          again = true;
        } else {
          later.push_back(w);
        }
      }
      waiting = std::move(later);
    }
    if (begun && (!best || better(board, *best))) best.emplace(std::move(board));
  }
  CrissCross puzzle;
  if (best) puzzle = best->take();
  std::vector<bool> stands(words.size(), false);
  for (const CrossWord& word : puzzle.words) stands[word.word] = true;
  std::map<std::string, int> stock;
  for (std::size_t w = 0; w < words.size(); ++w) {
    if (!stands[w]) puzzle.left_out.push_back(w);
    for (const std::string& letter : words[w]) ++stock[letter];
  }
  for (const auto& [letter, count] : stock) puzzle.most_crossings += count / 2;
  number(puzzle);
  return puzzle;
}

}  // namespace platewright::compose
