#include "base/quote.hpp"

#include <array>

#include "base/utf8.hpp"

namespace platewright {

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view space = " \t\r\n";
  const std::size_t first = text.find_first_not_of(space);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(space) - first + 1);
}

std::string escaped(std::string_view text) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character) {
      out += "\xef\xbf\xbd";
      ++at;
      continue;
    }
    const char32_t code = character->code;
    // Direction overrides would let a file reorder our message on screen.
    const bool reorders = (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069);
    if (code == '\n') {
      out += "\\n";
    } else if (code == '\t') {
      out += "\\t";
    } else if (is_control(code) || reorders) {
      out += "\\u";
      for (const unsigned shift : {12U, 8U, 4U, 0U}) out += digits[(code >> shift) & 0xfU];
    } else {
      out += text.substr(at, character->bytes);
    }
    at += character->bytes;
  }
  return out;
}

std::string in_quotes(std::string_view text, std::size_t most) {
  std::size_t end = 0;
  for (std::size_t count = 0; end < text.size() && count < most; ++count) {
    const auto character = utf8_at(text, end);
    end += character ? character->bytes : 1;
  }
  return '"' + escaped(text.substr(0, end)) + (end < text.size() ? "…\"" : "\"");
}

std::string listed(std::span<const std::string_view> names) {
  // A message that lists everything is read by nobody.
  constexpr std::size_t most = 12;
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i == most) return out + " or one of " + std::to_string(names.size() - most) + " more";
    if (i > 0) out += i + 1 == names.size() ? " or " : ", ";
    out += in_quotes(names[i]);
  }
  return out;
}

}  // namespace platewright
