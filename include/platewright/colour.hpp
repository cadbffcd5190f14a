// An sRGB colour, opaque.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "platewright/result.hpp"

namespace platewright {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  friend auto operator<=>(const Colour&, const Colour&) = default;
};

// "#1a2b3c" or "#abc". Error `colour-invalid`.
Result<Colour> parse_colour(std::string_view text);
std::string to_hex(Colour colour);

// WCAG 2.2 relative luminance and contrast ratio (1..21).
double luminance(Colour colour);
double contrast(Colour a, Colour b);

}  // namespace platewright
