#include "platewright/words.hpp"

#include <stdexcept>

namespace platewright {

const std::vector<WordKey>& word_keys() {
  static const std::vector<WordKey> keys = {
      // Kinds of sheet, as headings and in the contents of a pack.
      {"poster", {}},
      {"worksheet", {}},
      {"copywork", {}},
      {"key", {}},
      {"colouring", {}},
      {"numbered", {}},
      // Lines at the top.
      {"name-line", {}},
      {"instruction-worksheet", {}},
      {"instruction-worksheet-numbered", {}},
      {"instruction-copywork", {}},
      {"instruction-copywork-numbered", {}},
      {"instruction-colouring", {}},
      {"key-mark", {}},
      {"untitled", {}},
      // Blocks beside and below the figure.
      {"word-bank", {}},
      {"list-heading", {}},
      // Footers.
      {"credit", {"credit"}},
      {"compiled", {"compiler"}},
      {"licence", {"licence"}},
      {"set-ages", {"from", "to"}},
      {"set-age", {"age"}},
      {"fingerprint", {"code"}},
      {"page", {"page", "pages"}},
      {"learning-note", {}},
      {"scissors-caution", {}},
      // Sheets at true size, and pieces to cut out.
      {"true-size", {}},
      {"print-at-100", {}},
      {"check-ruler", {}},
      {"sheet-count", {"number"}},
      {"sheet-of", {"number", "total"}},
      {"between-length", {"from", "to", "length"}},
      {"stature-length", {"length"}},
      {"stature-of-age", {"age"}},
      {"stature-of-percentile", {"percentile", "age"}},
      {"decimal-mark", {}},
      {"trim-edges", {}},
      {"glue-strips", {}},
      {"assemble", {"name"}},
      {"assemble-order", {"order"}},
      {"empty-left-out", {}},
      {"glue", {}},
      {"scissors-adult", {}},
      {"scissors-careful", {}},
      {"pieces", {}},
      {"cut-solid", {}},
      {"fold-dashed", {}},
      {"pieces-place", {}},
      {"no-under-threes", {}},
      // Review pages and games.
      {"paste", {}},
      {"matching", {}},
      {"locate", {}},
      {"sort", {}},
      {"odd-one-out", {}},
      {"true-or-false", {}},
      {"fill-in", {}},
      {"word-search", {}},
      {"criss-cross", {}},
      {"scramble", {}},
      {"missing-letters", {}},
      {"maze", {}},
      {"cards", {}},
      {"memory", {}},
      {"bingo", {}},
      {"quiz", {}},
      {"track", {}},
      {"mat", {}},
      {"instruction-paste", {}},
      {"instruction-matching", {}},
      {"instruction-matching-pictures", {}},
      {"instruction-locate", {}},
      {"instruction-sort", {}},
      {"instruction-odd-one-out", {}},
      {"instruction-true-or-false", {}},
      {"instruction-fill-in", {}},
      {"instruction-word-search", {}},
      {"words-across", {}},
      {"words-down", {}},
      {"words-aslant", {}},
      {"words-backwards", {}},
      {"instruction-criss-cross", {}},
      {"instruction-scramble", {}},
      {"instruction-missing-letters", {}},
      {"instruction-maze", {"number"}},
      {"instruction-cards", {}},
      {"instruction-memory", {}},
      {"instruction-memory-triples", {}},
      {"instruction-bingo", {}},
      {"instruction-bingo-caller", {}},
      {"instruction-quiz", {}},
      {"instruction-track", {}},
      {"instruction-mat", {}},
      {"across", {}},
      {"down", {}},
      {"is-true", {}},
      {"is-false", {}},
      {"right-name", {"name"}},
      {"its-purpose", {}},
      {"two-facts", {}},
      {"free-square", {}},
      {"caller-cards", {}},
      {"card-number", {"number"}},
      {"question", {}},
      {"answer", {}},
      {"start", {}},
      {"finish", {}},
      {"playing-pieces", {}},
      {"print-both-sides", {}},
      {"print-both-sides-short", {}},
      {"dough-caution", {}},
      // Pages that a pack adds.
      {"contents", {}},
      {"answer-keys", {}},
      {"keys-apart", {}},
      {"paper-name", {"paper"}},
      {"caution", {}},
      {"scan-code", {}},
      // For screen readers: what a figure and a page show.
      {"describe-figure", {"title", "number"}},
      {"describe-blank", {"number"}},
  };
  return keys;
}

const std::string& Words::at(std::string_view key) const {
  const auto found = by_key.find(key);
  if (found == by_key.end()) throw std::logic_error("no such key of words: " + std::string(key));
  return found->second;
}

std::string fill(std::string text, std::string_view placeholder, std::string_view value) {
  const std::string mark = '{' + std::string(placeholder) + '}';
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at)) {
    text.replace(at, mark.size(), value);
    at += value.size();  // never look inside the value
  }
  return text;
}

}  // namespace platewright
