// Buffers and distances of polygons by GEOS (Debian's libgeos-dev): shapes
// offset exactly, to compare ours with.
#pragma once

#include <geos_c.h>

#include <memory>
#include <stdexcept>
#include <vector>

#include "platewright/geometry.hpp"

namespace support {

class Geos {
 public:
  using Ring = std::vector<platewright::PagePoint>;
  using Shape = std::unique_ptr<GEOSGeometry, void (*)(GEOSGeometry*)>;

  Geos() { initGEOS(nullptr, nullptr); }
  ~Geos() { finishGEOS(); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  Shape polygon(const Ring& ring) const {
    GEOSCoordSequence* points = GEOSCoordSeq_create(static_cast<unsigned>(ring.size() + 1), 2);
    for (std::size_t i = 0; i <= ring.size(); ++i) {
      const auto& p = ring[i % ring.size()];
      GEOSCoordSeq_setXY(points, static_cast<unsigned>(i), p.x, p.y);
    }
    return own(GEOSGeom_createPolygon(GEOSGeom_createLinearRing(points), nullptr, 0));
  }
  // Round joins of 64 segments a quarter circle.
  Shape buffer(const Shape& shape, double by) const { return own(GEOSBuffer(shape.get(), by, 64)); }
  Shape boundary(const Shape& shape) const { return own(GEOSBoundary(shape.get())); }
  // Farthest that a point of either is from the other; points every 5 % of each segment.
  double apart(const Shape& a, const Shape& b) const {
    double d = 0;
    if (GEOSHausdorffDistanceDensify(a.get(), b.get(), 0.05, &d) != 1)
      throw std::runtime_error("GEOS can't measure");
    return d;
  }
  double area(const Shape& shape) const {
    double a = 0;
    return GEOSArea(shape.get(), &a) == 1 ? a : -1;
  }
  bool covers(const Shape& outer, const Shape& inner) const {
    return GEOSCovers(outer.get(), inner.get()) == 1;
  }
  bool contains(const Shape& shape, double x, double y) const {
    const Shape point = own(GEOSGeom_createPointFromXY(x, y));
    return GEOSIntersects(shape.get(), point.get()) == 1;
  }

 private:
  static Shape own(GEOSGeometry* g) {
    if (!g) throw std::runtime_error("GEOS can't build a shape");
    return {g, GEOSGeom_destroy};
  }
};

}  // namespace support
