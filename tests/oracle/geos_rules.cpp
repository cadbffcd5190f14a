#include "geos_rules.hpp"

#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

namespace platewright::oracle {
namespace {

struct Geos {
  GEOSContextHandle_t handle = GEOS_init_r();
  Geos() = default;
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  ~Geos() { GEOS_finish_r(handle); }
};

struct Free {
  GEOSContextHandle_t handle;
  void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(handle, g); }
};
using Geometry = std::unique_ptr<GEOSGeometry, Free>;

class Drawing {
 public:
  explicit Drawing(GEOSContextHandle_t handle) : h_(handle) {}

  Geometry box(const PageBox& b) const {
    return own(GEOSGeom_createRectangle_r(h_, b.left(), b.top(), b.right(), b.bottom()));
  }
  Geometry points(const std::vector<PagePoint>& at) const {
    std::vector<GEOSGeometry*> parts;
    for (const PagePoint& p : at) parts.push_back(GEOSGeom_createPointFromXY_r(h_, p.x, p.y));
    return own(GEOSGeom_createCollection_r(h_, GEOS_MULTIPOINT, parts.data(), static_cast<unsigned>(parts.size())));
  }
  // Stub (if any) and branches.
  Geometry leader(PagePoint port, PagePoint knee, const std::vector<PagePoint>& ends) const {
    std::vector<GEOSGeometry*> parts;
    if (!(knee == port)) parts.push_back(line(port, knee));
    for (const PagePoint& e : ends) parts.push_back(line(knee, e));
    return own(GEOSGeom_createCollection_r(h_, GEOS_MULTILINESTRING, parts.data(), static_cast<unsigned>(parts.size())));
  }
  double apart(const Geometry& a, const Geometry& b) const {
    double d = 0;
    return GEOSDistance_r(h_, a.get(), b.get(), &d) == 1 ? d : std::numeric_limits<double>::quiet_NaN();
  }
  bool meet(const Geometry& a, const Geometry& b) const { return GEOSIntersects_r(h_, a.get(), b.get()) == 1; }
  bool covers(const Geometry& a, const Geometry& b) const { return GEOSCovers_r(h_, a.get(), b.get()) == 1; }
  // Leaders with ends in common may meet in those ends and nowhere else.
  bool meet_only_in(const Geometry& a, const Geometry& b, const Geometry& ends) const {
    const Geometry common = own(GEOSIntersection_r(h_, a.get(), b.get()));
    int dimension = GEOSGeom_getDimensions_r(h_, common.get());
    if (dimension > 0) return false;
    double far = 0;
    if (GEOSisEmpty_r(h_, common.get()) == 1) return true;
    return GEOSHausdorffDistance_r(h_, common.get(), ends.get(), &far) == 1 && far < 1e-6;
  }

 private:
  Geometry own(GEOSGeometry* g) const { return Geometry(g, Free{h_}); }
  GEOSGeometry* line(PagePoint a, PagePoint b) const {
    GEOSCoordSequence* s = GEOSCoordSeq_create_r(h_, 2, 2);
    GEOSCoordSeq_setXY_r(h_, s, 0, a.x, a.y);
    GEOSCoordSeq_setXY_r(h_, s, 1, b.x, b.y);
    return GEOSGeom_createLineString_r(h_, s);
  }
  GEOSContextHandle_t h_;
};

// A label that stands inside its region has no leader: its shapes are those of its middle,
// which the box covers.
struct Drawn {
  Geometry box, core, leader, ends, port;
  std::vector<PagePoint> at;
  std::string anchor;
};

bool near(double a, double b, double slack) { return std::abs(a - b) <= std::max(slack, 0.0) + 1e-9; }

// In its column or row, of the variant's size, its port where the variant says.
bool in_place(const Drawing& draw, const place::Problem& problem, const place::Label& label,
              const place::Placement& p, double slack) {
  const place::Variant& v = label.variants[static_cast<std::size_t>(p.variant)];
  const auto line = static_cast<std::size_t>(p.column);
  if (!near(p.box.w, v.width, slack) || !near(p.box.h, v.height, slack)) return false;
  if (p.side == Side::inside) {
    if (!label.room || !near(p.port.x, p.box.centre().x, slack) ||
        !near(p.port.y, p.box.centre().y, slack))
      return false;
    const place::Room& room = *label.room;
    const double w = room.box.w / room.columns, h = room.box.h / room.rows;
    const Geometry core = draw.box(p.box.grown(-1e-6));
    for (int r = 0; r < room.rows; ++r)
      for (int c = 0; c < room.columns; ++c)
        if (room.free[static_cast<std::size_t>(r * room.columns + c)] == 0 &&
            draw.meet(core, draw.box({room.box.x + c * w, room.box.y + r * h, w, h})))
          return false;
    return draw.covers(draw.box(room.box.grown(1e-6)), draw.box(p.box));
  }
  PageBox room;
  if (p.side == Side::left || p.side == Side::right) {
    if (line >= problem.columns.size()) return false;
    const place::Column& c = problem.columns[line];
    if (c.side != p.side || !near(p.port.x, c.edge, slack) || !near(p.port.y, p.box.y + v.port, slack) ||
        !near(p.side == Side::left ? p.box.right() : p.box.left(), c.edge, slack))
      return false;
    room = {p.side == Side::left ? c.edge - c.width : c.edge, c.top, c.width, c.bottom - c.top};
  } else {
    if (line >= problem.rows.size()) return false;
    const place::Row& r = problem.rows[line];
    if (r.side != p.side || !near(p.port.y, r.edge, slack) || !near(p.port.x, p.box.x + v.width / 2, slack) ||
        !near(p.side == Side::top ? p.box.bottom() : p.box.top(), r.edge, slack))
      return false;
    room = {r.left, p.side == Side::top ? r.edge - r.height : r.edge, r.right - r.left, r.height};
  }
  // The edges on the column's line touch by design; only the other three may be strict.
  const PageBox grown = room.grown(std::max(slack, 0.0) + 1e-9);
  return draw.covers(draw.box(grown), draw.box(p.box));
}

}  // namespace

