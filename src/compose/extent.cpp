#include "compose/extent.hpp"

namespace platewright::compose {
namespace {

void add(std::optional<PageBox>& to, const PageBox& box) { to = to ? united(*to, box) : box; }

struct PointsOf {
  std::optional<PageBox>& to;
  void point(PagePoint p) { add(to, {p.x, p.y, 0, 0}); }
  void operator()(const MoveTo& s) { point(s.to); }
  void operator()(const LineTo& s) { point(s.to); }
  void operator()(const CurveTo& s) {
    point(s.control1);
    point(s.control2);
    point(s.to);
  }
  void operator()(const ClosePath&) {}
};

}  // namespace

std::optional<PageBox> extent(const Group& group) {
  std::optional<PageBox> box;
  for (const Item& item : group.items) {
    if (const auto* text = std::get_if<TextItem>(&item)) {
      add(box, {text->at.x, text->at.y - text->line.ascent, text->line.advance,
                text->line.ascent + text->line.descent});
    } else if (const auto* path = std::get_if<PathItem>(&item)) {
      for (const PathStep& step : path->steps) std::visit(PointsOf{box}, step);
    } else if (const auto* inner = std::get_if<Group>(&item)) {
      if (const auto part = extent(*inner)) add(box, *part);
    }
  }
  return box;
}

}  // namespace platewright::compose
