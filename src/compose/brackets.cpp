#include "compose/brackets.hpp"

#include <algorithm>
#include <map>

#include "compose/parts.hpp"

namespace platewright::compose {
namespace {

constexpr int most_lines = 5;      // of a heading
constexpr double tick = 1.2;       // mm, of a bracket's ends towards the labels
constexpr double apart = 1.5;      // mm between headings

// As narrow as its words let it be.
text::Block set_heading(const std::string& group, const Style& style, const text::Font& font,
                        const std::string& language, const text::Typesetter& typesetter) {
  return typesetter.ways(group, font, language, style.type.leading, most_lines).back();
}

double gap_of(const Style& style) { return style.groups.gap.mm(); }

// Labels of the outermost column of a side from the top.
std::vector<const PlacedLabel*> outermost(const Layout& layout, Side side) {
  std::vector<const PlacedLabel*> labels;
  double edge = side == Side::left ? 1e300 : -1e300;
  for (const PlacedLabel& l : layout.labels)
    if (l.side == side)
      edge = side == Side::left ? std::min(edge, l.port.x) : std::max(edge, l.port.x);
  for (const PlacedLabel& l : layout.labels)
    if (l.side == side && std::abs(l.port.x - edge) < 0.5) labels.push_back(&l);
  std::sort(labels.begin(), labels.end(), [](const PlacedLabel* a, const PlacedLabel* b) {
    return a->box.top() != b->box.top() ? a->box.top() < b->box.top() : a->anchor < b->anchor;
  });
  return labels;
}

// Moves headings off each other and into the area, as little as that takes.
void spread(std::vector<Bracket*>& all, const PageBox& area) {
  const auto height = [&] {
    double sum = -apart;
    for (const Bracket* b : all) sum += b->heading.h + apart;
    return sum;
  };
  while (!all.empty() && height() > area.h) {
    const auto least = std::min_element(all.begin(), all.end(), [](const Bracket* a, const Bracket* b) {
      return a->to.y - a->from.y < b->to.y - b->from.y;
    });
    (*least)->heading = {};
    (*least)->lines.clear();
    all.erase(least);
  }
  double free = area.top();
  for (Bracket* b : all) {
    b->heading.y = std::max(free, b->heading.y);
    free = b->heading.bottom() + apart;
  }
  double foot = area.bottom();
  for (auto b = all.rbegin(); b != all.rend(); ++b) {
    (*b)->heading.y = std::min((*b)->heading.y, foot - (*b)->heading.h);
    foot = (*b)->heading.top() - apart;
  }
}

}  // namespace

text::Font heading_font(const Style& style, Length wanted, Length floor) {
  return {faces(style), std::max(floor, wanted * style.groups.heading), true, false};
}

double bracket_room(const std::vector<std::string>& groups, const Style& style,
                    const text::Font& font, const std::string& language,
                    const text::Typesetter& typesetter) {
  double widest = 0;
  for (const std::string& group : groups)
    if (!group.empty())
      widest = std::max(widest, set_heading(group, style, font, language, typesetter).width);
  return widest > 0 ? 2 * gap_of(style) + tick + widest : 0;
}

std::vector<Bracket> brackets(const SheetInput& input) {
  std::vector<Bracket> all;
  const Style& style = *input.style;
  if (!style.groups.bracket) return all;
  const Layout& layout = input.plan->layout;
  for (const Side side : {Side::left, Side::right}) {
    const auto labels = outermost(layout, side);
    double edge = side == Side::left ? 1e300 : -1e300;
    for (const PlacedLabel* l : labels)
      edge = side == Side::left ? std::min(edge, l->box.left()) : std::max(edge, l->box.right());
    const double away = side == Side::left ? -1 : 1, line = edge + away * (gap_of(style) + tick);
    const std::size_t before = all.size();
    for (std::size_t i = 0, end = 0; i < labels.size(); i = end) {
      for (end = i + 1; end < labels.size() && labels[end]->group == labels[i]->group;) ++end;
      if (end - i < 2 || labels[i]->group.empty()) continue;
      Bracket b;
      b.group = labels[i]->group;
      b.side = side;
      for (std::size_t k = i; k < end; ++k) b.anchors.push_back(labels[k]->anchor);
      b.from = {line, labels[i]->box.top()};
      b.to = {line, labels[end - 1]->box.bottom()};
      const text::Block block = set_heading(b.group, style, input.plan->heading_font,
                                            input.matter.language, *input.typesetter);
      b.lines = block.lines;
      b.heading = {side == Side::left ? line - gap_of(style) - block.width : line + gap_of(style),
                   (b.from.y + b.to.y - block.height) / 2, block.width, block.height};
      all.push_back(std::move(b));
    }
    std::vector<Bracket*> headed;
    for (std::size_t k = before; k < all.size(); ++k) headed.push_back(&all[k]);
    spread(headed, input.plan->frame.area);
  }
  return all;
}

void add_brackets(Page& page, const SheetInput& input) {
  const Style& style = *input.style;
  const Pen pen{style.type.quiet_ink, style.groups.line.mm(), {}, false};
  for (const Bracket& b : brackets(input)) {
    const double inward = b.side == Side::left ? tick : -tick;
    PathItem path;
    path.pen = pen;
    path.steps = {MoveTo{{b.from.x + inward, b.from.y}}, LineTo{b.from}, LineTo{b.to},
                  LineTo{{b.to.x + inward, b.to.y}}};
    page.items.push_back(Group{Role::plain, {}, {std::move(path)}});
    Group heading{Role::instruction, {}, {}};
    double y = b.heading.top();
    for (const text::Line& line : b.lines) {
      heading.items.push_back(text_at(line, b.side == Side::left ? b.heading.right() : b.heading.left(),
                                      y + b.lines.front().ascent,
                                      b.side == Side::left ? Align::right : Align::left,
                                      style.type.ink));
      y += style.type.leading * input.plan->heading_font.size.mm();
    }
    if (!heading.items.empty()) page.items.push_back(std::move(heading));
  }
}

}  // namespace platewright::compose
