#include "engine/piece_regions.hpp"

#include <algorithm>
#include <string_view>

#include "base/nearest.hpp"
#include "base/quote.hpp"

namespace platewright {
namespace {

constexpr double body_share = 0.8;  // of the figure's width and height: that is the body itself

bool is_body(const Figure& figure, const Anchor& anchor) {
  return anchor.box.w >= body_share * figure.painted.w &&
         anchor.box.h >= body_share * figure.painted.h;
}

}  // namespace

std::vector<std::string> wanted_regions(const PiecesRequest& request, const Loaded& loaded,
                                        Findings& findings) {
  std::vector<std::string> regions;
  const Figure& figure = loaded.figure;
  for (const std::string& name : request.regions) {
    const Anchor* anchor = figure.find(name);
    std::vector<std::string_view> known;
    for (const Anchor& a : figure.anchors)
      if (a.kind == AnchorKind::region) known.push_back(a.name);
    if (!anchor || anchor->kind != AnchorKind::region)
      findings.push_back(
          error(anchor ? "anchor-not-a-region" : "anchor-unknown", {"--regions", 0, 0},
                anchor ? "the anchor " + in_quotes(name) + " is a point, not a region"
                       : "the figure has no anchor " + in_quotes(name),
                did_you_mean(name, known, "regions: " + listed(known))));
    else if (std::find(regions.begin(), regions.end(), name) == regions.end())
      regions.push_back(name);
  }
  if (!request.regions.empty()) return regions;
  for (const Anchor& anchor : figure.anchors) {
    if (anchor.kind != AnchorKind::region || is_body(figure, anchor)) continue;
    const bool has_term = std::any_of(loaded.labels.begin(), loaded.labels.end(),
                                      [&](const SetLabel& l) { return l.anchor == anchor.name; });
    if (request.terms.empty() || has_term) regions.push_back(anchor.name);
  }
  if (regions.empty())
    findings.push_back(error("regions-missing", {"--regions", 0, 0},
                             request.terms.empty()
                                 ? "the figure has no regions besides the whole body"
                                 : "no region of the figure has a term in this label set",
                             "mark shapes with data-anchor, or name them with --regions"));
  return regions;
}

}  // namespace platewright
