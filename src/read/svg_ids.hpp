// The ids of a tree: which element has which, and new ones that none has.
#pragma once

#include <functional>
#include <map>
#include <pugixml.hpp>
#include <string>
#include <string_view>

namespace platewright::read {

using IdMap = std::map<std::string, pugi::xml_node, std::less<>>;

// Each element in document order; the tree's depth is limited, so is the recursion.
void each_element(const pugi::xml_node& from, const std::function<void(pugi::xml_node)>& visit);

// The first element that has an id counts.
IdMap ids_of(const pugi::xml_node& root);

// The element's id; where it has none, a new one "pw-1", "pw-2" ... is given and noted.
std::string id_for(pugi::xml_node node, IdMap& ids);

// An element's reference to another by href="#id"; empty when it has none.
std::string_view href_target(const pugi::xml_node& node);

}  // namespace platewright::read
