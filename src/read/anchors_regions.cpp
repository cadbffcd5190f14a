#include "read/anchors_regions.hpp"

#include <algorithm>
#include <functional>
#include <map>

#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

void collect(pugi::xml_node node, IdMap& ids, std::vector<int>& within,
             std::vector<DrawnRegion>& regions) {
  for (pugi::xml_node child : node.children()) {
    if (child.type() != pugi::node_element || is_definition(child.name())) continue;
    const pugi::xml_attribute origin = child.attribute(origin_attribute);
    if (origin) {
      DrawnRegion drawn;
      drawn.declaration = static_cast<std::size_t>(origin.as_ullong());
      drawn.region.id = id_for(child, ids);
      drawn.region.within = within;
      regions.push_back(std::move(drawn));
      within.push_back(static_cast<int>(regions.size()) - 1);
    }
    collect(child, ids, within, regions);
    if (origin) within.pop_back();
  }
}

}  // namespace

std::vector<DrawnRegion> drawn_regions(const pugi::xml_node& root, IdMap& ids) {
  std::vector<DrawnRegion> regions;
  std::vector<int> within;
  collect(root, ids, within, regions);
  return regions;
}

void note_shapes(const pugi::xml_node& root, std::vector<DrawnRegion>& regions, IdMap& ids) {
  std::map<std::string, std::size_t, std::less<>> by_id;
  for (std::size_t i = 0; i < regions.size(); ++i) by_id.emplace(regions[i].region.id, i);
  const std::function<void(pugi::xml_node, std::size_t)> walk = [&](pugi::xml_node node,
                                                                    std::size_t owner) {
    if (const auto own = by_id.find(std::string_view(node.attribute("id").value()));
        own != by_id.end())
      owner = own->second;
    if (owner < regions.size()) {
      Region& region = regions[owner].region;
      const std::string_view name = node.name();
      if (name == "image" || name == "use") region.plain = false;
      for (const std::string_view kind :
           {"path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text"})
        if (name == kind) region.shapes.push_back({id_for(node, ids)});
    }
    for (const pugi::xml_node child : node.children())
      if (child.type() == pugi::node_element) walk(child, owner);
  };
  walk(root, regions.size());
}

void measure_regions(const Drawing& drawing, const FigureBox& view,
                     std::vector<DrawnRegion>& regions) {
  for (DrawnRegion& drawn : regions) {
    if (drawn.measured) continue;
    const auto geometry = drawing.geometry(drawn.region.id, view);
    if (!geometry) continue;
    drawn.measured = true;
    const FigureBox& shape = geometry->logical;
    drawn.region.box = united(geometry->ink, shape);
    const double stroke = std::max({shape.x - geometry->ink.x, shape.y - geometry->ink.y,
                                    geometry->ink.right() - shape.right(),
                                    geometry->ink.bottom() - shape.bottom(), 0.0});
    drawn.region.thin = stroke > 0.15 * std::min(shape.w, shape.h);
  }
}

}  // namespace platewright::read
