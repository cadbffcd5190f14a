#include <string>

#include "base/number.hpp"
#include "compose/page.hpp"

namespace platewright::compose {
namespace {

std::string at(PagePoint p) { return format_number(p.x) + "," + format_number(p.y); }

std::string_view name_of(Role role) {
  switch (role) {
    case Role::plain: return "plain";
    case Role::title: return "title";
    case Role::label: return "label";
    case Role::leader: return "leader";
    case Role::mark: return "mark";
    case Role::blank_list: return "list";
    case Role::footer: return "footer";
    case Role::instruction: return "instruction";
    case Role::word_bank: return "word-bank";
    case Role::crop_marks: return "crop-marks";
    case Role::ruling: return "ruling";
  }
  return "plain";
}

void dump_item(const Item& item, int depth, std::string& out) {
  const std::string indent(static_cast<std::size_t>(depth) * 2, ' ');
  if (const auto* group = std::get_if<Group>(&item)) {
    out += indent + "group " + std::string(name_of(group->role));
    if (!group->anchor.empty()) out += " " + group->anchor;
    if (group->turn != 0)
      out += " turned " + format_number(group->turn) + " about " + at(group->pivot);
    if (!group->clip.empty()) out += " clipped";
    out += '\n';
    for (const Item& child : group->items) dump_item(child, depth + 1, out);
  } else if (const auto* text = std::get_if<TextItem>(&item)) {
    out += indent + "text " + at(text->at) + " " + format_number(text->line.font.size.pt()) +
           "pt " + to_hex(text->colour) + " \"" + text->line.text + "\"\n";
  } else if (const auto* figure = std::get_if<FigureItem>(&item)) {
    out += indent + "figure " + at(figure->transform.origin) + " x" +
           format_number(figure->transform.scale, 6) +
           (figure->art == Art::painted ? " painted" : " outlines");
    if (figure->part >= 0) out += " part " + std::to_string(figure->part);
    out += "\n";
  } else if (const auto* path = std::get_if<PathItem>(&item)) {
    out += indent + "path";
    for (const PathStep& step : path->steps) {
      if (const auto* m = std::get_if<MoveTo>(&step)) out += " M" + at(m->to);
      if (const auto* l = std::get_if<LineTo>(&step)) out += " L" + at(l->to);
      if (const auto* c = std::get_if<CurveTo>(&step))
        out += " C" + at(c->control1) + " " + at(c->control2) + " " + at(c->to);
      if (std::get_if<ClosePath>(&step)) out += " Z";
    }
    if (path->fill) out += " fill " + to_hex(*path->fill);
    if (path->pen)
      out += " pen " + to_hex(path->pen->colour) + " " + format_number(path->pen->width);
    out += '\n';
  }
}

}  // namespace

std::string dump(const Page& page) {
  std::string out = "page " + format_number(page.width) + "x" + format_number(page.height) + " \"" +
                    page.title + "\" " + page.language + "\n";
  for (const Item& item : page.items) dump_item(item, 1, out);
  return out;
}

}  // namespace platewright::compose
