// Pages of parts to cut out: each with its cut line, its name and number, and
// where asked a flap to fold and glue.
#pragma once

#include <string>
#include <vector>

#include "compose/guides.hpp"
#include "place/nesting.hpp"

namespace platewright::compose {

// One part to cut out, in its own frame: mm from `corner` of the figure.
struct Piece {
  std::string anchor;
  int number = 0;                     // 1.., those that lie beneath first
  std::string name;                   // may be empty
  int part = -1;                      // see FigureItem
  FigurePoint corner;                 // of the figure at the frame's (0, 0)
  std::vector<place::Polygon> shape;  // outline of the part itself
  std::vector<place::Polygon> clip;   // a hair outside it: what lies on the part ends there
  std::vector<place::Polygon> cut;    // lines to cut along
  PagePoint middle;                   // of the largest circle inside the part
  double radius = 0;                  // of that circle
  PagePoint fold_from, fold_to;       // equal: no flap
};

// How a piece is marked: inside it where the words fit, else on a tag below it.
struct PieceWords {
  text::Line line;  // number and name
  bool inside = false;
};

struct PiecesInput {
  const Figure* figure = nullptr;
  const Style* style = nullptr;
  const Words* words = nullptr;
  const text::Typesetter* typesetter = nullptr;
  Matter matter;
  double page_width = 0, page_height = 0, margin = 0;
  double scale = 1;         // mm for one figure unit
  std::string length_text;  // "Height: 118 cm"
  std::string caution;      // of scissors and small pieces
  bool folds = false;       // pieces have flaps
  std::vector<Piece> pieces;
};

// The area that pieces are nested in, on the page: between heading and ruler.
PageBox pieces_area(const PiecesInput& input);

PieceWords piece_words(const PiecesInput& input, const Piece& piece);

struct PiecePage {
  Page page;
  Ruler ruler;
};
// The pages of a nest over `nested`, which names pieces by their index.
std::vector<PiecePage> piece_pages(const PiecesInput& input, const std::vector<std::size_t>& nested,
                                   const place::Nest& nest, const std::vector<PieceWords>& words,
                                   std::size_t all_pages);

}  // namespace platewright::compose
