// Points, boxes and the one transform between a figure and a page.
//
// Two spaces, two types: FigurePoint is in the figure's viewBox units, y down;
// PagePoint is in millimetres from the page's top left corner, y down. Only
// FigureToPage joins them.
#pragma once

#include <algorithm>
#include <cmath>

namespace platewright {

struct FigureSpace {};
struct PageSpace {};

template <class Space>
struct Point {
  double x = 0.0;
  double y = 0.0;
  friend constexpr bool operator==(const Point&, const Point&) = default;
};

template <class Space>
struct Box {
  double x = 0.0;  // left
  double y = 0.0;  // top
  double w = 0.0;
  double h = 0.0;
  constexpr double left() const { return x; }
  constexpr double top() const { return y; }
  constexpr double right() const { return x + w; }
  constexpr double bottom() const { return y + h; }
  constexpr Point<Space> centre() const { return {x + w / 2, y + h / 2}; }
  constexpr bool contains(Point<Space> p) const {
    return p.x >= x && p.x <= x + w && p.y >= y && p.y <= y + h;
  }
  constexpr Box grown(double by) const { return {x - by, y - by, w + 2 * by, h + 2 * by}; }
  friend constexpr bool operator==(const Box&, const Box&) = default;
};

// True when the interiors meet.
template <class Space>
constexpr bool overlap(const Box<Space>& a, const Box<Space>& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

template <class Space>
constexpr Box<Space> united(const Box<Space>& a, const Box<Space>& b) {
  const double x = std::min(a.x, b.x), y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

template <class Space>
inline double distance(Point<Space> a, Point<Space> b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

using FigurePoint = Point<FigureSpace>;
using PagePoint = Point<PageSpace>;
using FigureBox = Box<FigureSpace>;
using PageBox = Box<PageSpace>;

// page = origin + scale * figure; scale in mm for one figure unit, > 0.
struct FigureToPage {
  double scale = 1.0;
  PagePoint origin;  // where the figure's (0, 0) comes to lie
  constexpr PagePoint operator()(FigurePoint p) const {
    return {origin.x + scale * p.x, origin.y + scale * p.y};
  }
  constexpr PageBox operator()(const FigureBox& b) const {
    return {origin.x + scale * b.x, origin.y + scale * b.y, scale * b.w, scale * b.h};
  }
  constexpr FigurePoint back(PagePoint p) const {
    return {(p.x - origin.x) / scale, (p.y - origin.y) / scale};
  }
  friend constexpr bool operator==(const FigureToPage&, const FigureToPage&) = default;
};

}  // namespace platewright
