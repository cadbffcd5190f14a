// Figures drawn by librsvg alone and by our three outputs, as pixels.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "platewright/figure.hpp"

namespace conformance {

struct Drawn {
  int width = 0, height = 0;
  std::vector<std::uint32_t> rgb;  // 0xRRGGBB on white
  bool blank() const;              // white all over
};

// An SVG drawn by librsvg, so many pixels wide and high: on the paper, or on nothing and then
// laid on it.
std::optional<Drawn> by_librsvg(const std::string& svg, int width, int height, bool apart = false);
// A PDF's first page by poppler.
std::optional<Drawn> by_poppler(const std::string& pdf, int width, int height);
std::optional<Drawn> of_png(const std::string& png);

// A page that shows the figure and nothing else, one mm a unit.
struct Outputs {
  std::string png, svg, pdf;
  std::string fault;
};
Outputs outputs_of(const platewright::Figure& figure, double pixels_a_unit);

// Share of the pixels that are farther than `levels`, in some channel, from all that the
// other picture has in a place and its eight neighbours: smoothed edges may be a pixel off.
double apart(const Drawn& a, const Drawn& b, int levels);

}  // namespace conformance
