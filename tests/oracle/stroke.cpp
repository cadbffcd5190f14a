// Written without sight of the solver; see slot_model.hpp.
#include "stroke.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace platewright::oracle {
namespace {

using Real = long double;

Real turn(PagePoint a, PagePoint b, PagePoint c) {
  return (Real(b.x) - a.x) * (Real(c.y) - a.y) - (Real(b.y) - a.y) * (Real(c.x) - a.x);
}

bool within(PagePoint a, PagePoint b, PagePoint p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}

Real apart(PagePoint p, const Stroke& s) {
  const Real dx = Real(s.to.x) - s.from.x, dy = Real(s.to.y) - s.from.y;
  const Real px = Real(p.x) - s.from.x, py = Real(p.y) - s.from.y;
  const Real square = dx * dx + dy * dy;
  Real t = 0;
  if (square > 0) t = std::min(Real(1), std::max(Real(0), (px * dx + py * dy) / square));
  return std::sqrt((px - t * dx) * (px - t * dx) + (py - t * dy) * (py - t * dy));
}

std::array<Stroke, 4> edges(const PageBox& b) {
  const PagePoint tl{b.left(), b.top()}, tr{b.right(), b.top()}, br{b.right(), b.bottom()},
      bl{b.left(), b.bottom()};
  return {Stroke{tl, tr}, Stroke{tr, br}, Stroke{br, bl}, Stroke{bl, tl}};
}

}  // namespace

bool same_direction(const Stroke& a, const Stroke& b) {
  return turn(a.to, a.from, b.from) == 0 &&
         (a.from.x - a.to.x) * (b.from.x - a.to.x) + (a.from.y - a.to.y) * (b.from.y - a.to.y) > 0;
}

bool meet(const Stroke& a, const Stroke& b) {
  const Real p = turn(a.from, a.to, b.from), q = turn(a.from, a.to, b.to);
  const Real r = turn(b.from, b.to, a.from), s = turn(b.from, b.to, a.to);
  if (((p > 0 && q < 0) || (p < 0 && q > 0)) && ((r > 0 && s < 0) || (r < 0 && s > 0))) return true;
  return (p == 0 && within(a.from, a.to, b.from)) || (q == 0 && within(a.from, a.to, b.to)) ||
         (r == 0 && within(b.from, b.to, a.from)) || (s == 0 && within(b.from, b.to, a.to));
}

double apart(const Stroke& a, const Stroke& b) {
  if (meet(a, b)) return 0;
  return static_cast<double>(std::min(std::min(apart(a.from, b), apart(a.to, b)),
                                      std::min(apart(b.from, a), apart(b.to, a))));
}

double apart(const Stroke& stroke, const PageBox& box) {
  if (box.contains(stroke.from) || box.contains(stroke.to)) return 0;
  double least = std::numeric_limits<double>::infinity();
  for (const Stroke& edge : edges(box)) least = std::min(least, apart(stroke, edge));
  return least;
}

double apart(const PageBox& a, const PageBox& b) {
  const double dx = std::max({0.0, a.left() - b.right(), b.left() - a.right()});
  const double dy = std::max({0.0, a.top() - b.bottom(), b.top() - a.bottom()});
  return std::hypot(dx, dy);
}

}  // namespace platewright::oracle
