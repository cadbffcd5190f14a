// A figure as every later stage sees it: a safe, self-contained SVG document,
// its anchors with the points a leader may end on, and what is painted where.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "platewright/finding.hpp"
#include "platewright/geometry.hpp"
#include "platewright/raster.hpp"

namespace platewright {

enum class AnchorKind { point, points, region };

// A place where a leader may end. `penalty` in 0..1: 0 is the best point of its
// anchor, more is worse (nearer to the region's edge). `clearance` is the
// distance to the edge of what the anchor paints, in figure units; 0 for points.
struct AnchorPoint {
  FigurePoint at;
  double penalty = 0.0;
  double clearance = 0.0;
};

struct Anchor {
  std::string name;
  AnchorKind kind = AnchorKind::point;
  // point: one; points: all are ends of one forked leader; region: one or more
  // to choose from, best first.
  std::vector<AnchorPoint> points;
  FigureBox box;          // geometry of the anchor; zero-sized for a point
  bool on_outline = false;  // reserved for leaders that end on a line rather than inside an area
  SourcePosition declared;
  // Of a region: where words on it can be read. Over its box, a cell's value is 0 where they
  // cannot, else 1 + 254 times the relative luminance there; empty for points.
  FigureGrid text_room;
  std::string element_id;  // id of the drawn shape in `Figure::svg`; empty for markers
};

struct Figure {
  std::string name;   // file name without folder and ending
  std::string title;  // the SVG's own <title>, may be empty
  std::string description;
  // UTF-8 SVG, safe to show anywhere: no scripts, handlers, entities, foreign
  // content, external references or markers; images inlined; root has a
  // viewBox equal to `view_box` and width/height equal to its size.
  std::string svg;
  FigureBox view_box;
  FigureBox painted;     // what is painted, tight, from the raster; inside or beyond view_box
  FigureGrid silhouette;  // 255 where painted
  FigureGrid detail;      // 0 calm .. 255 busy
  std::vector<Anchor> anchors;  // sorted by name
  std::vector<FigureBox> insets;    // leaders keep out of them, but for those that end there
  std::vector<std::string> hidden;  // anchors of parts that this version does not show
  const Anchor* find(std::string_view wanted) const {
    for (const Anchor& a : anchors)
      if (a.name == wanted) return &a;
    return nullptr;
  }
};

}  // namespace platewright
