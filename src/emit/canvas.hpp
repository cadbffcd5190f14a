// Page items on a Cairo context: what PDF and PNG share.
#pragma once

#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

#include "compose/page.hpp"
#include "text/text.hpp"

namespace platewright::emit {

struct Canvas {
  cairo_t* cairo = nullptr;  // unit: the page's millimetre
  const text::Typesetter* typesetter = nullptr;
  bool selectable = true;  // type as type; else as filled outlines, placed to the subpixel
  std::function<void(const compose::FigureItem&)> draw_figure;
  // Around each group, and around each line of type as a group of role
  // `instruction` (a paragraph); may be empty.
  std::function<void(compose::Role, const std::string& anchor)> enter;
  std::function<void(compose::Role)> leave;
  // The miter limit of a leader's strokes, whose joins are round: by it the PDF
  // tells them from all other lines once Cairo has written them. May be empty.
  std::function<double(const compose::Group&)> leader_miter;
  double miter_limit = 4;  // SVG's default
};

// What Cairo is to call with the bytes of a file; the closure is a std::string.
cairo_status_t append_bytes(void* text, const unsigned char* bytes, unsigned count);

void draw(const Canvas& canvas, const std::vector<compose::Item>& items);

}  // namespace platewright::emit
