#include "read/anchors_markers.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"
#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

constexpr const char* shown_style = "display:inline !important;visibility:visible !important";

// Style attributes changed for the time of measuring, and elements added.
class Changes {
 public:
  void show(pugi::xml_node node) {
    if (!shown_.insert(node.hash_value()).second) return;
    const pugi::xml_attribute style = node.attribute("style");
    styles_.push_back({node, static_cast<bool>(style), style.value()});
    if (style) {
      node.attribute("style").set_value(plain(style.value()).c_str());
    } else {
      node.append_attribute("style").set_value(shown_style);
    }
  }
  void added(pugi::xml_node node) { added_.push_back(node); }
  void id(pugi::xml_node node, const std::string& name) {
    const pugi::xml_attribute old = node.attribute("id");
    ids_.push_back({node, static_cast<bool>(old), old.value()});
    if (old) {
      node.attribute("id").set_value(name.c_str());
    } else {
      node.append_attribute("id").set_value(name.c_str());
    }
  }
  ~Changes() {
    for (const Old& old : styles_) restore(old, "style");
    for (const Old& old : ids_) restore(old, "id");
    for (pugi::xml_node node : added_) node.parent().remove_child(node);
  }

 private:
  struct Old {
    pugi::xml_node node;
    bool there;
    std::string value;
  };
  // Declarations of display and visibility go, since their own !important might win.
  static std::string plain(std::string_view css) {
    std::string out;
    for (std::size_t i = 0; i < css.size();) {
      const std::size_t end = std::min(css.find(';', i), css.size());
      const std::string_view declaration = css.substr(i, end - i);
      i = end + 1;
      if (declaration.starts_with("display:") || declaration.starts_with("visibility:")) continue;
      out.append(declaration).append(";");
    }
    return out + shown_style;
  }
  static void restore(Old old, const char* name) {
    if (old.there) {
      old.node.attribute(name).set_value(old.value.c_str());
    } else {
      old.node.remove_attribute(name);
    }
  }
  std::set<std::size_t> shown_;
  std::vector<Old> styles_, ids_;
  std::vector<pugi::xml_node> added_;
};

// The first two numbers of path data or a list of points.
std::pair<std::string, std::string> first_point(std::string_view data) {
  std::vector<std::string> found;
  for (std::size_t i = 0; i < data.size() && found.size() < 2;) {
    const std::size_t start = data.find_first_of("+-.0123456789", i);
    if (start == std::string_view::npos) break;
    std::size_t end = start + 1;
    while (end < data.size() &&
           ((data[end] >= '0' && data[end] <= '9') || data[end] == '.' || data[end] == 'e' ||
            data[end] == 'E' ||
            ((data[end] == '-' || data[end] == '+') && (data[end - 1] | 0x20) == 'e')))
      ++end;
    std::string_view word = data.substr(start, end - start);
    if (word.starts_with('+')) word.remove_prefix(1);
    if (const auto value = parse_number(word)) found.push_back(format_number(*value, 6));
    i = end;
  }
  if (found.size() < 2) return {"0", "0"};
  return {found[0], found[1]};
}

// Where an element without extent has its own origin, as written, units and all.
std::pair<std::string, std::string> origin_of(const pugi::xml_node& node) {
  const std::string_view name = node.name();
  const auto attribute = [&](const char* key) {
    const std::string_view value = trimmed(node.attribute(key).value());
    return value.empty() ? std::string("0") : std::string(value);
  };
  if (name == "circle" || name == "ellipse") return {attribute("cx"), attribute("cy")};
  if (name == "line") return {attribute("x1"), attribute("y1")};
  if (name == "path") return first_point(node.attribute("d").value());
  if (name == "polygon" || name == "polyline") return first_point(node.attribute("points").value());
  if (name == "rect" || name == "image" || name == "use" || name == "text")
    return {attribute("x"), attribute("y")};
  return {"0", "0"};
}

// From a marker down to the first shape inside it: a group without extent has
// that shape's origin.
std::vector<pugi::xml_node> way_to_origin(pugi::xml_node node) {
  std::vector<pugi::xml_node> way{node};
  while (std::string_view(node.name()) == "g" || std::string_view(node.name()) == "svg") {
    pugi::xml_node child = node.first_child();
    while (child && (child.type() != pugi::node_element || is_definition(child.name())))
      child = child.next_sibling();
    if (!child) break;
    way.push_back(node = child);
  }
  return way;
}

