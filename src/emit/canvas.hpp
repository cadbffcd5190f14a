// Page items on a Cairo context: what PDF and PNG share.
#pragma once

#include <cairo.h>

#include <functional>
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
  std::function<void(compose::Role)> enter, leave;
};

void draw(const Canvas& canvas, const std::vector<compose::Item>& items);

}  // namespace platewright::emit
