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

// `art` is the document of the region alone. Errors `region-empty`, `piece-tiny`.
Result<ShapedPiece> shaped_piece(const Figure& figure, const std::string& anchor,
                                 const std::string& art, double mm_per_unit, const CutRule& rule);

}  // namespace platewright
