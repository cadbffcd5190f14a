// Labels, leaders and marks as drawing items.
#include <algorithm>
#include <cmath>
#include <string>

#include "compose/parts.hpp"

namespace platewright::compose {
namespace {

// Lines of one label, measured.
struct Measured {
  std::vector<text::Line> lines;
  double width = 0;
  double height = 0;
  double step = 0;
  double hangs_left = 0;
  double hangs_right = 0;
};

Measured measured(const SheetInput& input, const std::vector<std::string>& lines) {
  Measured m;
  m.step = input.plan->leading * input.plan->label_font.size.mm();
  for (const std::string& text : lines) {
    m.lines.push_back(
        input.typesetter->line(text, input.plan->label_font, input.matter.language));
    m.width = std::max(m.width, m.lines.back().advance);
  }
  m.hangs_left = text::hangs_left(m.lines);
  m.hangs_right = text::hangs_right(m.lines);
  if (!m.lines.empty())
    m.height = m.lines.front().ascent + m.lines.back().descent +
               m.step * static_cast<double>(m.lines.size() - 1);
  return m;
}

// The box of `m` inside the label's box, on the leader's side and at its height; ink that hangs
// out of it there keeps the leader's gap too.
PageBox inner_box(const PlacedLabel& label, const Measured& m) {
  const double width = m.width, height = m.height;
  const PageBox& b = label.box;
  const double middle = label.side == Side::left || label.side == Side::right ? label.port.y
                        : label.side == Side::top    ? b.bottom() - height / 2
                        : label.side == Side::bottom ? b.top() + height / 2
                                                     : b.centre().y;
  switch (align_of(label)) {
    case Align::right: return {b.right() - m.hangs_right - width, middle - height / 2, width, height};
    case Align::left: return {b.left() + m.hangs_left, middle - height / 2, width, height};
    case Align::centre: break;
  }
  return {b.centre().x - width / 2, middle - height / 2, width, height};
}

Group label_group(const SheetInput& input, const PlacedLabel& label,
                  const std::vector<std::string>& lines) {
  const Measured m = measured(input, lines);
  const PageBox box = inner_box(label, m);
  const Align align = align_of(label);
  const double x = align == Align::left ? box.left() : align == Align::right ? box.right()
                                                                            : box.centre().x;
  Group group{Role::label, label.anchor, {}};
  double y = box.top();
  for (const text::Line& line : m.lines) {
    group.items.push_back(text_at(line, x, y + m.lines.front().ascent, align,
                                  input.style->type.ink));
    y += m.step;
  }
  return group;
}

LeaderMark mark_of(const SheetInput& input, const PlacedLabel& label) {
  const LeaderMark asked = input.style->leader.mark;
  if (asked != LeaderMark::automatic) return asked;
  const Anchor* anchor = input.figure->find(label.anchor);
  return anchor && anchor->on_outline ? LeaderMark::arrowhead : LeaderMark::dot;
}

PathItem arrowhead(PagePoint tip, PagePoint from, const LeaderStyle& style) {
  const double length = std::max(1e-9, distance(tip, from));
  const double ux = (tip.x - from.x) / length, uy = (tip.y - from.y) / length;
  const double l = style.arrow_length.mm(), w = style.arrow_width.mm() / 2;
  const PagePoint base{tip.x - l * ux, tip.y - l * uy};
  return {{MoveTo{tip}, LineTo{{base.x - w * uy, base.y + w * ux}},
           LineTo{{base.x + w * uy, base.y - w * ux}}, ClosePath{}},
          style.colour,
          std::nullopt};
}

}  // namespace

Align align_of(const PlacedLabel& label) {
  switch (label.side) {
    case Side::left: return Align::right;
    case Side::right: return Align::left;
    default: return Align::centre;
  }
}

PageBox text_box(const SheetInput& input, const PlacedLabel& label) {
  const Measured m = measured(
      input, label.as_number ? std::vector<std::string>{std::to_string(label.number)} : label.lines);
  return inner_box(label, m);
}

void add_label_texts(Page& page, const SheetInput& input) {
  for (const PlacedLabel* label : by_number(input.plan->layout))
    page.items.push_back(
        label_group(input, *label,
                    label->as_number ? std::vector<std::string>{std::to_string(label->number)}
                                     : label->lines));
}

void add_label_numbers(Page& page, const SheetInput& input) {
  for (const PlacedLabel* label : by_number(input.plan->layout))
    page.items.push_back(label_group(input, *label, {std::to_string(label->number)}));
}

namespace {

void trace(PathItem& path, const std::vector<PagePoint>& leader) {
  path.steps.push_back(MoveTo{leader.front()});
  for (std::size_t i = 1; i < leader.size(); ++i) path.steps.push_back(LineTo{leader[i]});
}

// Under all leaders, so that none cuts another.
void add_casing(Page& page, const SheetInput& input) {
  if (input.style->leader.casing.mm() <= 0) return;
  PathItem casing;
  casing.pen = casing_pen(*input.style);
  for (const PlacedLabel* label : by_number(input.plan->layout))
    for (const std::vector<PagePoint>& leader : label->leaders)
      if (leader.size() >= 2) trace(casing, leader);
  if (!casing.steps.empty()) page.items.push_back(std::move(casing));
}

}  // namespace

void add_leaders(Page& page, const SheetInput& input) {
  const LeaderStyle& style = input.style->leader;
  std::vector<Item> marks;
  add_casing(page, input);
  for (const PlacedLabel* label : by_number(input.plan->layout)) {
    PathItem path;
    path.pen = Pen{style.colour, style.width.mm(), {}, true};
    for (const std::vector<PagePoint>& leader : label->leaders) {
      if (leader.size() < 2) continue;
      trace(path, leader);
      const PagePoint tip = leader.back();
      switch (mark_of(input, *label)) {
        case LeaderMark::dot:
        case LeaderMark::automatic:
          marks.push_back(Group{Role::mark,
                                label->anchor,
                                {circle(tip, style.dot.mm() / 2, style.colour,
                                        Pen{{255, 255, 255}, style.dot_ring.mm(), {}, true})}});
          break;
        case LeaderMark::arrowhead:
          marks.push_back(
              Group{Role::mark, label->anchor, {arrowhead(tip, leader[leader.size() - 2], style)}});
          break;
        case LeaderMark::none: break;
      }
    }
    if (!path.steps.empty())
      page.items.push_back(Group{Role::leader, label->anchor, {std::move(path)}});
  }
  for (Item& mark : marks) page.items.push_back(std::move(mark));
}

}  // namespace platewright::compose
