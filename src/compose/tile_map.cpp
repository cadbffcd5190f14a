#include <algorithm>

#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr Colour map_shape{0xd2, 0xd2, 0xd2};
constexpr Colour map_here{0x33, 0x33, 0x33};
constexpr Colour map_line{0x80, 0x80, 0x80};

}  // namespace

PageBox add_tile_map(Group& group, const TrueSizeInput& input, const PageBox& box,
                     std::optional<place::Tile> here, const text::Font* named) {
  const place::Tiling& t = input.tiling;
  const double pitch_x = t.width - t.overlap, pitch_y = t.height - t.overlap;
  const double wide = t.columns * pitch_x + t.overlap, high = t.rows * pitch_y + t.overlap;
  const double k = std::min(box.w / wide, box.h / high);
  const PageBox at{box.x + (box.w - k * wide) / 2, box.y + (box.h - k * high) / 2, k * wide,
                   k * high};
  const auto on_page = [&](double x, double y) -> PagePoint {
    return {at.x + k * (x - t.left), at.y + k * (y - t.top)};
  };
  const auto cell = [&](place::Tile tile) -> PageBox {
    const PagePoint corner = on_page(t.left + tile.column * pitch_x, t.top + tile.row * pitch_y);
    return {corner.x, corner.y, k * (pitch_x + (tile.column + 1 == t.columns ? t.overlap : 0)),
            k * (pitch_y + (tile.row + 1 == t.rows ? t.overlap : 0))};
  };
  PathItem shape;
  shape.fill = map_shape;
  for (const place::Polygon& polygon : input.shape) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const PagePoint p = on_page(polygon[i].x, polygon[i].y);
      if (i == 0)
        shape.steps.push_back(MoveTo{p});
      else
        shape.steps.push_back(LineTo{p});
    }
    shape.steps.push_back(ClosePath{});
  }
  group.items.push_back(std::move(shape));
  const Pen thin{map_line, 0.15, {}, false};
  for (const place::Tile& tile : t.printed)
    group.items.push_back(rectangle(cell(tile), std::nullopt, thin));
  if (here)
    group.items.push_back(rectangle(cell(*here), std::nullopt, Pen{map_here, 0.7, {}, false}));
  if (named)
    for (const place::Tile& tile : t.printed) {
      const text::Line line = input.typesetter->line(place::tile_name(tile), *named, "en");
      const PagePoint centre = cell(tile).centre();
      group.items.push_back(text_at(line, centre.x, centre.y + 0.35 * named->size.mm(),
                                    Align::centre, input.style->type.ink));
    }
  return at;
}

}  // namespace platewright::compose
