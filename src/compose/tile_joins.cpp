// Where sheets meet: trim lines, glue strips, crosses.
#include "compose/tile_page.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::compose {
namespace {

constexpr double cross_half = 3.0;       // mm along the strip
constexpr double cross_beyond = 2.0;     // mm that a cross reaches beyond its strip
constexpr double strip_words_at = 0.26;  // share of the strip; leaves room for the ruler below
constexpr double corner_mark = 3.0;      // mm that trim lines reach into the margin

}  // namespace

void TilePage::joins() {
  const PageBox& p = out_.printable;
  const double o = in_.tiling.overlap;
  Group lines{Role::crop_marks, {}, {}};
  const Pen dashed{guide_.colour, guide_.width, {2, 2}, false};
  if (has_.left) {
    lines.items.push_back(
        stroke({p.left(), p.top() - corner_mark}, {p.left(), p.bottom() + corner_mark}, guide_));
    add_scissors(lines, {p.left(), p.top() - 0.6}, Way::down, guide_);
    note({p.left() - 0.5, p.top(), 1, p.h});
  }
  if (has_.top) {
    lines.items.push_back(
        stroke({p.left() - corner_mark, p.top()}, {p.right() + corner_mark, p.top()}, guide_));
    add_scissors(lines, {p.left() - 0.6, p.top()}, Way::across, guide_);
    note({p.left(), p.top() - 0.5, p.w, 1});
  }
  if (has_.right) {
    lines.items.push_back(stroke({p.right() - o, p.top()}, {p.right() - o, p.bottom()}, dashed));
    note({p.right() - o - 0.5, p.top(), 1, p.h});
    strip_words(lines, {p.right() - o / 2, p.top() + strip_words_at * p.h},
                {out_.tile.row, out_.tile.column + 1}, Way::down);
  }
  if (has_.bottom) {
    lines.items.push_back(
        stroke({p.left(), p.bottom() - o}, {p.right(), p.bottom() - o}, dashed));
    note({p.left(), p.bottom() - o - 0.5, p.w, 1});
    strip_words(lines, {p.left() + strip_words_at * p.w, p.bottom() - o / 2},
                {out_.tile.row + 1, out_.tile.column}, Way::across);
  }
  const place::Tile t = out_.tile;
  if (has_.left) crosses(lines, {t.row, t.column - 1}, Way::down);
  if (has_.right) crosses(lines, t, Way::down);
  if (has_.top) crosses(lines, {t.row - 1, t.column}, Way::across);
  if (has_.bottom) crosses(lines, t, Way::across);
  out_.page.items.push_back(std::move(lines));
}

void TilePage::strip_words(Group& group, PagePoint centre, place::Tile next, Way way) {
  const double room = in_.tiling.overlap - 1.5;
  const auto fitted = [&](const std::string& s, double pt, bool bold) {
    text::Line line =
        in_.typesetter->line(s, {family_, Length::pt(pt), bold, false}, in_.matter.language);
    if (way == Way::down && line.advance > room)
      line = in_.typesetter->line(s, {family_, Length::pt(pt * room / line.advance), bold, false},
                                  in_.matter.language);
    return line;
  };
  const text::Line word = fitted(in_.words->at("glue"), 8, false);
  const text::Line name = fitted(place::tile_name(next), 9, true);
  const Colour ink = guide_.colour;
  PageBox box;
  if (way == Way::down) {
    const double w = std::max(word.advance, name.advance) + 1;
    box = {centre.x - w / 2, centre.y - 5, w, 10};
  } else {
    const double w = word.advance + 2 + name.advance + 1;
    box = {centre.x - w / 2, centre.y - 2.5, w, 5};
  }
  group.items.push_back(rectangle(box, Colour{255, 255, 255}, std::nullopt, 0.8));
  if (way == Way::down) {
    group.items.push_back(text_at(word, centre.x, centre.y - 1.2, Align::centre, ink));
    group.items.push_back(text_at(name, centre.x, centre.y + 3.4, Align::centre, ink));
  } else {
    group.items.push_back(text_at(word, box.x + 0.5, centre.y + 1.1, Align::left, ink));
    group.items.push_back(text_at(name, box.right() - 0.5, centre.y + 1.1, Align::right, ink));
  }
  note(box);
}

void TilePage::crosses(Group& group, place::Tile first, Way way) {
  const PageBox tile = in_.tiling.box(first);
  const double o = in_.tiling.overlap;
  const double from = (way == Way::down ? tile.top() : tile.left()) + o;
  const double length = (way == Way::down ? tile.h : tile.w) - 2 * o;
  for (const double wanted : {0.12, 0.88}) {
    std::optional<PagePoint> best;
    for (int i = 0; i <= 12 && !best; ++i)
      for (const double sign : {1.0, -1.0}) {
        const double along = from + (wanted + sign * 0.01 * i) * length;
        const PagePoint at = way == Way::down ? PagePoint{tile.right() - o / 2, along}
                                              : PagePoint{along, tile.bottom() - o / 2};
        const double half = o / 2 + cross_beyond;
        if (in_.occupancy->empty({at.x - half, at.y - half, 2 * half, 2 * half})) {
          best = at;
          break;
        }
      }
    if (!best)
      best = way == Way::down ? PagePoint{tile.right() - o / 2, from + wanted * length}
                              : PagePoint{from + wanted * length, tile.bottom() - o / 2};
    const PagePoint at = on_page(*best);
    // The arm across the strip goes on beyond the join, where it is seen on
    // the lower sheet beside the upper one.
    const double reach = o / 2 + cross_beyond;
    const PageBox& p = out_.printable;
    const double half_across = way == Way::down ? reach : cross_half;
    const double half_down = way == Way::down ? cross_half : reach;
    const auto stroke_within = [&](PagePoint a, PagePoint b) {
      const auto keep = [&](PagePoint q) -> PagePoint {
        return {std::clamp(q.x, p.left(), p.right()), std::clamp(q.y, p.top(), p.bottom())};
      };
      group.items.push_back(stroke(keep(a), keep(b), guide_));
    };
    stroke_within({at.x - half_across, at.y}, {at.x + half_across, at.y});
    stroke_within({at.x, at.y - half_down}, {at.x, at.y + half_down});
    out_.crosses.push_back(at);
    note({at.x - half_across - 0.3, at.y - half_down - 0.3, 2 * half_across + 0.6,
          2 * half_down + 0.6});
  }
}

}  // namespace platewright::compose
