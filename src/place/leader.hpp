// The path of a leader and the distances between paths, boxes and points that
// the hard rules speak of. Page millimetres.
#pragma once

#include <array>
#include <cstddef>

#include "place/problem.hpp"

namespace platewright::place {

struct Segment {
  PagePoint from;
  PagePoint to;
};

// One branch: the stub (if the problem asks for one and the side has one), then
// the oblique part.
struct Branch {
  std::array<Segment, 2> segments;
  std::size_t count = 1;
  const Segment* begin() const { return segments.data(); }
  const Segment* end() const { return segments.data() + count; }
  const Segment& oblique() const { return segments[count - 1]; }
};

// Where the oblique part starts: the port itself without a stub.
inline PagePoint stub_end(Side side, PagePoint port, double stub) {
  if (side == Side::left) return {port.x + stub, port.y};
  if (side == Side::right) return {port.x - stub, port.y};
  return port;
}
inline Branch branch_to(Side side, PagePoint port, double stub, PagePoint target) {
  const PagePoint knee = stub > 0 ? stub_end(side, port, stub) : port;
  if (knee == port) return {{Segment{port, target}}, 1};
  return {{Segment{port, knee}, Segment{knee, target}}, 2};
}

double distance(PagePoint point, const Segment& segment);
double distance(const Segment& a, const Segment& b);
double distance(const Segment& segment, const PageBox& box);
// Least distance between two boxes; 0 when they meet.
double distance(const PageBox& a, const PageBox& b);

// True when the interiors of the two segments cross at one point.
bool cross(const Segment& a, const Segment& b);
// True when a part of the segment lies inside the box (its edge not counted).
bool enters(const Segment& segment, const PageBox& box);

}  // namespace platewright::place
