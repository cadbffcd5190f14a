#include "text/letters.hpp"

#include <glib.h>

#include "base/utf8.hpp"
#include "text/handle.hpp"
#include "text/unicode.hpp"

namespace platewright::text {
namespace {

std::string capital(const std::string& letter) {
  const Handle<char, g_free> up(g_utf8_strup(letter.c_str(), static_cast<gssize>(letter.size())));
  const Handle<char, g_free> composed(g_utf8_normalize(up.get(), -1, G_NORMALIZE_NFC));
  return composed.get();
}

constexpr char32_t acute = 0x301;
constexpr bool is_greek(char32_t c) { return c >= 0x370 && c < 0x400; }

// Greek capitals carry no tonos, but keep the diaeresis (The Unicode Standard, 5.18).
std::string without_tonos(const std::string& letter) {
  const Handle<char, g_free> apart(
      g_utf8_normalize(letter.c_str(), static_cast<gssize>(letter.size()), G_NORMALIZE_NFD));
  std::string kept;
  bool greek = false;
  for (const char32_t c : characters(apart.get())) {
    if (!g_unichar_ismark(c)) greek = is_greek(c);
    if (!(greek && c == acute)) append_utf8(kept, c);
  }
  const Handle<char, g_free> composed(
      g_utf8_normalize(kept.c_str(), static_cast<gssize>(kept.size()), G_NORMALIZE_NFC));
  return composed.get();
}

std::string base_letters(const std::string& letter) {
  const Handle<char, g_free> apart(
      g_utf8_normalize(letter.c_str(), static_cast<gssize>(letter.size()), G_NORMALIZE_NFD));
  std::string base;
  for (const char32_t c : characters(apart.get()))
    if (!g_unichar_ismark(c)) append_utf8(base, c);
  return base;
}

}  // namespace

std::vector<std::string> capitals(std::string_view text, std::string_view language,
                                  bool fold_accents) {
  const std::string clean = cleaned(text);
  std::vector<std::string> letters;
  std::size_t begin = 0;
  for (const std::size_t end : grapheme_ends(clean, language)) {
    const std::string grapheme = clean.substr(begin, end - begin);
    begin = end;
    const std::vector<char32_t> parts = characters(grapheme);
    if (parts.empty() || !g_unichar_isalnum(parts.front())) continue;
    std::string big = without_tonos(capital(grapheme));
    if (fold_accents) big = base_letters(big);
    // A capital of two letters (SS) fills two squares.
    std::size_t from = 0;
    for (const std::size_t to : grapheme_ends(big, language)) {
      letters.push_back(big.substr(from, to - from));
      from = to;
    }
  }
  return letters;
}

}  // namespace platewright::text
