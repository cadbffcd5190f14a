// Shapes laid on as few equal pages as can be, turned in steps. Pure; mm.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "place/outline.hpp"

namespace platewright::place {

struct NestShape {
  std::string name;              // breaks ties
  std::vector<Polygon> outline;  // parts that stay together
  // A box that keeps upright below the turned shape, e.g. for its name; zero-sized: none.
  double tag_width = 0, tag_height = 0;
};

struct NestRequest {
  double width = 0, height = 0;  // of a page's printable area
  double gap = 3;                // least distance between shapes
  double cell = 1;               // of the raster on which they are laid
  int turns = 24;                // steps of a full turn that are tried
  int orders = 24;               // orders of the shapes that are tried
};

struct NestPlace {
  int page = -1;        // -1: fits on no page in any turn
  double turn = 0;      // degrees clockwise about (0, 0) of the shape
  double x = 0, y = 0;  // where (0, 0) of the shape comes to lie, from the area's corner
  PageBox tag;          // in the area
};

struct Nest {
  std::vector<NestPlace> places;  // of each shape
  int pages = 0;
  double area = 0;  // of all shapes that were laid, mm2
  int bound = 0;    // pages that the area alone needs: no nest can do with fewer
};

// Lays each shape at the lowest free place, first over all pages in use, largest
// first; then again in other orders, and keeps the fewest pages. Deterministic.
Nest nested(const std::vector<NestShape>& shapes, const NestRequest& request);

// The polygon turned clockwise (y points down) about (0, 0).
Polygon turned(const Polygon& polygon, double degrees);

}  // namespace platewright::place
