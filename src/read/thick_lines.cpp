#include "read/thick_lines.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <pugixml.hpp>
#include <string_view>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/finished_commands.hpp"
#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_shapes.hpp"
#include "read/svg_transform.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

// Lines are measured on a page so many points long; PDF allows 14,400.
constexpr double measured_side = 10000;
// Lines that much too thin pass.
constexpr double near_enough = 0.99;
// A shape's line bears its number as the limit of its miters, which round joins have none of.
constexpr int first_miter = 100;

constexpr const char* plain_strokes =
    "*{filter:none !important;mask:none !important;clip-path:none !important;"
    "fill:none !important;opacity:1 !important;stroke-linejoin:round !important;"
    "stroke-dasharray:none !important;marker:none !important}\n";

bool parsed(pugi::xml_document& tree, const std::string& svg) {
  return static_cast<bool>(tree.load_buffer(
      svg.data(), svg.size(), pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8));
}

std::vector<pugi::xml_node> drawn_shapes(const pugi::xml_node& root) {
  std::vector<pugi::xml_node> shapes;
  const auto walk = [&](const auto& self, const pugi::xml_node& node) -> void {
    for (const pugi::xml_node& child : node.children()) {
      if (child.type() != pugi::node_element || is_definition(child.name())) continue;
      if (is_shape(child.name()))
        shapes.push_back(child);
      else
        self(self, child);
    }
  };
  walk(walk, root);
  return shapes;
}

// A declaration that wins.
void add_style(pugi::xml_node shape, const std::string& declaration) {
  pugi::xml_attribute style = shape.attribute("style");
  if (!style) style = shape.append_attribute("style");
  std::string css = style.value();
  if (!css.empty() && css.back() != ';') css += ';';
  style.set_value((css + declaration + " !important").c_str());
}

// A path to its first point and a step aside.
void shorten(pugi::xml_node shape) {
  pugi::xml_attribute path = shape.attribute("d");
  const std::string_view d = trimmed(path.value());
  if (d.empty() || (d.front() != 'M' && d.front() != 'm')) return;
  const std::string_view numbers = "0123456789.,+- \t\n";
  std::size_t end = 1;
  int count = 0;
  bool in_number = false;
  // A pair of numbers, as they are usually written; else the path stays whole.
  for (; end < d.size() && numbers.find(d[end]) != std::string_view::npos; ++end) {
    const bool part = (d[end] >= '0' && d[end] <= '9') || d[end] == '.';
    if (part && !in_number && ++count > 2) break;
    in_number = part;
  }
  if (count < 2 || (end < d.size() && (d[end] == 'e' || d[end] == 'E'))) return;
  // What stands between the numbers goes with the next.
  while (end > 1 && std::string_view(",+- \t\n").find(d[end - 1]) != std::string_view::npos) --end;
  path.set_value((std::string(d.substr(0, end)) + "h1").c_str());
}

// The document with room around it, so that what starts beyond its edge is drawn too.
std::string amid_room(pugi::xml_node root, const FigureBox& view) {
  const auto set = [&](const char* name, const std::string& value) {
    pugi::xml_attribute attribute = root.attribute(name);
    if (!attribute) attribute = root.append_attribute(name);
    attribute.set_value(value.c_str());
  };
  const auto text = [](double value) { return format_number(value, 6); };
  set("x", text(view.x)), set("y", text(view.y));
  set("width", text(view.w)), set("height", text(view.h));
  set("preserveAspectRatio", "none");
  add_style(root, "overflow:visible");
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" + text(view.x - view.w) + " " +
         text(view.y - view.h) + " " + text(3 * view.w) + " " + text(3 * view.h) + "\">" +
         to_text(root) + "</svg>";
}

