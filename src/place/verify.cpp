#include "place/verify.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "place/exact_turn.hpp"

namespace platewright::place {
namespace {

constexpr double tolerance = 1e-6;
constexpr double leader_off_box = 0.5;

struct Line {
  PagePoint a, b;
};

double reach(PagePoint p, const Line& s) {
  const double vx = s.b.x - s.a.x, vy = s.b.y - s.a.y, l2 = vx * vx + vy * vy;
  double t = l2 > 0 ? ((p.x - s.a.x) * vx + (p.y - s.a.y) * vy) / l2 : 0;
  t = std::min(1.0, std::max(0.0, t));
  return std::hypot(p.x - (s.a.x + t * vx), p.y - (s.a.y + t * vy));
}

// Interiors cross, decided exactly.
bool crossing(const Line& s, const Line& t) {
  return exact_turn(s.a, s.b, t.a) * exact_turn(s.a, s.b, t.b) < 0 &&
         exact_turn(t.a, t.b, s.a) * exact_turn(t.a, t.b, s.b) < 0;
}

double between(const Line& s, const Line& t) {
  if (crossing(s, t)) return 0;
  return std::min({reach(s.a, t), reach(s.b, t), reach(t.a, s), reach(t.b, s)});
}

// Two segments on one line that share more than a point.
bool overlapping(const Line& s, const Line& t) {
  if (exact_turn(s.a, s.b, t.a) != 0 || exact_turn(s.a, s.b, t.b) != 0) return false;
  const auto along = [&](PagePoint p) {
    return (p.x - s.a.x) * (s.b.x - s.a.x) + (p.y - s.a.y) * (s.b.y - s.a.y);
  };
  const double end = along(s.b), low = std::min(along(t.a), along(t.b)),
               high = std::max(along(t.a), along(t.b));
  return end > 0 && std::min(end, high) - std::max(0.0, low) > tolerance * end;
}

// How deep a segment runs inside a box grown by nothing: 0 when it stays out.
double to_box(const Line& s, const PageBox& b) {
  const std::array<PagePoint, 4> c{PagePoint{b.x, b.y}, PagePoint{b.x + b.w, b.y},
                                   PagePoint{b.x + b.w, b.y + b.h}, PagePoint{b.x, b.y + b.h}};
  const auto inside = [&](PagePoint p) {
    return p.x > b.x && p.x < b.x + b.w && p.y > b.y && p.y < b.y + b.h;
  };
  if (inside(s.a) || inside(s.b)) return 0;
  double least = 1e300;
  for (std::size_t i = 0; i < 4; ++i) least = std::min(least, between(s, {c[i], c[(i + 1) % 4]}));
  return least;
}

// Length of the segment inside the box shrunk by the tolerance.
double inside_length(const Line& s, const PageBox& b) {
  double from = 0, to = 1;
  const std::array<double, 4> p{-(s.b.x - s.a.x), s.b.x - s.a.x, -(s.b.y - s.a.y), s.b.y - s.a.y};
  const std::array<double, 4> q{s.a.x - b.x - tolerance, b.x + b.w - tolerance - s.a.x,
                                s.a.y - b.y - tolerance, b.y + b.h - tolerance - s.a.y};
  for (std::size_t i = 0; i < 4; ++i) {
    if (p[i] == 0) {
      if (q[i] < 0) return 0;
    } else if (p[i] < 0) {
      from = std::max(from, q[i] / p[i]);
    } else {
      to = std::min(to, q[i] / p[i]);
    }
  }
  return to > from ? (to - from) * std::hypot(s.b.x - s.a.x, s.b.y - s.a.y) : 0;
}

double box_gap(const PageBox& a, const PageBox& b) {
  const double x = std::max(a.x - (b.x + b.w), b.x - (a.x + a.w));
  const double y = std::max(a.y - (b.y + b.h), b.y - (a.y + a.h));
  if (x <= 0 && y <= 0) return std::max(x, y);
  return std::hypot(std::max(x, 0.0), std::max(y, 0.0));
}

// Most that the targets of two labels can lie apart, over what each may choose.
double possible_distance(const Label& a, const Label& b) {
  double most = 0;
  for (const Target& s : a.targets)
    for (const Target& t : b.targets) {
      double least = 1e300;
      for (const PagePoint& p : s.points)
        for (const PagePoint& q : t.points)
          least = std::min(least, std::hypot(p.x - q.x, p.y - q.y));
      most = std::max(most, least);
    }
  return most;
}

struct Drawn {
  PageBox box;
  PagePoint port;
  std::vector<Line> lines;
  std::vector<PagePoint> ends;
};

Drawn drawn(const Problem& problem, const Placement& p, const Label& label) {
  if (p.side == Side::inside) return {p.box, p.port, {}, {}};
  Drawn d{p.box, p.port, {}, label.targets[static_cast<std::size_t>(p.target)].points};
  PagePoint knee = p.port;
  if (p.side == Side::left) knee.x += problem.stub;
  if (p.side == Side::right) knee.x -= problem.stub;
  if (!(knee == p.port)) d.lines.push_back({p.port, knee});
  for (const PagePoint& end : d.ends) d.lines.push_back({knee, end});
  return d;
}

bool known(const Problem& problem, const Placement& p, const Label& label) {
  const bool row = p.side == Side::top || p.side == Side::bottom;
  if (p.side == Side::inside)
    return label.room && p.column == 0 && p.target == 0 && p.variant >= 0 &&
           static_cast<std::size_t>(p.variant) < label.variants.size();
  if (p.column < 0 || p.variant < 0 || p.target < 0) return false;
  const auto column = static_cast<std::size_t>(p.column);
  if (row ? column >= problem.rows.size() || problem.rows[column].side != p.side
          : column >= problem.columns.size() || problem.columns[column].side != p.side)
    return false;
  return static_cast<std::size_t>(p.variant) < label.variants.size() &&
         static_cast<std::size_t>(p.target) < label.targets.size();
}

// Page millimetres by which a box leaves its room, or the size of a cell of it that is not
// free.
double outside_room(const Room& room, const PageBox& b) {
  double off = std::max({room.box.x - b.x, room.box.y - b.y, b.x + b.w - room.box.x - room.box.w,
                         b.y + b.h - room.box.y - room.box.h});
  const double w = room.box.w / room.columns, h = room.box.h / room.rows;
  for (int r = 0; r < room.rows; ++r)
    for (int c = 0; c < room.columns; ++c)
      if (room.free[static_cast<std::size_t>(r) * static_cast<std::size_t>(room.columns) +
                    static_cast<std::size_t>(c)] == 0)
        off = std::max(off, -box_gap(b, {room.box.x + c * w, room.box.y + r * h, w, h}));
  return off;
}

// Box and port where column or row and variant say they are; how far off, mm.
double misplaced(const Problem& problem, const Placement& p, const Label& label) {
  const Variant& v = label.variants[static_cast<std::size_t>(p.variant)];
  const auto at = static_cast<std::size_t>(p.column);
  const bool in_row = p.side == Side::top || p.side == Side::bottom;
  const double width = in_row ? v.width_in_row() : v.width;
  double off = std::max(std::abs(p.box.w - width), std::abs(p.box.h - v.height));
  if (p.side == Side::inside)
    return std::max({off, std::abs(p.box.x + p.box.w / 2 - p.port.x),
                     std::abs(p.box.y + p.box.h / 2 - p.port.y), outside_room(*label.room, p.box)});
  if (p.side == Side::left || p.side == Side::right) {
    const Column& c = problem.columns[at];
    off = std::max({off, std::abs(p.port.x - c.edge),
                    std::abs((p.side == Side::left ? p.box.x + p.box.w : p.box.x) - c.edge),
                    std::abs(p.port.y - p.box.y - v.port), c.top - p.box.y,
                    p.box.y + p.box.h - c.bottom, p.box.w - c.width});
  } else {
    const Row& r = problem.rows[at];
    off = std::max({off, std::abs(p.port.y - r.edge),
                    std::abs((p.side == Side::top ? p.box.y + p.box.h : p.box.y) - r.edge),
                    std::abs(p.port.x - p.box.x - width / 2), r.left - p.box.x,
                    p.box.x + p.box.w - r.right, p.box.h - r.height});
  }
  return off;
}

}  // namespace

std::vector<Violation> verify(const Problem& problem, const Solution& solution) {
  std::vector<Violation> found;
  const auto add = [&](const char* rule, const Label& a, const std::string& second, double amount) {
    found.push_back({rule, a.anchor, second, amount});
  };
  const std::size_t n = problem.labels.size();
  std::vector<Drawn> all(n);
  std::vector<bool> there(n, false);
  for (std::size_t i = 0; i < n; ++i) {
    const Label& label = problem.labels[i];
    if (i >= solution.placements.size() || !known(problem, solution.placements[i], label)) {
      add("missing", label, "", 0);
      continue;
    }
    const Placement& p = solution.placements[i];
    there[i] = true;
    all[i] = drawn(problem, p, label);
    const double off = misplaced(problem, p, label);
    if (!(off <= tolerance)) add("outside", label, "", off);
    for (const Line& line : all[i].lines)
      if (const double in = inside_length(line, p.box); in > 0)
        add("leader-label", label, label.anchor, in);
    for (const PageBox& o : problem.obstacles) {
      // What it holds may be named in it.
      if (p.side == Side::inside && o.contains(label.targets.front().points.front())) continue;
      if (const double gap = box_gap(p.box, o); gap < -tolerance) add("obstacle", label, "", -gap);
      for (const Line& line : all[i].lines) {
        // A leader may end in one.
        if (std::find(all[i].ends.begin(), all[i].ends.end(), line.b) != all[i].ends.end() &&
            o.contains(line.b))
          continue;
        if (const double in = inside_length(line, o); in > 0) add("obstacle", label, "", in);
      }
    }
  }
  if (solution.placements.size() > n)
    found.push_back({"missing", "", "", static_cast<double>(solution.placements.size() - n)});

  const Rules& rules = problem.rules;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j) {
      if (!there[i] || !there[j]) continue;
      const Label &a = problem.labels[i], &b = problem.labels[j];
      if (const double gap = box_gap(all[i].box, all[j].box); gap < rules.label_gap - tolerance)
        add("label-overlap", a, b.anchor, rules.label_gap - gap);
      const double half = possible_distance(a, b) / 2;
      const double gap = std::min(rules.leader_gap, half);
      double nearest = 1e300;
      bool crossed = false;
      for (const Line& s : all[i].lines)
        for (const Line& t : all[j].lines) {
          crossed = crossed || crossing(s, t) || overlapping(s, t);
          nearest = std::min(nearest, between(s, t));
        }
      // A port is no shared end: there the whole gap is asked for.
      double at_port = 1e300;
      for (const Line& t : all[j].lines) at_port = std::min(at_port, reach(all[i].port, t));
      for (const Line& s : all[i].lines) at_port = std::min(at_port, reach(all[j].port, s));
      if (crossed) {
        add("leader-crossing", a, b.anchor, gap);
      } else if (nearest < gap - tolerance || at_port < rules.leader_gap - tolerance) {
        add("leader-gap", a, b.anchor, std::max(gap - nearest, rules.leader_gap - at_port));
      }
      const auto off_box = [&](const Drawn& leader, const Drawn& box, const Label& of,
                               const Label& by) {
        double least = 1e300;
        for (const Line& s : leader.lines) least = std::min(least, to_box(s, box.box));
        if (least < leader_off_box - tolerance)
          add("leader-label", of, by.anchor, leader_off_box - least);
      };
      off_box(all[i], all[j], a, b);
      off_box(all[j], all[i], b, a);
      const double keep = std::min(rules.anchor_gap, half);
      const auto off_anchor = [&](const Drawn& leader, const Drawn& end, const Label& of,
                                  const Label& by) {
        double least = 1e300;
        for (const Line& s : leader.lines)
          for (const PagePoint& p : end.ends) least = std::min(least, reach(p, s));
        if (least < keep - tolerance) add("anchor-gap", of, by.anchor, keep - least);
      };
      // No end of a foreign leader lies in a label that stands inside, or next to it.
      const auto off_inside = [&](const Drawn& inside, const Drawn& other, const Label& of,
                                  const Label& by) {
        for (const PagePoint& p : other.ends)
          if (const double off = box_gap(inside.box, {p.x, p.y, 0, 0});
              off < rules.anchor_gap - tolerance)
            add("anchor-gap", of, by.anchor, rules.anchor_gap - off);
      };
      if (all[i].lines.empty()) off_inside(all[i], all[j], a, b);
      if (all[j].lines.empty()) off_inside(all[j], all[i], b, a);
      off_anchor(all[i], all[j], a, b);
      off_anchor(all[j], all[i], b, a);
    }
  return found;
}

}  // namespace platewright::place
