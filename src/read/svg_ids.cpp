#include "read/svg_ids.hpp"

namespace platewright::read {

void each_element(const pugi::xml_node& from, const std::function<void(pugi::xml_node)>& visit) {
  if (from.type() != pugi::node_element) return;
  visit(from);
  for (const pugi::xml_node child : from.children()) each_element(child, visit);
}

IdMap ids_of(const pugi::xml_node& root) {
  IdMap ids;
  each_element(root, [&](pugi::xml_node node) {
    const pugi::xml_attribute id = node.attribute("id");
    if (id && *id.value() != '\0') ids.emplace(id.value(), node);
  });
  return ids;
}

std::string id_for(pugi::xml_node node, IdMap& ids) {
  if (const pugi::xml_attribute id = node.attribute("id"); id && *id.value() != '\0')
    return id.value();
  std::string name;
  std::size_t number = ids.size();
  do {
    name = "pw-" + std::to_string(++number);
  } while (ids.contains(name));
  node.remove_attribute("id");
  node.append_attribute("id").set_value(name.c_str());
  ids.emplace(name, node);
  return name;
}

std::string_view href_target(const pugi::xml_node& node) {
  const std::string_view href = node.attribute("href").value();
  return href.starts_with('#') ? href.substr(1) : std::string_view();
}

}  // namespace platewright::read
