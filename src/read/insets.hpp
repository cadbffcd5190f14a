// Parts of the drawing that no leader may cross: a magnified detail, a legend, a scale.
#pragma once

#include <string>
#include <vector>

#include "read/svg_document.hpp"
#include "read/svg_drawing.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

struct Inset {
  std::string id;
  SourcePosition declared;
};

// The outermost elements with `data-inset`, in document order; gives ids to those that have none.
std::vector<Inset> declared_insets(const SvgDocument& document, IdMap& ids);

// What each covers, figure units; a warning `inset-empty` for one that shows nothing.
std::vector<FigureBox> inset_boxes(const std::vector<Inset>& insets, const Drawing& drawing,
                                   const FigureBox& view, Findings& findings);

}  // namespace platewright::read
