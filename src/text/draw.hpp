// Draws a measured line on a Cairo context exactly as it was measured: the one
// place where type meets Cairo. For emit/ only.
#pragma once

#include "text/text.hpp"

typedef struct _cairo cairo_t;

namespace platewright::text {

// The context's unit is the millimetre; the line's left end lies at (x, y) on
// the baseline. Fills with the current source; selectable in a PDF.
void show_line(const Typesetter& typesetter, cairo_t* cairo, const Line& line, double x, double y);

// Adds the outlines of the line's glyphs to the current path.
void line_path(const Typesetter& typesetter, cairo_t* cairo, const Line& line, double x, double y);

}  // namespace platewright::text
