// A figure's tree made safe and regular: only SVG elements in the default
// namespace, nothing that runs, moves, links or reaches outside, images
// embedded, style sheets cleaned.
#pragma once

#include "read/svg_document.hpp"

namespace platewright::read {

// Changes the tree in place. Unknown vocabularies of drawing programs go
// silently, what might be missed is one warning for each kind (svg_dropped).
// Errors: `svg-missing` when the root is not <svg>, and those of images.
// Warning: `svg-namespace` when no namespace is declared.
void sanitise(SvgDocument& document, const Limits& limits, Findings& findings);

}  // namespace platewright::read
