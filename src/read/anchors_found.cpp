#include "read/anchors_found.hpp"

#include <algorithm>
#include <numeric>

#include "base/at_once.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "read/region_points.hpp"
#include "read/text_room.hpp"

namespace platewright::read {
namespace {

// Candidates nearer to another anchor's point than this share of the figure's side are dropped.
constexpr double too_near = 0.004;

FigureBox box_of(const std::vector<AnchorPoint>& points) {
  if (points.empty()) return {};
  FigureBox box{points.front().at.x, points.front().at.y, 0, 0};
  for (const AnchorPoint& p : points) box = united(box, FigureBox{p.at.x, p.at.y, 0, 0});
  return box;
}

void check_inside(const Anchor& anchor, const FigureBox& view, Findings& findings) {
  const FigureBox room{view.x - view.w, view.y - view.h, 3 * view.w, 3 * view.h};
  for (const AnchorPoint& p : anchor.points) {
    if (room.contains(p.at)) continue;
    findings.push_back(warning("anchor-outside", anchor.declared,
                               "anchor " + in_quotes(anchor.name) + " lies at " +
                                   format_number(p.at.x, 2) + ", " + format_number(p.at.y, 2) +
                                   ", far outside the figure",
                               "points are in viewBox units"));
    return;
  }
}

// A region's candidates keep clear of the points of other anchors, where they can.
void keep_clear(std::vector<Anchor>& anchors, double side) {
  for (Anchor& region : anchors) {
    if (region.kind != AnchorKind::region) continue;
    const auto taken = [&](const AnchorPoint& candidate) {
      return std::ranges::any_of(anchors, [&](const Anchor& other) {
        return &other != &region && other.kind != AnchorKind::region &&
               std::ranges::any_of(other.points, [&](const AnchorPoint& p) {
                 return distance(p.at, candidate.at) < too_near * side;
               });
      });
    };
    std::vector<AnchorPoint> free;
    for (const AnchorPoint& candidate : region.points)
      if (!taken(candidate)) free.push_back(candidate);
    if (!free.empty()) region.points = std::move(free);
  }
}

}  // namespace

std::vector<Anchor> found_anchors(const std::vector<AnchorDeclaration>& declarations,
                                  const std::vector<MarkerPoint>& markers,
                                  const std::vector<DrawnRegion>& regions,
                                  const std::vector<Mask>& masks, const Pixels& pixels,
                                  const RasterFrame& frame,
                                  Findings& findings) {
  std::vector<Anchor> anchors(declarations.size());
  std::vector<int> drawn(declarations.size());
  for (std::size_t i = 0; i < declarations.size(); ++i) {
    anchors[i].name = declarations[i].name;
    anchors[i].declared = declarations[i].position;
    for (const FigurePoint& p : declarations[i].at) anchors[i].points.push_back({p});
  }
  for (const MarkerPoint& marker : markers)
    anchors[marker.declaration].points.push_back({marker.at});

  struct Seen {
    std::vector<AnchorPoint> points;
    FigureGrid text_room;
  };
  std::vector<Seen> seen(regions.size());
  // The largest first, so that neither thread is left with one of them at the end.
  std::vector<std::size_t> order(regions.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return masks[a].inside.size() > masks[b].inside.size();
  });
  each_at_once(2 * regions.size(), [&](std::size_t k) {
    const std::size_t i = order[k / 2];
    if (k % 2 == 0)
      seen[i].points = region_points(masks[i], frame);
    else
      seen[i].text_room = text_room(masks[i], pixels, frame);
  });
  for (std::size_t i = 0; i < regions.size(); ++i) {
    Anchor& anchor = anchors[regions[i].declaration];
    std::vector<AnchorPoint> points = std::move(seen[i].points);
    if (points.empty() && regions[i].measured) points.push_back({regions[i].region.box.centre()});
    if (points.empty()) continue;
    if (++drawn[regions[i].declaration] == 1) {
      anchor.points = std::move(points);
      anchor.box = regions[i].region.box;
      anchor.element_id = regions[i].region.id;
      anchor.text_room = std::move(seen[i].text_room);
    } else {
      // Drawn again by <use>: one label, a leader to each.
      anchor.text_room = {};
      anchor.points.resize(
          anchor.points.empty() ? 0 : static_cast<std::size_t>(drawn[regions[i].declaration] - 1));
      anchor.points.push_back(points.front());
      anchor.box = united(anchor.box, regions[i].region.box);
    }
  }

  std::vector<Anchor> found;
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    Anchor& anchor = anchors[i];
    const bool region = declarations[i].kind == Declared::region;
    if (anchor.points.empty()) {
      const bool there =
          std::ranges::any_of(regions, [&](const DrawnRegion& r) { return r.declaration == i; });
      findings.push_back(
          there ? error("region-empty", anchor.declared,
                        "the region of anchor " + in_quotes(anchor.name) + " has no extent",
                        "draw a shape in it, or mark a point")
                : error("anchor-unseen", anchor.declared,
                        "anchor " + in_quotes(anchor.name) +
                            " stands among definitions that nothing draws",
                        "move it into the drawing"));
      continue;
    }
    if (region && drawn[i] == 1) {
      anchor.kind = AnchorKind::region;
    } else {
      anchor.kind = anchor.points.size() > 1 ? AnchorKind::points : AnchorKind::point;
      if (!region) {
        anchor.box = box_of(anchor.points);
      } else {
        for (AnchorPoint& p : anchor.points) p.penalty = 0;
      }
    }
    check_inside(anchor, frame.view, findings);
    found.push_back(std::move(anchor));
  }
  std::ranges::sort(found, {}, &Anchor::name);
  keep_clear(found, std::max(frame.view.w, frame.view.h));
  return found;
}

}  // namespace platewright::read
