// The drawn shapes and groups that anchors name, as they stand in the finished tree.
#pragma once

#include <vector>

#include "read/region_mask.hpp"
#include "read/svg_document.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

struct DrawnRegion {
  std::size_t declaration = 0;
  Region region;
  bool measured = false;  // librsvg knows an extent of it
};

// In document order, several of one declaration where <use> repeats it. Gives
// ids to those that have none.
std::vector<DrawnRegion> drawn_regions(const pugi::xml_node& root, IdMap& ids);

// Notes the shapes of each region, those of a region within it left to that one, giving ids to
// those that have none.
void note_shapes(const pugi::xml_node& root, std::vector<DrawnRegion>& regions, IdMap& ids);

// Asks for the boxes of the regions not yet measured.
void measure_regions(const Drawing& drawing, const FigureBox& view,
                     std::vector<DrawnRegion>& regions);

}  // namespace platewright::read