// The same transforms as those of the way, from the marker's parent, around one <use>.
pugi::xml_node probe_beside(const std::vector<pugi::xml_node>& way, const std::string& id) {
  pugi::xml_node inner;
  pugi::xml_node outermost;
  for (const pugi::xml_node& step : way) {
    const bool viewport = std::string_view(step.name()) == "svg";
    const char* name = viewport ? "svg" : "g";
    inner = inner ? inner.append_child(name)
                  : pugi::xml_node(way.front()).parent().insert_child_before(name, way.front());
    if (!outermost) outermost = inner;
    for (const char* key : {"transform", "style", "class"})
      if (const pugi::xml_attribute a = step.attribute(key)) inner.append_copy(a);
    if (viewport)
      for (const char* key : {"x", "y", "width", "height", "viewBox", "preserveAspectRatio"})
        if (const pugi::xml_attribute a = step.attribute(key)) inner.append_copy(a);
  }
  const auto [x, y] = origin_of(way.back());
  pugi::xml_node use = inner.append_child("use");
  for (const auto& [key, value] :
       {std::pair<const char*, std::string>{"id", id}, {"href", "#pw-probe"}, {"x", x}, {"y", y}})
    use.append_attribute(key).set_value(value.c_str());
  return outermost;
}

void collect(pugi::xml_node node, std::vector<pugi::xml_node>& markers) {
  for (const pugi::xml_node child : node.children()) {
    if (child.type() != pugi::node_element || is_definition(child.name())) continue;
    if (child.attribute(marker_attribute)) {
      if (child.attribute(origin_attribute)) markers.push_back(child);
      continue;
    }
    collect(child, markers);
  }
}

}  // namespace

ProbedMarkers probed_markers(SvgDocument& document) {
  ProbedMarkers probed;
  std::vector<pugi::xml_node> markers;
  collect(document.root(), markers);
  if (markers.empty()) return probed;

  Changes changes;
  pugi::xml_node root = document.root();
  pugi::xml_node defs = root.append_child("defs");
  changes.added(defs);
  pugi::xml_node dot = defs.append_child("rect");
  const auto set = [](pugi::xml_node node, const char* name, const std::string& value) {
    node.append_attribute(name).set_value(value.c_str());
  };
  // Centred on its own origin: its middle is that origin after any affine transform.
  for (const auto& [name, value] :
       {std::pair{"id", "pw-probe"}, {"x", "-1"}, {"y", "-1"}, {"width", "2"}, {"height", "2"}})
    set(dot, name, value);

  for (std::size_t i = 0; i < markers.size(); ++i) {
    const pugi::xml_node marker = markers[i];
    for (pugi::xml_node up = marker.parent(); up && up != document.tree; up = up.parent())
      changes.show(up);
    each_element(marker, [&](pugi::xml_node node) { changes.show(node); });
    changes.added(probe_beside(way_to_origin(marker), "pw-probe-" + std::to_string(i)));
    changes.id(marker, "pw-marker-" + std::to_string(i));
    probed.declarations.push_back(marker.attribute(origin_attribute).as_ullong());
  }
  probed.svg = to_text_without_size(root);
  return probed;
}

std::optional<std::vector<MarkerPoint>> marker_points(const ProbedMarkers& probed,
                                                      const FigureBox& view, std::string& why) {
  std::vector<MarkerPoint> points;
  if (probed.declarations.empty()) return points;
  const std::optional<Drawing> drawing = Drawing::load(probed.svg, {}, why);
  if (!drawing) return std::nullopt;
  for (std::size_t i = 0; i < probed.declarations.size(); ++i) {
    auto geometry = drawing->geometry("pw-marker-" + std::to_string(i), view);
    if (!geometry) geometry = drawing->geometry("pw-probe-" + std::to_string(i), view);
    if (geometry) points.push_back({probed.declarations[i], geometry->logical.centre()});
  }
  return points;
}

}  // namespace platewright::read
