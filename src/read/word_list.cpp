#include "read/word_list.hpp"

#include <algorithm>
#include <array>

#include "base/quote.hpp"
#include "base/utf8.hpp"
#include "read/read.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_bytes = 64u << 20;

// Small letters for those of Latin, Greek and Cyrillic that have one at a fixed
// distance or next to them (Unicode's blocks from Basic Latin to Cyrillic).
char32_t small(char32_t c) {
  if (c < 0x80) return c >= 'A' && c <= 'Z' ? c + 32 : c;
  if (c >= 0xC0 && c <= 0xDE && c != 0xD7) return c + 32;
  if ((c >= 0x100 && c <= 0x137) || (c >= 0x14A && c <= 0x177)) return c | 1;
  if (c >= 0x391 && c <= 0x3A9) return c + 32;
  if (c >= 0x410 && c <= 0x42F) return c + 32;
  if (c >= 0x400 && c <= 0x40F) return c + 80;
  return c;
}

bool is_vowel(char c) { return std::string_view("aeiouy").find(c) != std::string_view::npos; }

bool ends_with(std::string_view word, std::string_view end) { return word.ends_with(end); }

// One spelling of a word that British and American English spell in two ways.
std::string one_spelling(std::string word) {
  const auto replace = [&](std::string_view what, std::string_view by) {
    for (std::size_t at = word.find(what); at != std::string::npos; at = word.find(what, at))
      word.replace(at, what.size(), by);
  };
  replace("\u0153", "e");
  replace("\u00e6", "e");
  replace("oe", "e");
  replace("ae", "e");
  replace("grey", "gray");
  if (word.size() > 5 && ends_with(word, "our")) word.replace(word.size() - 3, 3, "or");
  if (word.size() > 4 && ends_with(word, "re") && !is_vowel(word[word.size() - 3]))
    word.replace(word.size() - 2, 2, "er");
  return word;
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  int brackets = 0;
  const auto end = [&] {
    if (!word.empty()) words.push_back(std::move(word));
    word.clear();
  };
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    const char32_t c = character ? character->code : U' ';
    at += character ? character->bytes : 1;
    if (c == U'(') ++brackets;
    if (c == U')') brackets = std::max(0, brackets - 1);
    if (brackets > 0 || c == 0xAD) continue;  // soft hyphen
    const bool letter = (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || c == U'\'' ||
                        (c >= 0xC0 && c != 0xD7 && c != 0xF7 && !(c >= 0x2000 && c < 0x2070));
    if (letter && c != U'\'')
      append_utf8(word, small(c));
    else if (c != U'\'')
      end();
  }
  end();
  return words;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

// What a plural may be the plural of.
std::vector<std::string> singulars(const std::string& word) {
  std::vector<std::string> all;
  const auto without = [&](std::string_view end, std::string_view by) {
    if (word.size() > end.size() + 1 && ends_with(word, end))
      all.push_back(word.substr(0, word.size() - end.size()) + std::string(by));
  };
  without("s", "");
  without("es", "");
  without("ies", "y");
  without("ves", "f");
  without("ves", "fe");
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 5> irregular = {
      {{"feet", "foot"}, {"teeth", "tooth"}, {"women", "woman"}, {"men", "man"}, {"children", "child"}}};
  for (const auto& [many, one] : irregular)
    if (word == many) all.emplace_back(one);
  return all;
}

bool knows(const WordList& list, const std::string& word) {
  if (list.words.contains(word)) return true;
  const auto all = singulars(word);
  return std::any_of(all.begin(), all.end(), [&](const std::string& one) {
    return list.words.contains(one_spelling(one));
  });
}

void add_entry(WordList& list, std::string entry) {
  std::replace(entry.begin(), entry.end(), '_', ' ');
  const std::vector<std::string> words = words_of(entry);
  if (words.empty()) return;
  std::vector<std::string> one;
  for (const std::string& word : words) {
    one.push_back(one_spelling(word));
    if (list.words.insert(one.back()).second) list.written.push_back(word);
  }
  list.phrases.insert(joined(one));
}

bool digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

// The lemmas of a line of WordNet's data files (wndb(5WN)): offset, file, kind, how many,
// hexadecimal, then each with a number behind it. False where it is none.
bool add_synset(WordList& list, std::string_view line) {
  std::vector<std::string_view> parts;
  for (std::size_t at = 0; at < line.size() && parts.size() < 600;) {
    const std::size_t end = std::min(line.find(' ', at), line.size());
    if (end > at) parts.push_back(line.substr(at, end - at));
    at = end + 1;
  }
  if (parts.size() < 6 || parts[0].size() != 8 || !digits(parts[0]) || parts[1].size() != 2 ||
      !digits(parts[1]) || parts[2].size() != 1 || parts[3].size() != 2)
    return false;
  std::size_t count = 0;
  for (const char c : parts[3]) {
    const std::size_t digit = std::string_view("0123456789abcdef").find(c);
    if (digit == std::string_view::npos) return false;
    count = 16 * count + digit;
  }
  for (std::size_t i = 0; i < count && 4 + 2 * i < parts.size(); ++i)
    add_entry(list, std::string(parts[4 + 2 * i]));
  return true;
}

}  // namespace

std::vector<std::string> spelt(std::string_view term) {
  std::vector<std::string> words = words_of(term);
  for (std::string& word : words) word = one_spelling(std::move(word));
  return words;
}

Findings add_words(WordList& list, std::string_view bytes, const std::string& path) {
  if (const auto at = first_invalid_utf8(bytes)) {
    const auto line = static_cast<int>(std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(*at), '\n')) + 1;
    return {error("word-list", {path, line, 0}, "the list is not UTF-8", "save it as UTF-8")};
  }
  const std::size_t before = list.phrases.size();
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
    std::string_view line = trimmed(bytes.substr(at, end - at));
    at = end + 1;
    if (line.empty() || line.front() == '#' || digits(line) || add_synset(list, line)) continue;
    line = line.substr(0, line.find('/'));
    add_entry(list, std::string(line.substr(0, line.find('#'))));
  }
  if (list.phrases.size() == before)
    return {error("word-list", {path, 0, 0}, "the list holds no words", "write one word a line")};
  return {};
}

Findings add_words(WordList& list, const std::string& path) {
  const auto bytes = file_bytes(path, most_bytes);
  if (!bytes.ok()) return bytes.findings();
  return add_words(list, *bytes, path);
}

std::vector<std::string> unknown_words(const WordList& list, std::string_view term) {
  const std::vector<std::string> written = words_of(term), words = spelt(term);
  if (list.phrases.contains(joined(words))) return {};
  std::vector<std::string> unknown;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (utf8_length(words[i]) > 2 && !knows(list, words[i])) unknown.push_back(written[i]);
  return unknown;
}

}  // namespace platewright::read
