#include "base/utf8.hpp"

namespace platewright {

std::optional<Utf8Character> utf8_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(at);
  if (lead < 0x80) return Utf8Character{lead, 1};
  std::size_t bytes = 0;
  char32_t code = 0;
  char32_t least = 0;
  if (lead >= 0xc2 && lead < 0xe0) {
    bytes = 2, code = lead & 0x1fU, least = 0x80;
  } else if (lead >= 0xe0 && lead < 0xf0) {
    bytes = 3, code = lead & 0x0fU, least = 0x800;
  } else if (lead >= 0xf0 && lead < 0xf5) {
    bytes = 4, code = lead & 0x07U, least = 0x10000;
  } else {
    return std::nullopt;
  }
  if (text.size() - at < bytes) return std::nullopt;
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(at + i) & 0xc0U) != 0x80U) return std::nullopt;
    code = (code << 6U) | (byte(at + i) & 0x3fU);
  }
  if (code < least || code > 0x10ffff || (code >= 0xd800 && code < 0xe000)) return std::nullopt;
  return Utf8Character{code, bytes};
}

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character) return at;
    at += character->bytes;
  }
  return std::nullopt;
}

void append_utf8(std::string& to, char32_t code) {
  const auto put = [&](char32_t byte) { to.push_back(static_cast<char>(byte)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xc0U | (code >> 6U));
    put(0x80U | (code & 0x3fU));
  } else if (code < 0x10000) {
    put(0xe0U | (code >> 12U));
    put(0x80U | ((code >> 6U) & 0x3fU));
    put(0x80U | (code & 0x3fU));
  } else {
    put(0xf0U | (code >> 18U));
    put(0x80U | ((code >> 12U) & 0x3fU));
    put(0x80U | ((code >> 6U) & 0x3fU));
    put(0x80U | (code & 0x3fU));
  }
}

std::size_t utf8_length(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    const auto character = utf8_at(text, at);
    at += character ? character->bytes : 1;
  }
  return count;
}

std::string small_letters(std::string_view text) {
  std::string small(text);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

}  // namespace platewright