std::vector<Broken> geos_rules(const place::Problem& problem, const std::vector<place::Placement>& placements,
                               double slack) {
  const Geos geos;
  const Drawing draw(geos.handle);
  std::vector<Broken> broken;
  std::vector<Drawn> drawn;
  if (placements.size() != problem.labels.size()) broken.push_back({"missing", "", ""});
  for (std::size_t i = 0; i < placements.size(); ++i) {
    const place::Placement& p = placements[i];
    const place::Label& label = problem.labels[i];
    PagePoint knee = p.port;
    if (p.side == Side::left) knee.x += problem.stub;
    if (p.side == Side::right) knee.x -= problem.stub;
    const std::vector<PagePoint> ends =
        p.side == Side::inside ? std::vector<PagePoint>{p.port}
                               : label.targets[static_cast<std::size_t>(p.target)].points;
    drawn.push_back({draw.box(p.box), draw.box(p.box.grown(-std::max(slack, 1e-9))), draw.leader(p.port, knee, ends),
                     draw.points(ends), draw.points({p.port}), ends, label.anchor});
    if (!in_place(draw, problem, label, p, slack)) broken.push_back({"outside", label.anchor, ""});
    if (p.side != Side::inside && draw.meet(drawn.back().leader, drawn.back().core))
      broken.push_back({"leader-label", label.anchor, label.anchor});
    for (const PageBox& o : problem.obstacles) {
      const PageBox core = o.grown(-slack);
      if (core.w <= 0 || core.h <= 0) continue;
      // What it holds may be named in it.
      if (p.side == Side::inside && o.contains(label.targets.front().points.front())) continue;
      const Geometry shape = draw.box(core);
      // Branches that end in it may enter it.
      std::vector<PagePoint> elsewhere;
      for (const PagePoint& e : ends)
        if (!o.contains(e)) elsewhere.push_back(e);
      if (draw.meet(drawn.back().box, shape) || draw.meet(draw.leader(p.port, knee, elsewhere), shape))
        broken.push_back({"obstacle", label.anchor, ""});
    }
  }
  for (std::size_t i = 0; i < drawn.size(); ++i)
    for (std::size_t j = i + 1; j < drawn.size(); ++j) {
      const Drawn &a = drawn[i], &b = drawn[j];
      const auto say = [&](const char* rule) { broken.push_back({rule, a.anchor, b.anchor}); };
      if (draw.apart(a.box, b.box) < problem.rules.label_gap - slack) say("label-overlap");
      if (draw.apart(a.leader, b.box) < 0.5 - slack || draw.apart(b.leader, a.box) < 0.5 - slack)
        say("leader-label");
      if (placements[i].side == Side::inside || placements[j].side == Side::inside) {
        const bool first = placements[i].side == Side::inside;
        if (draw.apart(first ? a.box : b.box, first ? b.ends : a.ends) <
            problem.rules.anchor_gap - slack)
          say("anchor-gap");
        continue;
      }
      // Near targets: see slot_model.hpp.
      double ends = 0;
      for (const place::Target& t : problem.labels[i].targets)
        for (const place::Target& u : problem.labels[j].targets)
          ends = std::max(ends, draw.apart(draw.points(t.points), draw.points(u.points)));
      if (std::min(draw.apart(a.leader, b.ends), draw.apart(b.leader, a.ends)) <
          std::min(problem.rules.anchor_gap, ends / 2) - slack)
        say("anchor-gap");
      if (ends == 0) {
        std::vector<PagePoint> common;
        for (const PagePoint& p : a.at)
          if (std::find(b.at.begin(), b.at.end(), p) != b.at.end()) common.push_back(p);
        // Away from the shared end: at the ports they are as far apart as any two.
        if (!draw.meet_only_in(a.leader, b.leader, draw.points(common)) ||
            std::min(draw.apart(a.leader, b.port), draw.apart(b.leader, a.port)) <
                problem.rules.leader_gap - slack)
          say("leader-gap");
      } else if (const double d = draw.apart(a.leader, b.leader);
                 d == 0 || d < std::min(problem.rules.leader_gap, ends / 2) - slack) {
        say("leader-gap");
      }
    }
  return broken;
}

}  // namespace platewright::oracle
