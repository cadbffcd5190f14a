// What drawing a figure would cost: filters with numbers that no renderer can
// bear are tamed, and a figure of too many costly parts is refused, before
// librsvg or later a browser is given it.
#pragma once

#include "read/svg_document.hpp"

namespace platewright::read {

// Changes filters in place: feTurbulence to at most 8 octaves, feMorphology to
// a hundredth and feGaussianBlur to a twentieth of the figure's larger side, and no
// feConvolveMatrix of more than 225 numbers or of another count than its order
// asks for. Warning `svg-filter`, once.
void tame_filters(SvgDocument& document, const FigureBox& view, Findings& findings);

// False, with the finding `figure-heavy`, when translucent groups, filters and
// masks are so many, or texts so long, that one drawing takes seconds.
bool check_weight(const SvgDocument& document, Findings& findings);

}  // namespace platewright::read
