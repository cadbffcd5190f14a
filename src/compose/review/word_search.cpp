#include "compose/review/word_search.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <stdexcept>

namespace platewright::compose {
namespace {

constexpr int layouts_a_size = 60;    // placements tried before the grid grows
constexpr int fillings_a_layout = 400;  // rounds of mending its filling
constexpr int places_a_word = 200;    // random places tried for one word

Spelling reversed(const Spelling& word) { return {word.rbegin(), word.rend()}; }

// An occurrence of a pattern in the grid.
struct Hit {
  int column, row;
  GridStep step;
  int length;
  int square(int size, int i) const {
    return (row + i * step.row) * size + column + i * step.column;
  }
};

class Builder {
 public:
  Builder(const std::vector<Spelling>& words, const GridRules& rules, int size, Random& random)
      : words_(words), rules_(rules), size_(size), random_(random) {}

  bool place_all() {
    letters_.assign(static_cast<std::size_t>(size_ * size_), "");
    placed_.assign(words_.size(), {});
    std::vector<std::size_t> order(words_.size());
    std::iota(order.begin(), order.end(), 0U);
    shuffle(order, random_);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return words_[a].size() > words_[b].size();
    });
    // Directions are dealt out, so that each that the page names is used: picked at random, few
    // long words would lie aslant, where they have the fewest places.
    std::vector<std::size_t> dealt;
    for (const std::size_t i : order) {
      if (dealt.empty()) {
        dealt.resize(static_cast<std::size_t>(rules_.directions));
        std::iota(dealt.begin(), dealt.end(), 0U);
        shuffle(dealt, random_);
      }
      if (!place(i, dealt.back())) return false;
      dealt.pop_back();
    }
    fixed_.clear();
    for (const std::string& letter : letters_) fixed_.push_back(!letter.empty());
    return true;
  }

  // Fills the rest; changes fillers until nothing stands there that should not.
  bool fill() {
    for (std::size_t s = 0; s < letters_.size(); ++s)
      if (!fixed_[s]) letters_[s] = filler();
    for (int round = 0; round < fillings_a_layout; ++round) {
      const std::optional<Hit> fault = first_fault();
      if (!fault) return true;
      std::vector<std::size_t> open;
      for (int i = 0; i < fault->length; ++i) {
        const auto s = static_cast<std::size_t>(fault->square(size_, i));
        if (!fixed_[s]) open.push_back(s);
      }
      if (open.empty()) return false;  // the words themselves spell it: place them anew
      letters_[open[random_.below(open.size())]] = filler();
    }
    return false;
  }

  WordGrid take() { return {size_, std::move(letters_), std::move(placed_)}; }

 private:
  bool inside(int column, int row) const {
    return column >= 0 && row >= 0 && column < size_ && row < size_;
  }
  const std::string& at(int column, int row) const {
    return letters_[static_cast<std::size_t>(row * size_ + column)];
  }

  // How many letters the word shares with those that stand there; < 0: it cannot stand.
  int shared(const Spelling& word, const PlacedWord& p) const {
    const int last = static_cast<int>(word.size()) - 1;
    if (!inside(p.column + last * p.step.column, p.row + last * p.step.row)) return -1;
    int same = 0;
    for (int i = 0; i <= last; ++i) {
      const std::string& there = at(p.column + i * p.step.column, p.row + i * p.step.row);
      if (there.empty()) continue;
      if (there != word[static_cast<std::size_t>(i)]) return -1;
      ++same;
    }
    return same;
  }

  // A column or row where a word may start that goes on by `step` there.
  int start(const Spelling& word, int step) {
    const int spare = size_ - static_cast<int>(word.size());
    if (spare < 0) return 0;  // it stands nowhere
    if (step == 0) return static_cast<int>(random_.below(static_cast<std::size_t>(size_)));
    const int first = static_cast<int>(random_.below(static_cast<std::size_t>(spare + 1)));
    return step > 0 ? first : size_ - 1 - first;
  }

  bool place(std::size_t index, std::size_t direction) {
    const Spelling& word = words_[index];
    std::optional<PlacedWord> best;
    int best_shared = -1;
    // The first place that crosses another word, else any.
    for (int attempt = 0; attempt < places_a_word; ++attempt) {
      // In any direction where its own has no room.
      const GridStep step =
          grid_steps()[attempt < places_a_word / 2
                           ? direction
                           : random_.below(static_cast<std::size_t>(rules_.directions))];
      const PlacedWord p{start(word, step.column), start(word, step.row), step};
      const int same = shared(word, p);
      if (same < 0 || same == static_cast<int>(word.size())) continue;
      if (same > best_shared) {
        best = p;
        best_shared = same;
      }
      if (attempt > 20 && best) break;
    }
    if (!best) return false;
    placed_[index] = *best;
    for (int i = 0; i < static_cast<int>(word.size()); ++i)
      letters_[static_cast<std::size_t>((best->row + i * best->step.row) * size_ + best->column +
                                        i * best->step.column)] = word[static_cast<std::size_t>(i)];
    return true;
  }

