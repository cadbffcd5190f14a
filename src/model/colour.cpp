#include "platewright/colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "base/quote.hpp"

namespace platewright {
namespace {

std::optional<unsigned> hex_digit(char c) {
  if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a' + 10);
  if (c >= 'A' && c <= 'F') return static_cast<unsigned>(c - 'A' + 10);
  return std::nullopt;
}

// One sRGB component to linear light, WCAG 2.2 "relative luminance" (with the
// sRGB standard's threshold 0.04045; no 8-bit value lies between it and WCAG's).
double linear(std::uint8_t component) {
  static const std::array<double, 256> table = [] {
    std::array<double, 256> all{};
    for (std::size_t k = 0; k < all.size(); ++k) {
      const double c = static_cast<double>(k) / 255.0;
      all[k] = c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    }
    return all;
  }();
  return table[component];
}

}  // namespace

Result<Colour> parse_colour(std::string_view text) {
  const std::string_view all = trimmed(text);
  std::array<unsigned, 6> digits{};
  bool good = (all.size() == 4 || all.size() == 7) && all.front() == '#';
  for (std::size_t i = 1; good && i < all.size(); ++i) {
    const auto digit = hex_digit(all[i]);
    good = digit.has_value();
    if (good) digits[i - 1] = *digit;
  }
  if (!good)
    return error("colour-invalid", {}, in_quotes(text) + " is not a colour",
                 "write it as \"#1a2b3c\" or \"#abc\", in quotes");
  const auto component = [&](std::size_t i) {
    return all.size() == 4 ? static_cast<std::uint8_t>(digits[i] * 17)
                           : static_cast<std::uint8_t>(digits[2 * i] * 16 + digits[2 * i + 1]);
  };
  return Colour{component(0), component(1), component(2)};
}

std::string to_hex(Colour colour) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out = "#";
  for (const unsigned component : {colour.red, colour.green, colour.blue}) {
    out += digits[component / 16];
    out += digits[component % 16];
  }
  return out;
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(Colour a, Colour b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

}  // namespace platewright
