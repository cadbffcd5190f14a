// A version of a figure: parts hidden, shown and tinted in its document, before
// anything is measured.
#pragma once

#include <string>
#include <vector>

#include "platewright/figure_version.hpp"
#include "read/svg_document.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

// Adds the version's stylesheet to the root. Anchors inside hidden parts lose
// their declarations, in the tree and in `added`; their names are returned,
// sorted. Errors `version-id-unknown`, `version-class-unknown`.
std::vector<std::string> apply_version(SvgDocument& document, const IdMap& ids,
                                       const FigureVersion& version,
                                       std::vector<AddedAnchor>& added, Findings& findings);

}  // namespace platewright::read
