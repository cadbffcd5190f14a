// What a sheet at true size shows: the figure, cut lines, names and blanks.
#include "compose/tile_page.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::compose {

void TilePage::figure() {
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

void TilePage::cut_lines() {
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

void TilePage::labels() {
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
        if (style.leader.casing.mm() > 0)
          out_.page.items.push_back(
              stroke(here(part->first), here(part->second), casing_pen(style)));
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

}  // namespace platewright::compose
