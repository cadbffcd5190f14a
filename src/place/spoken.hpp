// Numbers as witnesses say them; independent of any locale.
#pragma once

#include <cmath>
#include <string>

namespace platewright::place {

inline std::string whole(double v) { return std::to_string(std::llround(v)); }

// With one decimal unless that is 0.
inline std::string tenths(double v) {
  const long long t = std::llround(std::abs(v) * 10);
  std::string text = v < 0 && t > 0 ? "-" : "";
  text.append(std::to_string(t / 10));
  if (t % 10 != 0) text.append(1, '.').append(std::to_string(t % 10));
  return text;
}

}  // namespace platewright::place
