// A list of words that terms are looked up in: one word or phrase a line, `#`
// for remarks; a spelling dictionary (a count first, flags after a slash); or
// WordNet's own files (Debian's wordnet-base: data.noun), taken as they are.
#pragma once

#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "platewright/result.hpp"

namespace platewright::read {

struct WordList {
  std::unordered_set<std::string> phrases;  // whole entries, in one spelling
  std::unordered_set<std::string> words;    // their words
  std::vector<std::string> written;         // words as they stand, to suggest
};

// Adds a list to those read before. Errors: of `file_bytes`, `word-list` (no UTF-8, no words).
Findings add_words(WordList& list, const std::string& path);
Findings add_words(WordList& list, std::string_view bytes, const std::string& path);

// A term in one spelling: small letters, what stands in brackets left out, hyphens as
// blanks, and of British and American pairs one (oe/e, ae/e, -our/-or, -re/-er, grey/gray).
std::vector<std::string> spelt(std::string_view term);

// The words of a term that the list does not know: none where it has the whole term, a word of
// one or two letters, or a word's singular.
std::vector<std::string> unknown_words(const WordList& list, std::string_view term);

}  // namespace platewright::read
