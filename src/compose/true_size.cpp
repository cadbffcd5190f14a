#include "compose/true_size.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace platewright::compose {
namespace {

constexpr double clearance = 1.5;        // mm of white around marks on blank paper
constexpr double scan = 2.0;             // mm from one place tried for a mark to the next
constexpr double cross_half = 3.0;       // mm along the strip
constexpr double cross_beyond = 2.0;     // mm that a cross reaches beyond its strip
constexpr double strip_words_at = 0.26;  // share of the strip; leaves room for the ruler below
constexpr double corner_mark = 3.0;      // mm that trim lines reach into the margin
constexpr double least_margin = 4.0;     // mm that no printer prints on

struct Neighbours {
  bool left = false, right = false, top = false, bottom = false;
};

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

// One sheet in the making.
class Sheet {
 public:
  Sheet(const TrueSizeInput& input, TileSheet& sheet) : in_(input), out_(sheet) {
    const place::Tile t = sheet.tile;
    const place::Tiling& tiling = input.tiling;
    has_ = {tiling.prints({t.row, t.column - 1}), tiling.prints({t.row, t.column + 1}),
            tiling.prints({t.row - 1, t.column}), tiling.prints({t.row + 1, t.column})};
    guide_ = {input.style->true_size.guide, input.style->true_size.guide_width.mm(), {}, false};
    family_ = faces(*input.style);
  }

  void figure() {
    FigureItem item;
    const FigureBox& view = in_.figure->view_box;
    const PageBox& p = out_.printable;
    item.transform.scale = in_.scale;
    item.transform.origin = {p.x - out_.place.x - in_.corner.x * in_.scale,
                             p.y - out_.place.y - in_.corner.y * in_.scale};
    item.art = in_.art;
    item.outline_width = in_.outline_width;
    item.part = in_.part;
    // The view box ends the figure, as it does wherever it is shown.
    const PageBox whole = item.transform(view);
    const double x = std::max(p.left(), whole.left()), y = std::max(p.top(), whole.top());
    item.clip = PageBox{x, y, std::max(0.0, std::min(p.right(), whole.right()) - x),
                        std::max(0.0, std::min(p.bottom(), whole.bottom()) - y)};
    if (in_.clip.empty()) {
      out_.page.items.push_back(item);
      return;
    }
    Group inside{Role::plain, {}, {item}};
    for (const place::Polygon& polygon : in_.clip) {
      bool first = true;
      for (const PagePoint& corner : polygon) {
        if (first)
          inside.clip.push_back(MoveTo{on_page(corner)});
        else
          inside.clip.push_back(LineTo{on_page(corner)});
        first = false;
      }
      inside.clip.push_back(ClosePath{});
    }
    out_.page.items.push_back(std::move(inside));
  }

  // What of the cut lines lies on this sheet.
  void cut_lines() {
    PathItem path;
    path.pen = Pen{in_.style->type.ink, in_.style->true_size.cut_width.mm(), {}, true};
    for (const place::Polygon& polygon : in_.cut) {
      PagePoint last{1e30, 1e30};
      for (std::size_t i = 0; i < polygon.size(); ++i) {
        const auto part = clipped(polygon[i], polygon[(i + 1) % polygon.size()]);
        if (!part) continue;
        if (part->first != last) path.steps.push_back(MoveTo{on_page(part->first)});
        path.steps.push_back(LineTo{on_page(part->second)});
        last = part->second;
      }
    }
    if (!path.steps.empty()) out_.page.items.push_back(std::move(path));
  }

  // Names and blanks that belong on this sheet.
  void labels() {
    const Style& style = *in_.style;
    for (const BodyLabel& label : in_.labels) {
      // The whole label on the sheet that holds its box; what reaches into a
      // neighbour's strip is drawn there too, so that nothing ends at a join.
      if (!overlap(label.box.grown(1), out_.place) && !out_.place.contains(label.target)) continue;
      const auto here = [&](PagePoint p) { return on_page(p); };
      Group leader{Role::leader, label.anchor, {}};
      if (distance(label.port, label.target) > 0.5) {
        const auto part = clipped(label.port, label.target);
        if (part) {
          leader.items.push_back(
              stroke(here(part->first), here(part->second),
                     Pen{style.leader.colour, style.leader.width.mm(), {}, true}));
          out_.page.items.push_back(std::move(leader));
          const PagePoint a = here(part->first), b = here(part->second);
          lines_.emplace_back(a, b);
          out_.marks.push_back(PageBox{std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x),
                                       std::abs(a.y - b.y)}
                                   .grown(1));
        }
        const PagePoint end = here(label.target);
        const double r = style.leader.dot.mm() / 2, ring = style.leader.dot_ring.mm();
        if (out_.printable.contains(end)) {
          out_.page.items.push_back(circle(end, r + ring, Colour{255, 255, 255}, std::nullopt));
          out_.page.items.push_back(
              Group{Role::mark, label.anchor, {circle(end, r, style.leader.colour, std::nullopt)}});
          note({end.x - r - ring, end.y - r - ring, 2 * (r + ring), 2 * (r + ring)});
        }
      }
      const PageBox box = label.box;
      if (!(box.left() >= out_.place.left() && box.right() <= out_.place.right() &&
            box.top() >= out_.place.top() && box.bottom() <= out_.place.bottom()))
        continue;
      const PagePoint corner = here({box.x, box.y});
      const PageBox drawn{corner.x, corner.y, box.w, box.h};
      out_.page.items.push_back(rectangle(drawn, Colour{255, 255, 255}, std::nullopt, 1.2));
      Group group{Role::label, label.anchor, {}};
      double y = drawn.top() + 0.8 + (label.lines.empty() ? 0 : label.lines.front().ascent);
      double right = drawn.left() + 1.2;
      for (const text::Line& line : label.lines) {
        group.items.push_back(text_at(line, drawn.left() + 1.2, y, Align::left, style.type.ink));
        right = drawn.left() + 1.2 + line.advance;
        y += label.leading;
      }
      if (label.blank_width > 0) {
        const double base = drawn.bottom() - blank_rise;
        group.items.push_back(
            stroke({label.lines.empty() ? drawn.left() : right + 1, base}, {drawn.right(), base},
                   Pen{style.ruling.base, style.ruling.blank_line.mm(), {}, false}));
      }
      out_.page.items.push_back(std::move(group));
      note(drawn);
    }
  }

  void joins() {
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

  void ruler() {
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

  // Name, number and map.
  void title() {
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
  std::optional<PageBox> find(const PageBox& size, bool blank) const {
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

  // "glue" and the name of the sheet that comes on it.
  void strip_words(Group& group, PagePoint centre, place::Tile next, Way way) {
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

  // The two crosses of the strip that `first` shares with the tile after it:
  // the same points of the whole on both sheets, on blank paper where that is near.
  void crosses(Group& group, place::Tile first, Way way) {
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

  const TrueSizeInput& in_;
  TileSheet& out_;
  Neighbours has_;
  Pen guide_;
  std::string family_;
  std::vector<PageBox> taken_;                          // by marks, on the page
  std::vector<std::pair<PagePoint, PagePoint>> lines_;  // leaders, on the page
};

}  // namespace

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
    Sheet maker(input, sheet);
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
