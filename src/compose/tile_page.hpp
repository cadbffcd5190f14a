// One sheet of a figure at true size in the making: the figure and its labels,
// joins with their crosses, the ruler, name and map. mm on the page.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compose/true_size.hpp"

namespace platewright::compose {

// The part of a segment that lies in a box.
std::optional<std::pair<PagePoint, PagePoint>> part_within(PagePoint a, PagePoint b,
                                                           const PageBox& box);

class TilePage {
 public:
  TilePage(const TrueSizeInput& input, TileSheet& sheet);
  void figure();
  // What of the cut lines lies on this sheet.
  void cut_lines();
  // Names and blanks that belong on this sheet.
  void labels();
  void joins();
  void ruler();
  // Name, number and map.
  void title();

 private:
  PagePoint on_page(PagePoint p) const {
    return {p.x - out_.place.x + out_.printable.x, p.y - out_.place.y + out_.printable.y};
  }
  PageBox in_whole(const PageBox& b) const {
    return {b.x - out_.printable.x + out_.place.x, b.y - out_.printable.y + out_.place.y, b.w, b.h};
  }
  void note(const PageBox& box) {
    out_.marks.push_back(box);
    taken_.push_back(box);
  }
  // The part of a segment of the whole that lies on this sheet.
  std::optional<std::pair<PagePoint, PagePoint>> clipped(PagePoint a, PagePoint b) const {
    return part_within(a, b, out_.place);
  }
  // A place for a mark of this size: in a glue strip, which the next sheet will
  // cover, else anywhere on blank paper.
  std::optional<PageBox> find(const PageBox& size, bool blank) const;
  // "glue" and the name of the sheet that comes on it.
  void strip_words(Group& group, PagePoint centre, place::Tile next, Way way);
  // The two crosses of the strip that `first` shares with the tile after it:
  // the same points of the whole on both sheets, on blank paper where that is near.
  void crosses(Group& group, place::Tile first, Way way);

  const TrueSizeInput& in_;
  TileSheet& out_;
  struct Neighbours {
    bool left = false, right = false, top = false, bottom = false;
  };
  Neighbours has_;
  Pen guide_;
  std::string family_;
  std::vector<PageBox> taken_;                          // by marks, on the page
  std::vector<std::pair<PagePoint, PagePoint>> lines_;  // leaders, on the page
};

}  // namespace platewright::compose
