// The anchors that a figure and its terms file declare, before anybody asks
// where they lie.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "platewright/terms.hpp"
#include "read/svg_document.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

enum class Declared { marker, region, points };

struct AnchorDeclaration {
  std::string name;
  Declared kind = Declared::marker;
  std::vector<FigurePoint> at;  // of `points`
  SourcePosition position;
};

// Letters of any script, digits, "-", "_" and "."; at least one.
bool anchor_name_valid(std::string_view name);

// Collects markers (id="anchor-NAME", data-anchor-point), regions (data-anchor)
// and `added` ones, and marks their elements with `origin_attribute`, the index
// into what is returned, and `marker_attribute`. A marker inside a marker does
// not count. Errors: `anchor-name`, `anchor-duplicate`, `anchor-unknown-region`,
// `anchor-point`.
std::vector<AnchorDeclaration> declared_anchors(SvgDocument& document, const IdMap& ids,
                                                const std::vector<AddedAnchor>& added,
                                                Findings& findings);

}  // namespace platewright::read
