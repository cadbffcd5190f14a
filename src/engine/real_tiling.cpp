#include "engine/real_tiling.hpp"

#include <algorithm>
#include <optional>

#include "base/number.hpp"
#include "compose/guides.hpp"

namespace platewright {

Result<RealTiling> fewest_sheets(const place::Cells& cells, const RealPaper& paper, double overlap,
                                 const Style& style) {
  const double w = paper.width - 2 * paper.margin, h = paper.height - 2 * paper.margin;
  const PageBox room = compose::ruler_room(compose::Way::across);
  if (w < 3 * overlap || std::max(w, h) < room.w || std::min(w, h) < 2 * room.h)
    return error("paper-small", {"--paper", 0, 0},
                 "the paper leaves " + format_mm(Length::mm(w)) + " by " +
                     format_mm(Length::mm(h)) + " to print on, too little for an overlap of " +
                     format_mm(Length::mm(overlap)) + " and a ruler of 10 cm",
                 "take larger paper or a smaller --overlap");
  const place::Occupancy occupancy(cells);
  const PageBox box = occupancy.box();
  if (box.w <= 0) return error("figure-empty", {}, "the figure paints nothing", "draw something");
  const int most = style.true_size.most_sheets;
  const auto boxed = [&](double a, double b) {
    return static_cast<double>(place::tiles_for_length(box.w, a, overlap)) *
           place::tiles_for_length(box.h, b, overlap);
  };
  const auto too_many = [&](double sheets, const std::string& about) {
    return error("sheets-too-many", {"--stature", 0, 0},
                 "the figure is " + compose::said_length(Length::mm(box.w)) + " by " +
                     compose::said_length(Length::mm(box.h)) + " and takes " + about +
                     format_number(sheets, 0) + " sheets, more than " + std::to_string(most),
                 "make it smaller, take larger paper, or raise most-sheets in the style");
  };
  // An outline may need far fewer than its box, but not a tenth.
  if (const double least = std::min(boxed(w, h), boxed(h, w)); least > 10.0 * most)
    return too_many(least, "up to ");
  std::optional<RealTiling> best;
  for (const bool landscape : {false, true}) {
    auto tiling = place::fewest_tiles(cells, landscape ? h : w, landscape ? w : h, overlap);
    if (tiling && (!best || tiling->printed.size() < best->tiling.printed.size()))
      best = RealTiling{std::move(*tiling), landscape};
  }
  if (static_cast<int>(best->tiling.printed.size()) > most)
    return too_many(static_cast<double>(best->tiling.printed.size()), "");
  return *best;
}

int sheets_for_box(const PageBox& box, const RealPaper& paper, double overlap) {
  const double w = paper.width - 2 * paper.margin, h = paper.height - 2 * paper.margin;
  const auto boxed = [&](double a, double b) {
    return place::tiles_for_length(box.w, a, overlap) * place::tiles_for_length(box.h, b, overlap);
  };
  return std::min(boxed(w, h), boxed(h, w));
}

}  // namespace platewright
