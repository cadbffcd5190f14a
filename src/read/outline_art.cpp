// The colouring version of a figure: shapes white with an ink outline.
//
// Which shapes have a fill, and which show at all, is asked of librsvg, so that
// any CSS counts; the answers are written on each shape with !important, so
// that no CSS wins over them.
#include <cmath>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/outline_clips.hpp"
#include "read/read.hpp"
#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_shapes.hpp"
#include "read/svg_transform.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

constexpr const char* ink = "#000";

bool has_class(const pugi::xml_node& node, std::string_view wanted) {
  const std::string_view words = node.attribute("class").value();
  for (std::size_t at = words.find(wanted); at != std::string_view::npos;
       at = words.find(wanted, at + 1)) {
    const std::size_t end = at + wanted.size();
    if ((at == 0 || words[at - 1] == ' ') && (end == words.size() || words[end] == ' '))
      return true;
  }
  return false;
}

bool is_shading(const pugi::xml_node& node) {
  return has_class(node, "shade") || has_class(node, "light") || has_class(node, "texture");
}

void set_attribute(pugi::xml_node node, const char* name, const std::string& value) {
  pugi::xml_attribute attribute = node.attribute(name);
  if (!attribute) attribute = node.append_attribute(name);
  attribute.set_value(value.c_str());
}

// `css` without what the outline decides, and the outline's declarations after it.
void restyle(pugi::xml_node node, const std::string& declarations) {
  const std::string_view css = node.attribute("style").value();
  std::string out;
  for (std::size_t i = 0; i < css.size();) {
    const std::size_t end = std::min(css.find(';', i), css.size());
    const std::string_view declaration = trimmed(css.substr(i, end - i));
    i = end + 1;
    bool ours = declaration.empty();
    for (const std::string_view name :
         {"fill", "stroke", "opacity", "filter", "mix-blend-mode", "paint-order"})
      ours = ours || declaration.starts_with(name);
    // A line's dashes are its drawing.
    if (declaration.starts_with("stroke-dash") || declaration.starts_with("fill-rule"))
      ours = false;
    if (!ours) out.append(declaration).append(";");
  }
  set_attribute(node, "style", out + declarations);
}

struct Shapes {
  std::vector<pugi::xml_node> shapes;
  std::vector<pugi::xml_node> texts;
  std::vector<pugi::xml_node> groups;
};

// Takes shading and images away and collects the rest of what is drawn.
void collect(pugi::xml_node node, Shapes& found) {
  for (pugi::xml_node child = node.first_child(); child;) {
    const pugi::xml_node here = child;
    child = child.next_sibling();
    const std::string_view name = here.name();
    if (here.type() != pugi::node_element || is_definition(name)) continue;
    if (name == "image" || is_shading(here)) {
      node.remove_child(here);
    } else if (is_shape(name)) {
      found.shapes.push_back(here);
    } else if (name == "text") {
      found.texts.push_back(here);
    } else {
      found.groups.push_back(here);
      collect(here, found);
    }
  }
}

constexpr const char* bare =
    "*{filter:none !important;mask:none !important;clip-path:none !important}\n";
constexpr const char* opaque = "*{opacity:1 !important}\n";
constexpr const char* without_stroke = "*{stroke:none !important}\n";

// Which of the elements paint anything under some rules.
std::optional<std::vector<bool>> painting(const std::string& svg, const std::string& rules,
                                          const std::vector<std::string>& ids,
                                          const FigureBox& view, std::string& why) {
  const std::optional<Drawing> drawing = Drawing::load(svg, rules, why);
  if (!drawing) return std::nullopt;
  std::vector<bool> answers;
  answers.reserve(ids.size());
  for (const std::string& id : ids) answers.push_back(drawing->paints(id, view));
  return answers;
}

}  // namespace

Result<std::string> outline_art(const Figure& figure, double width) {
  if (!(width > 0) || !std::isfinite(width))
    return error("outline-width", {figure.name, 0, 0},
                 "an outline " + format_number(std::isfinite(width) ? width : 0, 3) + " units wide",
                 "give a width of more than 0");
  SvgDocument document;
  document.source.path = figure.name;
  document.source.text = figure.svg;
  document.source.line_starts = {0};
  const pugi::xml_parse_result parsed =
      document.tree.load_buffer(figure.svg.data(), figure.svg.size(),
                                pugi::parse_default | pugi::parse_ws_pcdata, pugi::encoding_utf8);
  const pugi::xml_node root = document.root();
  if (!parsed || !root)
    return error("figure-undrawable", {figure.name, 0, 0}, "the figure's document is not XML");

  IdMap ids = ids_of(root);
  // Shapes that are reused may look different in each place.
  expand_all_uses(root, ids);
  ids = ids_of(root);
  Shapes found;
  collect(root, found);
  std::vector<std::string> names;
  names.reserve(found.shapes.size() + found.texts.size());
  const std::size_t own_ids = ids.size();
  for (const pugi::xml_node& shape : found.shapes) names.push_back(id_for(shape, ids));
  for (const pugi::xml_node& text : found.texts) names.push_back(id_for(text, ids));

  std::string why;
  const std::string svg = to_text_without_size(root);
  const auto asked = [&](const std::string& rules) {
    return painting(svg, rules, names, figure.view_box, why);
  };
  const auto seen = asked(bare);
  // A translucent group counts as painting all over, whatever is in it: ask again as if opaque.
  const auto painted = asked(std::string(bare) + opaque);
  const auto filled = asked(std::string(bare) + opaque + without_stroke);
  if (!seen || !painted || !filled)
    return error("figure-undrawable", {figure.name, 0, 0},
                 "the figure cannot be drawn: " + escaped(why));

  const auto line_of = [&](const pugi::xml_node& node) {
    return std::string("stroke:") + ink + " !important;stroke-opacity:1 !important;stroke-width:" +
           format_number(width / accumulated_scale(node), 6) +
           " !important;stroke-linejoin:round !important;";
  };
  std::vector<pugi::xml_node> areas;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool text = i >= found.shapes.size();
    pugi::xml_node node = text ? found.texts[i - found.shapes.size()] : found.shapes[i];
    if (!(*seen)[i] || !(*painted)[i]) {
      node.parent().remove_child(node);
      continue;
    }
    const std::string common = "opacity:1 !important;filter:none !important;";
    if (text) {
      restyle(node, common + "fill:" + ink + " !important;stroke:none !important");
      each_element(node, [&](pugi::xml_node part) {
        if (part != node)
          restyle(part, std::string("fill:") + ink + " !important;stroke:none !important");
      });
    } else {
      if ((*filled)[i]) areas.push_back(node);
      restyle(node, common + line_of(node) +
                        ((*filled)[i] ? "fill:#fff !important;fill-opacity:1 !important;"
                                        "stroke-dasharray:none !important"
                                      : "fill:none !important"));
    }
    // Ids given for the questions only.
    const std::string_view id = node.attribute("id").value();
    if (id.starts_with("pw-") && ids.size() > own_ids) {
      const auto entry = ids.find(id);
      if (entry != ids.end() && entry->second == node &&
          figure.svg.find("id=\"" + std::string(id) + "\"") == std::string::npos)
        node.remove_attribute("id");
    }
  }
  ids = ids_of(root);
  outline_clips(areas, ids, [&](const pugi::xml_node& node) {
    return line_of(node) + "fill:none !important;stroke-dasharray:none !important";
  });
  for (const pugi::xml_node& group : found.groups)
    restyle(group, "opacity:1 !important;filter:none !important");
  return to_text(root);
}

}  // namespace platewright::read
