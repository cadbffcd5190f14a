#include "text/unicode.hpp"

#include <pango/pango.h>

#include <algorithm>
#include <array>

#include "base/utf8.hpp"
#include "text/handle.hpp"

namespace platewright::text {
namespace {

constexpr char32_t soft_hyphen = 0xAD, zero_width_space = 0x200B;

bool noncharacter(char32_t c) { return (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF); }

bool line_end(char32_t c) {
  return c == '\n' || c == '\v' || c == '\f' || c == 0x85 || c == 0x2028 || c == 0x2029;
}

bool written_right_to_left(std::string_view language) {
  static constexpr std::array<std::string_view, 12> languages = {
      "ar", "arc", "ckb", "dv", "fa", "he", "iw", "ps", "sd", "ug", "ur", "yi"};
  const std::string_view primary = language.substr(0, language.find_first_of("-_"));
  return std::find(languages.begin(), languages.end(), primary) != languages.end();
}

PangoLanguage* pango_language(std::string_view language) {
  return pango_language_from_string(language.empty() ? "und" : std::string(language).c_str());
}

std::vector<PangoLogAttr> log_attributes(const std::string& text, std::string_view language) {
  std::vector<PangoLogAttr> attributes(characters(text).size() + 1);
  pango_get_log_attrs(text.c_str(), static_cast<int>(text.size()), -1, pango_language(language),
                      attributes.data(), static_cast<int>(attributes.size()));
  return attributes;
}

std::size_t next(std::string_view text, std::size_t at) {
  return at + static_cast<std::size_t>(g_utf8_skip[static_cast<unsigned char>(text[at])]);
}

}  // namespace

std::string cleaned(std::string_view text) {
  const Handle<char, g_free> valid(
      g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())));
  std::string result;
  result.reserve(text.size());
  char32_t before = 0;
  for (const char32_t c : characters(valid.get())) {
    if (c == '\r') {
      result += '\n';
    } else if (line_end(c)) {
      if (!(c == '\n' && before == '\r')) result += '\n';
    } else if (c == '\t') {
      result += ' ';
    } else if (g_unichar_type(c) != G_UNICODE_CONTROL && !noncharacter(c)) {
      append_utf8(result, c);
    }
    before = c;
  }
  return result;
}

std::vector<char32_t> characters(std::string_view utf8) {
  std::vector<char32_t> result;
  for (std::size_t at = 0; at < utf8.size(); at = next(utf8, at))
    result.push_back(g_utf8_get_char(utf8.data() + at));
  return result;
}

bool needs_no_glyph(char32_t c) {
  if ((c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF) || c == 0x034F) return true;
  switch (g_unichar_type(c)) {
    case G_UNICODE_CONTROL:
    case G_UNICODE_FORMAT:
    case G_UNICODE_SPACE_SEPARATOR:
    case G_UNICODE_LINE_SEPARATOR:
    case G_UNICODE_PARAGRAPH_SEPARATOR:
      return true;
    default:
      return false;
  }
}

Direction direction_of(std::string_view text, std::string_view language) {
  bool first_is_right_to_left = false, any_strong = false, any_right_to_left = false;
  for (const char32_t c : characters(text)) {
    G_GNUC_BEGIN_IGNORE_DEPRECATIONS
    const PangoDirection direction = pango_unichar_direction(c);
    G_GNUC_END_IGNORE_DEPRECATIONS
    if (direction != PANGO_DIRECTION_LTR && direction != PANGO_DIRECTION_RTL) continue;
    const bool right_to_left = direction == PANGO_DIRECTION_RTL;
    if (!any_strong) first_is_right_to_left = right_to_left;
    any_strong = true;
    any_right_to_left = any_right_to_left || right_to_left;
  }
  const bool by_language = written_right_to_left(language) && (any_right_to_left || !any_strong);
  return by_language || first_is_right_to_left ? Direction::right_to_left
                                               : Direction::left_to_right;
}

std::vector<Piece> pieces_of(const std::string& text, std::string_view language) {
  std::vector<Piece> pieces;
  const std::vector<PangoLogAttr> attributes = log_attributes(text, language);
  std::size_t begin = 0, at = 0, index = 0;
  while (at < text.size()) {
    if (text[at] == '\n') {
      pieces.push_back({begin, at, true});
      begin = at + 1;
    } else if (at > begin && attributes[index].is_line_break) {
      pieces.push_back({begin, at, false});
      begin = at;
    }
    at = next(text, at);
    ++index;
  }
  pieces.push_back({begin, text.size(), true});
  return pieces;
}

std::vector<std::size_t> grapheme_ends(const std::string& text, std::string_view language) {
  std::vector<std::size_t> ends;
  const std::vector<PangoLogAttr> attributes = log_attributes(text, language);
  std::size_t index = 0;
  for (std::size_t at = 0; at < text.size();) {
    at = next(text, at);
    if (attributes[++index].is_cursor_position || at == text.size()) ends.push_back(at);
  }
  return ends;
}

std::string visible(std::string_view text, std::size_t begin, std::size_t end, bool broken) {
  std::vector<char32_t> line = characters(text.substr(begin, end - begin));
  const bool hyphen = broken && !line.empty() && line.back() == soft_hyphen;
  std::erase_if(line, [](char32_t c) { return c == soft_hyphen || c == zero_width_space; });
  // Only spaces at which a line may break are dropped; a writer's no-break space stays.
  const auto space = [](char32_t c) { return c == ' ' || c == 0x3000; };
  while (!line.empty() && space(line.back())) line.pop_back();
  const auto first = std::find_if_not(line.begin(), line.end(), space);
  std::string result;
  for (auto c = first; c != line.end(); ++c) append_utf8(result, *c == '\n' ? U' ' : *c);
  if (hyphen) result += '-';
  return result;
}

}  // namespace platewright::text
