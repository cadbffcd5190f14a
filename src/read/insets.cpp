#include "read/insets.hpp"

#include "read/svg_use.hpp"

namespace platewright::read {
namespace {

void collect_insets(const SvgDocument& document, pugi::xml_node node, IdMap& ids,
                    std::vector<Inset>& found) {
  for (pugi::xml_node child : node.children()) {
    if (child.type() != pugi::node_element || is_definition(child.name())) continue;
    if (child.attribute("data-inset"))
      found.push_back({id_for(child, ids), document.at(child)});
    else
      collect_insets(document, child, ids, found);
  }
}

}  // namespace

std::vector<Inset> declared_insets(const SvgDocument& document, IdMap& ids) {
  std::vector<Inset> found;
  collect_insets(document, document.root(), ids, found);
  return found;
}

std::vector<FigureBox> inset_boxes(const std::vector<Inset>& insets, const Drawing& drawing,
                                   const FigureBox& view, Findings& findings) {
  std::vector<FigureBox> boxes;
  for (const Inset& inset : insets) {
    const auto geometry = drawing.geometry(inset.id, view);
    if (geometry && geometry->ink.w > 0 && geometry->ink.h > 0)
      boxes.push_back(geometry->ink);
    else
      findings.push_back(warning("inset-empty", inset.declared, "this inset shows nothing",
                                 "draw it, or take data-inset away"));
  }
  return boxes;
}

}  // namespace platewright::read
