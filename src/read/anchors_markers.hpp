// Where markers lie: asked of librsvg, so that every transform, viewBox and
// unit counts, also for markers that are hidden or have no size.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"
#include "read/svg_document.hpp"

namespace platewright::read {

struct MarkerPoint {
  std::size_t declaration = 0;  // index of the anchor's declaration
  FigurePoint at;
};

// The points of all markers with a declaration, in document order: the middle
// of the marker's geometry, or, where it has none, its own origin (cx, cy; x, y;
// a path's first point). Leaves the tree as it was. `why` tells librsvg's reason
// when it cannot load the figure, and nothing comes back.
std::optional<std::vector<MarkerPoint>> marker_points(SvgDocument& document, const FigureBox& view,
                                                      std::string& why);

}  // namespace platewright::read
