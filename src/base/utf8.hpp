// UTF-8 (RFC 3629): checking, walking and counting; nothing here depends on the locale.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace platewright {

// One character: its code point and how many bytes it takes (1..4).
struct Utf8Character {
  char32_t code = 0;
  std::size_t bytes = 1;
};

// The character at `at`, or nothing where the bytes there are not UTF-8
// (overlong forms, surrogates and values above U+10FFFF are not). at < text.size().
std::optional<Utf8Character> utf8_at(std::string_view text, std::size_t at);

// Offset of the first byte that is not part of valid UTF-8.
std::optional<std::size_t> first_invalid_utf8(std::string_view text);

void append_utf8(std::string& to, char32_t code);

// Characters in valid UTF-8; each stray byte counts as one.
std::size_t utf8_length(std::string_view text);

// A to Z made small; all else as it is.
std::string small_letters(std::string_view text);

// C0 and C1 control characters and DEL, line break and tab among them.
constexpr bool is_control(char32_t code) { return code < 0x20 || (code >= 0x7f && code < 0xa0); }

}  // namespace platewright
