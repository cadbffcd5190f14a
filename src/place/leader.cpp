#include "place/leader.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::place {
namespace {

double turn(PagePoint a, PagePoint b, PagePoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace

double distance(PagePoint point, const Segment& segment) {
  const double dx = segment.to.x - segment.from.x, dy = segment.to.y - segment.from.y;
  const double px = point.x - segment.from.x, py = point.y - segment.from.y;
  const double square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp((px * dx + py * dy) / square, 0.0, 1.0) : 0.0;
  const double ex = px - t * dx, ey = py - t * dy;
  return std::sqrt(ex * ex + ey * ey);
}

bool cross(const Segment& a, const Segment& b) {
  const double p = turn(a.from, a.to, b.from), q = turn(a.from, a.to, b.to);
  if (!((p > 0 && q < 0) || (p < 0 && q > 0))) return false;
  const double r = turn(b.from, b.to, a.from), s = turn(b.from, b.to, a.to);
  return (r > 0 && s < 0) || (r < 0 && s > 0);
}

double distance(const Segment& a, const Segment& b) {
  if (cross(a, b)) return 0;
  return std::min(std::min(distance(a.from, b), distance(a.to, b)),
                  std::min(distance(b.from, a), distance(b.to, a)));
}

bool enters(const Segment& segment, const PageBox& box) {
  double enter = 0, leave = 1;
  const auto clip = [&](double start, double delta, double low, double high) {
    if (delta == 0) {
      if (start <= low || start >= high) leave = -1;
      return;
    }
    const double a = (low - start) / delta, b = (high - start) / delta;
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  };
  clip(segment.from.x, segment.to.x - segment.from.x, box.left(), box.right());
  clip(segment.from.y, segment.to.y - segment.from.y, box.top(), box.bottom());
  return leave - enter > 1e-12;
}

double distance(const Segment& segment, const PageBox& box) {
  if (enters(segment, box)) return 0;
  const auto to_point = [&](PagePoint p) {
    const double dx = std::max({box.left() - p.x, 0.0, p.x - box.right()});
    const double dy = std::max({box.top() - p.y, 0.0, p.y - box.bottom()});
    return std::sqrt(dx * dx + dy * dy);
  };
  double least = std::min(to_point(segment.from), to_point(segment.to));
  const std::array<PagePoint, 4> corners{
      PagePoint{box.left(), box.top()}, PagePoint{box.right(), box.top()},
      PagePoint{box.left(), box.bottom()}, PagePoint{box.right(), box.bottom()}};
  for (const PagePoint& corner : corners) least = std::min(least, distance(corner, segment));
  return least;
}

double distance(const PageBox& a, const PageBox& b) {
  const double dx = std::max({a.left() - b.right(), 0.0, b.left() - a.right()});
  const double dy = std::max({a.top() - b.bottom(), 0.0, b.top() - a.bottom()});
  return std::sqrt(dx * dx + dy * dy);
}

}  // namespace platewright::place
