// The words that the program itself puts on sheets, in one language.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace platewright {

// Keys are fixed (see words.cpp); every language file must have them all.
// Placeholders in braces, e.g. "{number}", are replaced by `fill`.
struct Words {
  std::string language;
  std::map<std::string, std::string, std::less<>> by_key;
  // The key must exist: std::logic_error otherwise, a fault of the program.
  const std::string& at(std::string_view key) const;
};

// A key and the placeholders that its text must have, in any order.
struct WordKey {
  std::string_view key;
  std::vector<std::string_view> placeholders;
};
const std::vector<WordKey>& word_keys();

// `text` with each "{placeholder}" replaced by `value`.
std::string fill(std::string text, std::string_view placeholder, std::string_view value);

}  // namespace platewright
