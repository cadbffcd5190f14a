// The page that sheets at true size are printed on.
#pragma once

#include <string>

#include "platewright/paper.hpp"
#include "platewright/style.hpp"

namespace platewright {

struct RealPaper {
  std::string name;
  double width = 0, height = 0;  // mm, portrait
  double margin = 0;
};

// A known paper, WxH, or letter-a4: as wide as A4 and as high as letter, so
// that it prints whole and at its size on either. Findings of `find_paper`.
Result<RealPaper> real_paper(const std::string& text, const Style& style);

}  // namespace platewright
