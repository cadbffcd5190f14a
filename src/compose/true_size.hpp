// Sheets at true size: a cover that shows how they go together, and one sheet
// for each tile with its map, ruler, crosses and glue strips.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compose/guides.hpp"
#include "place/outline.hpp"
#include "place/tiling.hpp"

namespace platewright::compose {

// A blank's line stands so high above the lower edge of its box, mm.
inline constexpr double blank_rise = 1.6;

// A name or a line to write on beside a part of the tiled figure; all in the
// true-size frame.
struct BodyLabel {
  std::string anchor;
  std::vector<text::Line> lines;  // the name; none of a blank
  double leading = 0;             // mm
  double blank_width = 0;         // > 0: a line to write on
  PageBox box;
  PagePoint port, target;
};

// Everything the sheets are made from. The true-size frame: mm from `corner`.
// Pointers are never null.
struct TrueSizeInput {
  const Figure* figure = nullptr;
  const Style* style = nullptr;
  const Words* words = nullptr;
  const text::Typesetter* typesetter = nullptr;
  const place::Occupancy* occupancy = nullptr;  // of the figure in the true-size frame
  std::vector<place::Polygon> shape;            // its silhouette, coarse, for maps
  Matter matter;
  double page_width = 0, page_height = 0, margin = 0;  // of every page, mm
  double scale = 1;                                    // mm for one figure unit
  FigurePoint corner;                                  // of the figure at the frame's (0, 0)
  int part = -1;                                       // see FigureItem
  std::vector<place::Polygon> clip;  // nothing of the figure is drawn outside; empty: no clip
  std::vector<place::Polygon> cut;   // lines to cut along, in the frame
  std::string heading;               // below a sheet's name, may be empty
  place::Tiling tiling;
  std::vector<place::Tile> order;  // to put them together in
  Art art = Art::painted;
  double outline_width = 0;  // mm at true size
  std::string length_text;   // "Height: 118 cm"
  std::string length_note;   // "Average height at age 6", may be empty
  std::optional<int> age;    // of who cuts
  std::vector<BodyLabel> labels;
  PageBox printable() const {
    return {margin, margin, page_width - 2 * margin, page_height - 2 * margin};
  }
};

// A sheet and where its things are, for the report and the tests.
struct TileSheet {
  Page page;
  place::Tile tile;
  int number = 0;     // 1.., of the printed tiles
  int step = 0;       // 1.., in the order to put them together
  PageBox place;      // of its printable box in the true-size frame
  PageBox printable;  // on the page
  Ruler ruler;
  std::vector<PagePoint> crosses;  // on the page
  std::vector<PageBox> marks;      // boxes on the page where something besides the figure is drawn
};

Page cover(const TrueSizeInput& input, Ruler& ruler);
std::vector<TileSheet> tile_sheets(const TrueSizeInput& input);

// The whole with its tiles inside `box` (as large as it goes, centred), `here`
// marked; with names when `named` is a font. Returns the box that it takes.
PageBox add_tile_map(Group& group, const TrueSizeInput& input, const PageBox& box,
                     std::optional<place::Tile> here, const text::Font* named);

// What must be said of scissors to people of this age; nothing known: a grown-up beside them.
std::string scissors_words(const Words& words, std::optional<int> age);

}  // namespace platewright::compose
