// The root of a figure made regular: a viewBox, and width and height equal to
// its size, so that one viewBox unit is one user unit.
#pragma once

#include <optional>

#include "read/svg_document.hpp"

namespace platewright::read {

// The viewBox as written, or from width and height (px at 96 to the inch), or,
// when neither tells, `ink` asked for. Nothing, with a finding, when the size is
// no size: `viewbox-invalid`, `figure-size`.
struct RootSize {
  std::optional<FigureBox> box;
  bool ask_ink = false;  // neither is there: the box of what is painted serves
};
RootSize root_size(const SvgDocument& document, Findings& findings);

// False, with a finding `figure-size`, when the box cannot serve as a picture.
bool check_view(const FigureBox& box, const SourcePosition& at, Findings& findings);

void set_root(SvgDocument& document, const FigureBox& box);

// A length of SVG in user units (CSS Values 3: 96 px to the inch; em as 16 px).
// Nothing for percentages and for what is no length.
std::optional<double> user_units(std::string_view text);

}  // namespace platewright::read