  std::string filler() {
    if (rules_.frequency.empty()) {
      const Spelling& word = words_[random_.below(words_.size())];
      return word[random_.below(word.size())];
    }
    double total = 0;
    for (const auto& [letter, share] : rules_.frequency) total += share;
    double at = total * (static_cast<double>(random_.next() >> 11) * 0x1.0p-53);
    for (const auto& [letter, share] : rules_.frequency)
      if ((at -= share) < 0) return letter;
    return rules_.frequency.back().first;
  }

  template <class Visit>
  void hits(const Spelling& pattern, const Visit& visit) const {
    const int n = static_cast<int>(pattern.size());
    for (int row = 0; row < size_; ++row)
      for (int column = 0; column < size_; ++column) {
        if (at(column, row) != pattern.front()) continue;
        for (const GridStep& step : grid_steps()) {
          if (!inside(column + (n - 1) * step.column, row + (n - 1) * step.row)) continue;
          int i = 1;
          while (i < n && at(column + i * step.column, row + i * step.row) ==
                              pattern[static_cast<std::size_t>(i)])
            ++i;
          if (i == n && !visit(Hit{column, row, step, n})) return;
        }
      }
  }

  // The squares of a listed word hold it whole: it stands there on purpose.
  bool within_a_word(const Hit& hit) const {
    for (std::size_t w = 0; w < words_.size(); ++w) {
      const PlacedWord& p = placed_[w];
      const Hit word{p.column, p.row, p.step, static_cast<int>(words_[w].size())};
      bool all = true;
      for (int i = 0; i < hit.length && all; ++i) {
        bool found = false;
        for (int j = 0; j < word.length && !found; ++j)
          found = word.square(size_, j) == hit.square(size_, i);
        all = found;
      }
      if (all) return true;
    }
    return false;
  }

  std::optional<Hit> first_fault() const {
    std::optional<Hit> fault;
    for (std::size_t w = 0; w < words_.size() && !fault; ++w)
      hits(words_[w], [&](const Hit& hit) {
        // A palindrome is found from both its ends, in the same squares.
        if (own(hit, w)) return true;
        fault = hit;
        return false;
      });
    for (std::size_t u = 0; u < rules_.unwanted.size() && !fault; ++u)
      hits(rules_.unwanted[u], [&](const Hit& hit) {
        if (within_a_word(hit)) return true;
        fault = hit;
        return false;
      });
    return fault;
  }

  bool own(const Hit& hit, std::size_t w) const {
    const PlacedWord& p = placed_[w];
    const Hit mine{p.column, p.row, p.step, hit.length};
    const int last = hit.length - 1;
    return (mine.square(size_, 0) == hit.square(size_, 0) &&
            mine.square(size_, last) == hit.square(size_, last)) ||
           (mine.square(size_, 0) == hit.square(size_, last) &&
            mine.square(size_, last) == hit.square(size_, 0));
  }

  const std::vector<Spelling>& words_;
  const GridRules& rules_;
  int size_;
  Random& random_;
  std::vector<std::string> letters_;
  std::vector<bool> fixed_;  // squares that a word covers
  std::vector<PlacedWord> placed_;
};

}  // namespace

const std::vector<GridStep>& grid_steps() {
  static const std::vector<GridStep> steps = {{1, 0},  {0, 1},  {1, 1},   {-1, 1},
                                              {-1, 0}, {0, -1}, {-1, -1}, {1, -1}};
  return steps;
}

bool hides(const Spelling& longer, const Spelling& shorter) {
  const auto stands = [&](const Spelling& part) {
    return std::search(longer.begin(), longer.end(), part.begin(), part.end()) != longer.end();
  };
  return stands(shorter) || stands(reversed(shorter));
}

WordGrid word_search(const std::vector<Spelling>& words, const GridRules& rules, Random& random) {
  for (std::size_t a = 0; a < words.size(); ++a)
    for (std::size_t b = 0; b < words.size(); ++b)
      if (words[a].empty() || (a != b && hides(words[a], words[b])))
        throw std::logic_error("a word of a word search hides another");
  std::size_t longest = 1, all = 0;
  for (const Spelling& word : words) {
    longest = std::max(longest, word.size());
    all += word.size();
  }
  int size = std::max(rules.least_size, static_cast<int>(longest));
  // Words may fill two thirds of the squares at most.
  while (2 * size * size < 3 * static_cast<int>(all)) ++size;
  for (;; ++size)
    for (int layout = 0; layout < layouts_a_size; ++layout) {
      Builder builder(words, rules, size, random);
      if (builder.place_all() && builder.fill()) return builder.take();
    }
}

}  // namespace platewright::compose
