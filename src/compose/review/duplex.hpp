// Cards on sheets printed on both sides: which back lies behind which front. Pure.
#pragma once

#include "platewright/geometry.hpp"

namespace platewright::compose {

// A block of equal cards, edge to edge, in the middle of a page.
struct CardGrid {
  double page_width = 0;   // mm
  double page_height = 0;
  double card_width = 0;
  double card_height = 0;
  int columns = 0;
  int rows = 0;
  int count() const { return columns * rows; }
  PageBox box(int column, int row) const;
};

// As many cards as fit inside `margin` on all edges and above `foot` mm at the bottom,
// which stays free at the top too, so that backs meet fronts.
CardGrid card_grid(double page_width, double page_height, double margin, double foot,
                   double card_width, double card_height);

struct BackPlace {
  int column = 0;
  int row = 0;
  bool turned = false;  // by half a turn, so that it reads upright when the card is turned over
};
// Of the back of the front at (column, row). Sheets turned over their vertical edge swap
// columns. Turned over their horizontal edge they swap rows and backs stand on their heads.
BackPlace back_place(const CardGrid& grid, int column, int row, bool over_horizontal);

}  // namespace platewright::compose
