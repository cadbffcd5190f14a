#include "place/foreign.hpp"

#include <algorithm>

#include "place/leader.hpp"

namespace platewright::place {

Foreign foreign_to(const Rulebook& rules, int self, const Offer& offer) {
  const Problem& problem = *rules.problem;
  Foreign foreign;
  for (std::size_t k = 0; k < problem.labels.size(); ++k) {
    const double gap = rules.anchor_gap(self, static_cast<int>(k));
    if (static_cast<int>(k) == self || offer[k].empty() || gap <= 0) continue;
    if (offer[k].size() > 1) {
      Foreign::Choosing choosing;
      choosing.label = static_cast<int>(k);
      choosing.targets_begin = foreign.points_end.size();
      for (const int t : offer[k]) {
        const auto& points = problem.labels[k].targets[static_cast<std::size_t>(t)].points;
        foreign.points.insert(foreign.points.end(), points.begin(), points.end());
        foreign.points_end.push_back(foreign.points.size());
        const auto [west, east] = std::minmax_element(
            points.begin(), points.end(), [](PagePoint a, PagePoint b) { return a.x < b.x; });
        const auto [north, south] = std::minmax_element(
            points.begin(), points.end(), [](PagePoint a, PagePoint b) { return a.y < b.y; });
        choosing.left = std::min(choosing.left, east->x);
        choosing.right = std::max(choosing.right, west->x);
        choosing.above = std::min(choosing.above, south->y);
        choosing.below = std::max(choosing.below, north->y);
      }
      choosing.targets_end = foreign.points_end.size();
      foreign.choosing.push_back(choosing);
      continue;
    }
    for (const PagePoint& p :
         problem.labels[k].targets[static_cast<std::size_t>(offer[k].front())].points)
      foreign.fixed.push_back({p, gap + slack});
  }
  std::sort(foreign.fixed.begin(), foreign.fixed.end(),
            [](const Foreign::Point& a, const Foreign::Point& b) {
              return a.at.y != b.at.y ? a.at.y < b.at.y : a.at.x < b.at.x;
            });
  return foreign;
}

bool leaves_room(const Rulebook& rules, const Placed& self, const Foreign& foreign) {
  const Problem& problem = *rules.problem;
  const double most = problem.rules.anchor_gap + 2 * slack;
  double left = self.port.x, right = left, top = self.port.y, bottom = top;
  for (const PagePoint& p : self.target->points) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
    for (const Segment& s : branch_to(self.side, self.port, problem.stub, p)) {
      const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y;
      const double square = dx * dx + dy * dy;
      const double inverse = square > 0 ? 1 / square : 0;
      const double low = std::min(s.from.y, s.to.y) - most,
                   high = std::max(s.from.y, s.to.y) + most;
      auto next = std::lower_bound(foreign.fixed.begin(), foreign.fixed.end(), low,
                                   [](const Foreign::Point& f, double y) { return f.at.y < y; });
      for (; next != foreign.fixed.end() && next->at.y <= high; ++next) {
        const Foreign::Point& f = *next;
        const double px = f.at.x - s.from.x, py = f.at.y - s.from.y;
        const double t = std::clamp((px * dx + py * dy) * inverse, 0.0, 1.0);
        const double ex = px - t * dx, ey = py - t * dy;
        if (ex * ex + ey * ey < f.gap * f.gap) return false;
      }
    }
  }
  left -= most, right += most, top -= most, bottom += most;
  for (const Foreign::Choosing& other : foreign.choosing) {
    if (other.above < top || other.below > bottom || other.left < left || other.right > right)
      continue;
    bool some = false;
    for (std::size_t target = other.targets_begin; target < other.targets_end && !some; ++target) {
      some = true;
      for (std::size_t k = target > 0 ? foreign.points_end[target - 1] : 0;
           k < foreign.points_end[target] && some; ++k) {
        const PagePoint& p = foreign.points[k];
        if (p.x < left || p.x > right || p.y < top || p.y > bottom) continue;
        some = passes(rules, self, other.label, p);
      }
    }
    if (!some) return false;
  }
  return true;
}

}  // namespace platewright::place