// The least plain number that follows `stroke-width` in a text; nothing where one has a unit or
// is no number.
std::optional<double> least_declared(std::string_view text) {
  constexpr std::string_view name = "stroke-width";
  double least = 1;  // where none is declared
  for (std::size_t at = text.find(name); at != std::string_view::npos;
       at = text.find(name, at + 1)) {
    std::size_t from = at + name.size();
    while (from < text.size() &&
           (std::isspace(static_cast<unsigned char>(text[from])) || text[from] == ':' ||
            text[from] == '=' || text[from] == '"' || text[from] == '\''))
      ++from;
    std::size_t to = from;
    while (to < text.size() &&
           (std::isdigit(static_cast<unsigned char>(text[to])) || text[to] == '.'))
      ++to;
    const auto value = parse_number(text.substr(from, to - from));
    if (!value || (to < text.size() &&
                   std::string_view(";\"'} \n\t!").find(text[to]) == std::string_view::npos))
      return std::nullopt;
    if (*value > 0) least = std::min(least, *value);
  }
  return least;
}

}  // namespace

bool surely_wide(const std::string& svg, double least) {
  const std::optional<double> declared = least_declared(svg);
  if (!declared || *declared < least) return false;
  const auto has = [&](std::string_view word) { return svg.find(word) != std::string::npos; };
  if (has("<use") || has(":use") || has("vector-effect")) return false;
  pugi::xml_document tree;
  if (!parsed(tree, svg)) return false;
  const std::vector<pugi::xml_node> shapes = drawn_shapes(tree.document_element());
  return std::all_of(shapes.begin(), shapes.end(), [&](const pugi::xml_node& shape) {
    return accumulated_scale(shape) * *declared >= least;
  });
}

std::optional<LineWidths> line_widths(const std::string& svg, const FigureBox& view) {
  pugi::xml_document tree;
  if (!parsed(tree, svg)) return std::nullopt;
  const pugi::xml_node root = tree.document_element();
  IdMap ids = ids_of(root);
  expand_all_uses(root, ids);
  LineWidths out;
  out.svg = to_text(root);
  const std::vector<pugi::xml_node> shapes = drawn_shapes(root);
  for (std::size_t i = 0; i < shapes.size(); ++i)
    add_style(shapes[i], "stroke-miterlimit:" + std::to_string(first_miter + i));
  // A width shows on the path's first point as well as on all of it.
  for (const pugi::xml_node& shape : shapes) shorten(shape);
  std::string why;
  const auto drawn = Drawing::load(amid_room(root, view), plain_strokes, why);
  if (!drawn) return std::nullopt;
  const double k = measured_side / (3 * std::max(view.w, view.h));
  const auto page = drawn->pdf(3 * k * view.w, 3 * k * view.h);
  if (!page) return std::nullopt;
  out.widths.resize(shapes.size());
  const Findings faults =
      each_page_commands(*page, {}, [&](PageCommands&& commands, std::size_t, std::size_t) {
        for (const FinishedStroke& stroke : commands.strokes) {
          const double i = std::round(stroke.miter_limit) - first_miter;
          if (i >= 0 && i < static_cast<double>(shapes.size()))
            out.widths[static_cast<std::size_t>(i)] = stroke.width_pt / k;
        }
        return Findings{};
      });
  if (!faults.empty()) return std::nullopt;
  return out;
}

std::optional<std::string> with_least_line(const LineWidths& lines, double least) {
  const auto thin = [&](double width) { return width > 0 && width < near_enough * least; };
  if (std::none_of(lines.widths.begin(), lines.widths.end(), thin)) return std::nullopt;
  pugi::xml_document tree;
  if (!parsed(tree, lines.svg)) return std::nullopt;
  const std::vector<pugi::xml_node> shapes = drawn_shapes(tree.document_element());
  if (shapes.size() != lines.widths.size()) return std::nullopt;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (!thin(lines.widths[i])) continue;
    add_style(shapes[i], "stroke-width:" + format_number(least / accumulated_scale(shapes[i]), 6));
  }
  return to_text(tree.document_element());
}

}  // namespace platewright::read
