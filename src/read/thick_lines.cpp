#include "read/thick_lines.hpp"

#include <algorithm>
#include <cctype>
#include <pugixml.hpp>
#include <string_view>

#include "base/number.hpp"
#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_shapes.hpp"
#include "read/svg_transform.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

// Lines are measured on a drawing so many pixels long, to half a pixel.
constexpr double measured_side = 1 << 16;
// Lines that much too thin pass.
constexpr double near_enough = 0.97;

constexpr const char* plain_strokes =
    "*{filter:none !important;mask:none !important;clip-path:none !important;"
    "fill:none !important;stroke-linejoin:round !important;stroke-linecap:round !important;"
    "stroke-dasharray:none !important;marker:none !important}\n";
constexpr const char* no_width = "*{stroke-width:0.0001px !important}\n";

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
  ids = ids_of(root);
  const std::vector<pugi::xml_node> shapes = drawn_shapes(root);
  std::vector<std::string> names;
  names.reserve(shapes.size());
  // An id may be given twice; only its first bearer can be asked for.
  for (pugi::xml_node shape : shapes) {
    const auto known = ids.find(std::string_view(shape.attribute("id").value()));
    if (known != ids.end() && known->second != shape) shape.remove_attribute("id");
    names.push_back(id_for(shape, ids));
  }
  std::string why;
  const std::string named = to_text_without_size(root);
  const auto drawn = Drawing::load(named, plain_strokes, why);
  const auto bare = Drawing::load(named, std::string(plain_strokes) + no_width, why);
  if (!drawn || !bare) return std::nullopt;
  const double unit = std::max(view.w, view.h) / measured_side;
  for (const std::string& name : names) {
    const FigureBox line = drawn->cover(name, view, measured_side);
    const FigureBox path = line.w > 0 ? bare->cover(name, view, measured_side) : line;
    const double width = (line.w - path.w + line.h - path.h) / 2;
    out.widths.push_back(width > 1 ? width * unit : 0);
  }
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
    pugi::xml_node shape = shapes[i];
    pugi::xml_attribute style = shape.attribute("style");
    if (!style) style = shape.append_attribute("style");
    std::string css = style.value();
    if (!css.empty() && css.back() != ';') css += ';';
    css += "stroke-width:" + format_number(least / accumulated_scale(shape), 6) + " !important";
    style.set_value(css.c_str());
  }
  return to_text(tree.document_element());
}

}  // namespace platewright::read
