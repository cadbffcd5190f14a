// The widths of a figure's lines as they are drawn, and the same figure with
// none thinner than a printer can show.
//
// Which width a shape's line has is read off a drawing by librsvg, so that any
// CSS, unit and transform counts.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright::read {

struct LineWidths {
  std::string svg;             // the document, with what <use> shows in its place
  std::vector<double> widths;  // figure units, of each drawn shape in document order; 0: no line
};

// Whether every line is surely `least` units wide or more, by what the document
// declares alone; false says nothing.
bool surely_wide(const std::string& svg, double least);

// Nothing where the document cannot be read or drawn.
std::optional<LineWidths> line_widths(const std::string& svg, const FigureBox& view);

// The document with each thinner line `least` units wide; nothing where none is.
std::optional<std::string> with_least_line(const LineWidths& lines, double least);

}  // namespace platewright::read
