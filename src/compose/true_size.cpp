#include "compose/true_size.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "compose/tile_page.hpp"

namespace platewright::compose {

// The part of a segment that lies in a box (Liang and Barsky 1984).
std::optional<std::pair<PagePoint, PagePoint>> part_within(PagePoint a, PagePoint b,
                                                           const PageBox& box) {
  double from = 0, to = 1;
  const std::array<std::array<double, 2>, 4> sides = {{{-(b.x - a.x), a.x - box.left()},
                                                       {b.x - a.x, box.right() - a.x},
                                                       {-(b.y - a.y), a.y - box.top()},
                                                       {b.y - a.y, box.bottom() - a.y}}};
  for (const auto& [slope, room] : sides) {
    if (slope == 0 && room < 0) return std::nullopt;
    // a + t (b - a) is inside where t * slope <= room.
    if (slope < 0) from = std::max(from, room / slope);
    if (slope > 0) to = std::min(to, room / slope);
  }
  if (from >= to) return std::nullopt;
  const auto at = [&](double t) -> PagePoint {
    return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
  };
  return std::pair{at(from), at(to)};
}

TilePage::TilePage(const TrueSizeInput& input, TileSheet& sheet) : in_(input), out_(sheet) {
  const place::Tile t = sheet.tile;
  const place::Tiling& tiling = input.tiling;
  has_ = {tiling.prints({t.row, t.column - 1}), tiling.prints({t.row, t.column + 1}),
          tiling.prints({t.row - 1, t.column}), tiling.prints({t.row + 1, t.column})};
  guide_ = {input.style->true_size.guide, input.style->true_size.guide_width.mm(), {}, false};
  family_ = faces(*input.style);
}

std::vector<TileSheet> tile_sheets(const TrueSizeInput& input) {
  std::vector<TileSheet> sheets;
  const place::Tiling& tiling = input.tiling;
  for (std::size_t i = 0; i < tiling.printed.size(); ++i) {
    TileSheet sheet;
    sheet.tile = tiling.printed[i];
    sheet.number = static_cast<int>(i) + 1;
    const auto step = std::find(input.order.begin(), input.order.end(), sheet.tile);
    sheet.step = static_cast<int>(step - input.order.begin()) + 1;
    sheet.place = tiling.box(sheet.tile);
    sheet.printable = input.printable();
    Page& page = sheet.page;
    page.width = input.page_width;
    page.height = input.page_height;
    page.language = input.matter.language;
    page.label = place::tile_name(sheet.tile);
    page.title = (input.matter.title.empty() ? input.words->at("true-size") : input.matter.title) +
                 " – " + page.label;
    page.description = page.title;
    TilePage maker(input, sheet);
    maker.figure();
    maker.cut_lines();
    maker.labels();
    maker.joins();
    maker.ruler();
    maker.title();
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

}  // namespace platewright::compose
