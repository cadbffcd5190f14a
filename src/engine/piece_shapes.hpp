// From a region's document to a piece: its outline, its cut line, its flap.
#pragma once

#include <vector>

#include "compose/pieces.hpp"
#include "read/read.hpp"

namespace platewright {

struct CutRule {
  double offset = 2.5;  // mm from the part to its cut line
  bool smooth = false;  // inner corners rounded, hollows filled
  double flap = 0;      // mm; 0: none
};

struct ShapedPiece {
  compose::Piece piece;    // all but number, name and part
  place::Cells cut_cells;  // in the piece's frame
};

// The cut line lies this near to the exact offset of what the part paints, mm:
// cells of 0.2 mm (1.4 of them), the outline smoothed and thinned.
inline constexpr double cut_line_tolerance = 0.5;

// `art` is the document of the region alone. Errors `region-empty`, `piece-tiny`.
Result<ShapedPiece> shaped_piece(const Figure& figure, const std::string& anchor,
                                 const std::string& art, double mm_per_unit, const CutRule& rule);

}  // namespace platewright
