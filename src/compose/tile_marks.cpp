// Marks that find room on a sheet: ruler, name, number and map.
#include "compose/tile_page.hpp"

#include <algorithm>

namespace platewright::compose {
namespace {

constexpr double clearance = 1.5;        // mm of white around marks on blank paper
constexpr double scan = 2.0;             // mm from one place tried for a mark to the next
constexpr double least_margin = 4.0;     // mm that no printer prints on

}  // namespace

std::optional<PageBox> TilePage::find(const PageBox& size, bool blank) const {
  const PageBox& p = out_.printable;
  const double o = in_.tiling.overlap;
  const double inset = 0.5;
  std::vector<PageBox> regions;
  if (has_.right) regions.push_back({p.right() - o, p.top(), o, p.h});
  if (has_.bottom) regions.push_back({p.left(), p.bottom() - o, p.w, o});
  if (blank) regions.push_back(p);
  for (const PageBox& region : regions) {
    const PageBox inner = region.grown(-inset);
    for (double y = inner.bottom() - size.h; y >= inner.top() - 1e-9; y -= scan)
      for (double x = inner.right() - size.w; x >= inner.left() - 1e-9; x -= scan) {
        const PageBox box{x, y, size.w, size.h};
        if (std::any_of(taken_.begin(), taken_.end(),
                        [&](const PageBox& m) { return overlap(m, box); }) ||
            std::any_of(lines_.begin(), lines_.end(), [&](const auto& l) {
              return part_within(l.first, l.second, box.grown(1)).has_value();
            }))
          continue;
        if (blank && !in_.occupancy->empty(in_whole(box.grown(clearance)))) continue;
        return box;
      }
  }
  return std::nullopt;
}

void TilePage::ruler() {
  Group group{Role::plain, {}, {}};
  RulerLook look;
  look.font = text::Font{family_, Length::pt(6.5), false, false};
  look.language = in_.matter.language;
  look.ink = in_.style->type.ink;
  look.line = guide_.width;
  for (const bool blank : {true, false})
    for (const Way way : {Way::down, Way::across}) {
      const auto place = find(ruler_room(way), blank);
      if (!place) continue;
      look.paper = !blank;
      out_.ruler = add_ruler(group, *in_.typesetter, look, way, {place->x, place->y});
      note(*place);
      out_.page.items.push_back(std::move(group));
      return;
    }
  // A sheet full to its edges: in the margin, whose inner part most printers reach.
  look.paper = true;
  const PageBox room = ruler_room(Way::across);
  const PagePoint corner{out_.printable.right() - room.w,
                         std::max(0.0, out_.printable.top() - room.h)};
  out_.ruler = add_ruler(group, *in_.typesetter, look, Way::across, corner);
  note({corner.x, corner.y, room.w, room.h});
  out_.page.items.push_back(std::move(group));
}

void TilePage::title() {
  const std::string name = place::tile_name(out_.tile);
  const std::string count =
      fill(fill(in_.words->at("sheet-of"), "number", std::to_string(out_.number)), "total",
           std::to_string(in_.tiling.printed.size()));
  Group group{Role::title, {}, {}};
  const Colour ink = in_.style->type.ink;
  const text::Font big{family_, Length::pt(30), true, false},
      middle{family_, Length::pt(15), true, false};
  const text::Font small{family_, Length::pt(9), false, false};
  const auto line = [&](const std::string& s, const text::Font& f) {
    return in_.typesetter->line(s, f, in_.matter.language);
  };
  const text::Line small_line = line(count, small), big_line = line(name, big),
                   middle_line = line(name, middle);

  // On blank paper, large: the map with the words beside it.
  const text::Line heading_line = line(in_.heading.empty() ? name : in_.heading, small);
  const double words = std::max({small_line.advance, big_line.advance, heading_line.advance}) + 3;
  for (const double map : {26.0, 18.0})
    if (const auto at = find({0, 0, map + words, 1.3 * map}, true)) {
      add_tile_map(group, in_, {at->x, at->y, map, at->h}, out_.tile, nullptr);
      const double x = at->x + map + 3;
      group.items.push_back(text_at(big_line, x, at->centre().y, Align::left, ink));
      group.items.push_back(text_at(small_line, x, at->centre().y + 6, Align::left, ink));
      if (!in_.heading.empty())
        group.items.push_back(text_at(heading_line, x, at->centre().y + 11, Align::left, ink));
      note(*at);
      out_.page.items.push_back(std::move(group));
      return;
    }
  // In a strip, small; over the figure if it must be, for the strip is covered.
  const double o = in_.tiling.overlap - 1.0;
  for (const bool blank : {true, false}) {
    const double tall = 7 + o * 1.5, wide = middle_line.advance + 2 + o + 2 + small_line.advance;
    if (const auto at = find({0, 0, o, tall}, blank); at && middle_line.advance <= o) {
      if (!blank) group.items.push_back(rectangle(*at, Colour{255, 255, 255}, std::nullopt));
      group.items.push_back(text_at(middle_line, at->centre().x, at->y + 5, Align::centre, ink));
      add_tile_map(group, in_, {at->x, at->y + 7, o, at->h - 7}, out_.tile, nullptr);
      note(*at);
      out_.page.items.push_back(std::move(group));
      return;
    }
    if (const auto at = find({0, 0, wide, o}, blank)) {
      if (!blank) group.items.push_back(rectangle(*at, Colour{255, 255, 255}, std::nullopt));
      group.items.push_back(text_at(middle_line, at->x, at->centre().y + 2, Align::left, ink));
      add_tile_map(group, in_, {at->x + middle_line.advance + 2, at->y, o, o}, out_.tile,
                   nullptr);
      group.items.push_back(text_at(small_line, at->right() - small_line.advance,
                                    at->centre().y + 1.2, Align::left, ink));
      note(*at);
      out_.page.items.push_back(std::move(group));
      return;
    }
  }
  const double height = std::max(4.0, out_.printable.top() - least_margin);
  const PageBox at{out_.printable.left() + 9, out_.printable.top() - height, 60, height};
  group.items.push_back(text_at(line(name, {family_, Length::pt(11), true, false}), at.x,
                                at.bottom() - 1.4, Align::left, ink));
  add_tile_map(group, in_, {at.x + 11, at.y, height, height}, out_.tile, nullptr);
  group.items.push_back(
      text_at(small_line, at.x + 13 + height, at.bottom() - 1.4, Align::left, ink));
  note(at);
  out_.page.items.push_back(std::move(group));
}

}  // namespace platewright::compose
