// Pages of finished PDFs as pixels, and the figure drawn directly by librsvg,
// without any of the program's own drawing: what sheets are compared with.
#pragma once

#include <cairo.h>

#include <string>
#include <vector>

#include "platewright/figure.hpp"
#include "platewright/geometry.hpp"

namespace true_size_test {

struct Grey {
  int width = 0, height = 0;
  std::vector<unsigned char> values;  // 255 is white
  int at(int x, int y) const {
    return x < 0 || y < 0 || x >= width || y >= height
               ? 255
               : values[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                        static_cast<std::size_t>(x)];
  }
};

// One page, drawn by poppler. Pages count from 1.
Grey page_of(const std::string& pdf, int page, double dpi, const std::string& scratch);

// What a direct page shows: the figure's view box laid on `at`, clipped.
struct DirectPage {
  double width = 0, height = 0;  // mm
  platewright::PageBox at;
  platewright::PageBox clip;
};
// Straight from librsvg to Cairo's PDF pages.
void draw_directly(const std::string& svg, const std::vector<DirectPage>& pages,
                   const std::string& pdf);

// Where an element of the document paints: alpha of at least a half, at
// `per_unit` pixels for a figure unit, from the view box's corner.
Grey painted_by(const platewright::Figure& figure, const std::string& id, double per_unit);

}  // namespace true_size_test
