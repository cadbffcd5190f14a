// Paper sizes by name or by "WxH" with a unit.
//
// ISO 216 A and B, JIS B, ANSI/ASME Y14.1, architectural, legal, tabloid.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "platewright/length.hpp"

namespace platewright {

struct Paper {
  std::string name;  // "a4"; "457.2x609.6mm" for a size given as WxH
  Length width;      // portrait: width <= height, except as asked by WxH
  Length height;
  std::string standard;  // "ISO 216", "ASME Y14.1", ...; empty for WxH
};

enum class Orientation { automatic, portrait, landscape };

// Every known paper, in the order that `papers` lists them.
const std::vector<Paper>& papers();

// "a4", "Letter", "arch-d", "18x24in", "300 x 400 mm". Sides 25 mm to 5,080 mm
// (PDF Reference 1.6, appendix C: 14,400 units). Error `paper-unknown`, with
// the nearest names, or `paper-size`.
Result<Paper> find_paper(std::string_view text);

// The same paper turned so that width <= height (portrait) or width >= height.
Paper oriented(const Paper& paper, Orientation orientation);

}  // namespace platewright
