#include "base/number.hpp"

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>

namespace platewright {

std::optional<double> parse_number(std::string_view text) {
  double value = 0.0;
  const char* const end = text.data() + text.size();
  const auto [rest, fault] = std::from_chars(text.data(), end, value);
  if (fault != std::errc{} || rest != end || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<int> parse_integer(std::string_view text) {
  int value = 0;
  const char* const end = text.data() + text.size();
  const auto [rest, fault] = std::from_chars(text.data(), end, value);
  if (fault != std::errc{} || rest != end) return std::nullopt;
  return value;
}

std::string format_number(double value, int decimals) {
  assert(std::isfinite(value) && decimals >= 0 && decimals <= 17);
  std::array<char, 360> buffer;  // the largest double has 309 digits before the point
  const auto [end, fault] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                          std::chars_format::fixed, decimals);
  assert(fault == std::errc{});
  std::string text(buffer.data(), end);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace platewright
