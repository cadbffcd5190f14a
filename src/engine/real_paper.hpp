// The page that sheets at true size are printed on.
#pragma once

#include <string>

#include "platewright/paper.hpp"
#include "platewright/style.hpp"

namespace platewright {

// letter-a4, mm: as wide as A4 and as high as letter.
inline constexpr double letter_a4_width = 210.0, letter_a4_height = 279.4;

struct RealPaper {
  std::string name;
  double width = 0, height = 0;  // mm, portrait
  double margin = 0;
};

// A known paper, WxH, or letter-a4, which prints whole and at its size on either.
// Findings of `find_paper`.
Result<RealPaper> real_paper(const std::string& text, const Style& style);

}  // namespace platewright
