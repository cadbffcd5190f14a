#include "read/outline_clips.hpp"

#include <string_view>

#include "read/svg_css.hpp"
#include "read/svg_shapes.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_edges = 5000;  // that one figure gets

// The clip that an element names itself; none for anything unusual.
pugi::xml_node clip_of(const pugi::xml_node& node, const IdMap& ids) {
  std::string named = node.attribute("clip-path").value();
  const std::string_view css = node.attribute("style").value();
  if (const std::size_t at = css.find("clip-path"); at != std::string_view::npos)
    named = css.substr(at, css.find(';', at) - at);
  pugi::xml_node clip;
  ids_in_urls(named, [&](std::string_view id) {
    if (const auto found = ids.find(id); found != ids.end()) clip = found->second;
  });
  const bool usual =
      clip && std::string_view(clip.name()) == "clipPath" &&
      std::string_view(clip.attribute("clipPathUnits").value()) != "objectBoundingBox" &&
      !clip.attribute("clip-path");
  return usual ? clip : pugi::xml_node();
}

bool moved(const pugi::xml_node& node) {
  return node.attribute("transform") ||
         std::string_view(node.attribute("style").value()).find("transform") !=
             std::string_view::npos;
}

// The geometry alone.
void keep_shape(pugi::xml_node shape) {
  for (const char* name : {"clip-path", "style", "class", "id", "mask", "filter", "data-anchor"})
    shape.remove_attribute(name);
}

void set(pugi::xml_node node, const char* name, const std::string& value) {
  pugi::xml_attribute attribute = node.attribute(name);
  if (!attribute) attribute = node.append_attribute(name);
  attribute.set_value(value.c_str());
}

// After `shape`: the edges of `clip`, which stands in the space of `bearer`, inside it.
std::size_t add_edges(pugi::xml_node shape, const pugi::xml_node& bearer,
                      const pugi::xml_node& clip, IdMap& ids,
                      const std::function<std::string(pugi::xml_node)>& line_of) {
  pugi::xml_node parent = shape.parent();
  pugi::xml_node inside = parent.insert_child_after("g", shape);
  pugi::xml_node window = parent.insert_child_after("clipPath", shape);
  const std::string transform = shape.attribute("transform").value();
  if (bearer == shape && !transform.empty()) set(inside, "transform", transform);
  set(inside, "clip-path", "url(#" + id_for(window, ids) + ")");
  pugi::xml_node copy = window.append_copy(shape);
  // The rule that filled it cuts now.
  const std::string rule = shape.attribute("fill-rule").value();
  keep_shape(copy);
  if (bearer == shape) copy.remove_attribute("transform");
  if (!rule.empty()) set(copy, "clip-rule", rule);
  pugi::xml_node edges = inside.append_child("g");
  if (clip.attribute("transform")) set(edges, "transform", clip.attribute("transform").value());
  std::size_t count = 0;
  for (const pugi::xml_node& edge : clip.children()) {
    if (!is_shape(edge.name())) continue;
    pugi::xml_node line = edges.append_copy(edge);
    keep_shape(line);
    set(line, "style", line_of(line));
    ++count;
  }
  return count;
}

}  // namespace

void outline_clips(const std::vector<pugi::xml_node>& filled, IdMap& ids,
                   const std::function<std::string(pugi::xml_node)>& line_of) {
  std::size_t count = 0;
  for (const pugi::xml_node& shape : filled) {
    // CSS transforms are not carried along.
    if (std::string_view(shape.attribute("style").value()).find("transform") !=
        std::string_view::npos)
      continue;
    for (pugi::xml_node bearer = shape; bearer && count < most_edges; bearer = bearer.parent()) {
      if (const pugi::xml_node clip = clip_of(bearer, ids))
        count += add_edges(shape, bearer, clip, ids, line_of);
      // Beyond a group that is moved, or a picture within the picture, spaces differ.
      if (bearer != shape && (moved(bearer) || std::string_view(bearer.name()) == "svg")) break;
    }
  }
}

}  // namespace platewright::read
