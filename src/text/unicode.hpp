// UTF-8 as type needs it: cleaned, cut into the pieces between line-break
// opportunities, with its reading direction. Line breaking: UAX 14 by Pango.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "text/text.hpp"

namespace platewright::text {

// Valid UTF-8 without controls and noncharacters: bad bytes become U+FFFD, tabs
// spaces, every kind of line end '\n'.
std::string cleaned(std::string_view text);

std::vector<char32_t> characters(std::string_view utf8);

// True when a face needs no glyph for it: spaces, controls, joiners, variation
// selectors, soft hyphens.
bool needs_no_glyph(char32_t character);

// Right to left when the language is written so and the text does not speak
// against it, else by the first strong character (UAX 9, rule P2).
Direction direction_of(std::string_view cleaned_text, std::string_view language);

// Text between two neighbouring line-break opportunities, `begin`..`end` in
// bytes of the cleaned text, with its trailing spaces or soft hyphen.
struct Piece {
  std::size_t begin = 0, end = 0;
  bool forced = false;  // a '\n' (outside the piece) or the text's end follows
};
std::vector<Piece> pieces_of(const std::string& cleaned_text, std::string_view language);

// The ends of the user-perceived characters of `cleaned_text`, in bytes.
std::vector<std::size_t> grapheme_ends(const std::string& cleaned_text, std::string_view language);

// What one line shows of text[begin, end): outer spaces and invisible break
// marks gone; `broken` says that the text goes on, so a soft hyphen at its end shows.
std::string visible(std::string_view text, std::size_t begin, std::size_t end, bool broken);

}  // namespace platewright::text
