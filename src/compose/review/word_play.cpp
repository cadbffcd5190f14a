#include "compose/review/word_play.hpp"

#include <algorithm>
#include <numeric>

namespace platewright::compose {

bool spells(const Spelling& letters, const std::vector<Spelling>& unwanted) {
  return std::any_of(unwanted.begin(), unwanted.end(), [&](const Spelling& bad) {
    return std::search(letters.begin(), letters.end(), bad.begin(), bad.end()) != letters.end();
  });
}

Spelling scrambled(const Spelling& word, const std::vector<Spelling>& words,
                   const std::vector<Spelling>& unwanted, Random& random) {
  const auto good = [&](const Spelling& letters) {
    return letters != word && std::find(words.begin(), words.end(), letters) == words.end() &&
           !spells(letters, unwanted);
  };
  Spelling letters = word;
  for (int attempt = 0; attempt < 200; ++attempt) {
    shuffle(letters, random);
    if (good(letters)) return letters;
  }
  // Few orders are left: the first good one.
  std::sort(letters.begin(), letters.end());
  if (letters.size() <= 8)
    do {
      if (good(letters)) return letters;
    } while (std::next_permutation(letters.begin(), letters.end()));
  return word;
}

std::vector<bool> gaps(std::size_t letters, int percent, Random& random) {
  std::vector<bool> gone(letters, false);
  if (letters < 2) return gone;
  const std::size_t wanted =
      std::clamp<std::size_t>((letters * static_cast<std::size_t>(percent) + 50) / 100, 1,
                              letters - 1);
  std::vector<std::size_t> order(letters - 1);
  std::iota(order.begin(), order.end(), 1U);
  shuffle(order, random);
  std::size_t count = 0;
  for (const bool strict : {true, false})
    for (const std::size_t i : order) {
      if (count == wanted) return gone;
      if (gone[i]) continue;
      std::size_t from = i, to = i;
      while (from > 0 && gone[from - 1]) --from;
      while (to + 1 < letters && gone[to + 1]) ++to;
      if (strict && to - from >= 2) continue;
      gone[i] = true;
      ++count;
    }
  return gone;
}

}  // namespace platewright::compose
