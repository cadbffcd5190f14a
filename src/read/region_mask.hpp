// Which pixels of the raster belong to a region.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "read/region_pixels.hpp"
#include "read/svg_drawing.hpp"

namespace platewright::read {

// A shape of a region and whether the figure fills it.
struct RegionShape {
  std::string id;
  bool filled = false;
};

struct Region {
  std::string id;
  std::vector<RegionShape> shapes;  // the region itself or what it holds, but not its parts' shapes
  bool plain = true;                // shapes are all that it holds: no image, no <use>
  FigureBox box;                    // geometry, with strokes
  bool thin = false;        // strokes reach so far beyond the shape that a box of it would cut them
  std::vector<int> within;  // indices of the regions that hold this one as a part
};

// What a region paints by itself.
struct RegionPaint {
  Mask mask;
  std::array<bool, 6> has_colour{};  // so much of a colour that it can't be told by it
};

// An element and what is put at the end of its style attribute, where it wins
// over all else.
struct Restyled {
  std::string id;
  std::string declarations;
  bool with_content = false;  // the same for all that is in the element
};
// The figure's document with such changes and the definitions of `flip_filters`.
using RestyledDocument = std::function<std::string(const std::vector<Restyled>&)>;

// For each region the pixels where the figure really shows it: painted by it
// and not covered by what lies above; a region's parts (other regions within it)
// are left out, unless hardly anything else of it is to be seen. A region that
// shows nowhere (an invisible hotspot, or hidden by what lies above) has its
// filled geometry instead.
//
// How: the figure is drawn again with its regions in colours of their own, and
// the pixels that change to a region's colour are that region's. Regions whose
// paint meets have different colours; where six are not enough, there are more
// pictures. What holds an image or a <use> is recoloured by a filter, which is
// slower.
// `paints` are of the same regions, `whole` is the document without changes, drawn; `bytes` is
// its length.
std::vector<Mask> visible_masks(const RestyledDocument& document, std::size_t bytes,
                                const RasterFrame& frame, const Pixels& whole,
                                const std::vector<Region>& regions,
                                std::vector<RegionPaint> paints);

// What each region paints by itself; finds out which shapes have a fill. `drawing` is the document
// without changes, and is good for nothing else afterwards.
std::vector<RegionPaint> region_paints(Drawing& drawing, const RasterFrame& frame,
                                       std::vector<Region>& regions);

std::string flip_filters();

}  // namespace platewright::read
