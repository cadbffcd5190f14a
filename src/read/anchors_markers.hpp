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

// A figure's document in which all its markers are to be seen and have names.
struct ProbedMarkers {
  std::string svg;
  std::vector<std::size_t> declarations;  // by marker, in document order
};

// Of all markers with a declaration. Leaves the tree as it was.
ProbedMarkers probed_markers(SvgDocument& document);

// Their points: the middle of the marker's geometry, or, where it has none, its own origin (cx,
// cy; x, y; a path's first point). `why` tells librsvg's reason when it cannot load the figure,
// and nothing comes back.
std::optional<std::vector<MarkerPoint>> marker_points(const ProbedMarkers& probed,
                                                      const FigureBox& view, std::string& why);

}  // namespace platewright::read
