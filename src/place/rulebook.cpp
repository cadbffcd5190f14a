#include "place/rulebook.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::place {
namespace {

double least_distance(const Target& a, const Target& b) {
  double least = 1e300;
  for (const PagePoint& p : a.points)
    for (const PagePoint& q : b.points) least = std::min(least, distance(p, q));
  return least;
}

double square_distance(PagePoint p, const Segment& s) {
  const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y, px = p.x - s.from.x,
               py = p.y - s.from.y;
  const double square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp((px * dx + py * dy) / square, 0.0, 1.0) : 0.0;
  const double ex = px - t * dx, ey = py - t * dy;
  return ex * ex + ey * ey;
}

double most_separation(const Label& a, const Label& b, double enough) {
  double most = 0;
  for (const Target& s : a.targets)
    for (const Target& t : b.targets) {
      most = std::max(most, least_distance(s, t));
      if (most >= enough) return most;
    }
  return most;
}

}  // namespace

Rulebook::Rulebook(const Problem& given)
    : problem(&given), n(given.labels.size()), separation(n * n, 0.0) {
  const double enough = 2 * std::max(given.rules.leader_gap, given.rules.anchor_gap) + 1e-9;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = a + 1; b < n; ++b)
      separation[a * n + b] = separation[b * n + a] =
          most_separation(given.labels[a], given.labels[b], enough);
}

double Rulebook::leader_gap(int a, int b) const {
  return std::min(problem->rules.leader_gap, apart(a, b) / 2);
}

double Rulebook::anchor_gap(int a, int b) const {
  return std::min(problem->rules.anchor_gap, apart(a, b) / 2);
}

PageBox box_at(Side side, const Variant& v, PagePoint port) {
  switch (side) {
    case Side::left:
      return {port.x - v.width, port.y - v.port, v.width, v.height};
    case Side::right:
      return {port.x, port.y - v.port, v.width, v.height};
    case Side::top:
      return {port.x - v.width_in_row() / 2, port.y - v.height, v.width_in_row(), v.height};
    default:
      return {port.x - v.width_in_row() / 2, port.y, v.width_in_row(), v.height};
  }
}

Placed placed(const Problem& problem, const Placement& placement, int label) {
  const Label& l = problem.labels[static_cast<std::size_t>(label)];
  return make_placed(label, placement.side, placement.box, placement.port,
                     l.targets[static_cast<std::size_t>(placement.target)]);
}

Placed make_placed(int label, Side side, const PageBox& box, PagePoint port, const Target& target) {
  double left = port.x, right = port.x, top = port.y, bottom = port.y;
  for (const PagePoint& p : target.points) {
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  return {label, side, box, port, &target, {left, top, right - left, bottom - top}};
}

bool clear_of_obstacles(const Problem& problem, const Placed& self) {
  for (const PageBox& o : problem.obstacles)
    for (const PagePoint& p : self.target->points)
      for (const Segment& s : branch_to(self.side, self.port, problem.stub, p))
        if (enters(s, o) && !(s.to == p && o.contains(p))) return false;
  return true;
}

bool stands(const Rulebook& rules, const Placement& placement, int label) {
  const Problem& problem = *rules.problem;
  const PageBox& box = placement.box;
  const Placed self = placed(problem, placement, label);
  constexpr double touch = 1e-9;
  if (placement.side == Side::left || placement.side == Side::right) {
    const Column& c = problem.columns[static_cast<std::size_t>(placement.column)];
    if (box.top() < c.top - touch || box.bottom() > c.bottom + touch || box.w > c.width + touch)
      return false;
    const double knee = stub_end(c.side, placement.port, problem.stub).x;
    for (const PagePoint& p : self.target->points) {
      if (c.side == Side::left ? p.x <= knee + 0.05 : p.x >= knee - 0.05) return false;
    }
  } else {
    const Row& r = problem.rows[static_cast<std::size_t>(placement.column)];
    if (box.left() < r.left - touch || box.right() > r.right + touch || box.h > r.height + touch)
      return false;
    for (const PagePoint& p : self.target->points)
      if (r.side == Side::top ? p.y <= r.edge + 0.05 : p.y >= r.edge - 0.05) return false;
  }
  for (const PageBox& o : problem.obstacles)
    if (overlap(box, o)) return false;
  return clear_of_obstacles(problem, self);
}

bool passes(const Rulebook& rules, const Placed& a, int other, PagePoint point) {
  const double gap = rules.anchor_gap(a.label, other);
  const PageBox near = a.leader.grown(gap + 2 * slack);
  if (gap <= 0 || point.x < near.left() || point.x > near.right() || point.y < near.top() ||
      point.y > near.bottom())
    return true;
  for (const PagePoint& p : a.target->points)
    for (const Segment& s : branch_to(a.side, a.port, rules.problem->stub, p))
      if (square_distance(point, s) < (gap + slack) * (gap + slack)) return false;
  return true;
}

namespace {

bool nearer(PagePoint p, const Segment& s, double gap) { return square_distance(p, s) < gap * gap; }

// distance(s, t) < gap, or they cross.
bool nearer(const Segment& s, const Segment& t, double gap) {
  if (std::max(s.from.x, s.to.x) < std::min(t.from.x, t.to.x) - gap ||
      std::min(s.from.x, s.to.x) > std::max(t.from.x, t.to.x) + gap ||
      std::max(s.from.y, s.to.y) < std::min(t.from.y, t.to.y) - gap ||
      std::min(s.from.y, s.to.y) > std::max(t.from.y, t.to.y) + gap)
    return false;
  return cross(s, t) || nearer(s.from, t, gap) || nearer(s.to, t, gap) || nearer(t.from, s, gap) ||
         nearer(t.to, s, gap);
}

bool near_box(const Segment& s, const PageBox& box, double gap) {
  if (std::max(s.from.x, s.to.x) < box.left() - gap ||
      std::min(s.from.x, s.to.x) > box.right() + gap ||
      std::max(s.from.y, s.to.y) < box.top() - gap ||
      std::min(s.from.y, s.to.y) > box.bottom() + gap)
    return false;
  return distance(s, box) < gap;
}

bool boxes_apart(const PageBox& a, const PageBox& b, double gap) {
  const double dx = std::max({a.left() - b.right(), 0.0, b.left() - a.right()});
  const double dy = std::max({a.top() - b.bottom(), 0.0, b.top() - a.bottom()});
  return dx * dx + dy * dy >= gap * gap;
}

// One straight branch each: everything the rules ask of two leaders is whether
// they cross and how near each end of one comes to the other.
bool straight_compatible(const Rulebook& rules, const Placed& a, const Placed& b) {
  const Segment s{a.port, a.target->points.front()}, t{b.port, b.target->points.front()};
  const Rules& r = rules.problem->rules;
  const double reach = std::max({r.leader_gap, r.anchor_gap, leader_to_box}) + 2 * slack;
  const bool apart = !overlap(a.leader.grown(reach), b.leader);
  if (!apart) {
    if (cross(s, t)) return false;
    const double port = r.leader_gap + slack;
    if (nearer(a.port, t, port) || nearer(b.port, s, port)) return false;
    const double end =
        std::max(rules.leader_gap(a.label, b.label), rules.anchor_gap(a.label, b.label));
    if (end > 1e-9 && (nearer(s.to, t, end + slack) || nearer(t.to, s, end + slack))) return false;
  }
  return !near_box(s, b.box, leader_to_box + slack) && !near_box(t, a.box, leader_to_box + slack);
}

}  // namespace

bool compatible(const Rulebook& rules, const Placed& a, const Placed& b) {
  const Problem& problem = *rules.problem;
  if (!boxes_apart(a.box, b.box, problem.rules.label_gap - slack)) return false;
  const double far =
      std::max({problem.rules.leader_gap, problem.rules.anchor_gap, leader_to_box}) + 2 * slack;
  const PageBox around_a = a.leader.grown(far), around_b = b.leader.grown(far);
  const bool leaders_meet = overlap(around_a, b.leader.grown(1e-9));
  if (!leaders_meet && !overlap(around_a, b.box) && !overlap(around_b, a.box)) return true;
  if (problem.stub <= 0 && a.target->points.size() == 1 && b.target->points.size() == 1)
    return straight_compatible(rules, a, b);
  const double gap = rules.leader_gap(a.label, b.label);
  const double port_gap = problem.rules.leader_gap + slack;
  for (const PagePoint& p : a.target->points)
    for (const Segment& s : branch_to(a.side, a.port, problem.stub, p)) {
      if (nearer(b.port, s, port_gap) || near_box(s, b.box, leader_to_box + slack)) return false;
      for (const PagePoint& q : b.target->points)
        for (const Segment& t : branch_to(b.side, b.port, problem.stub, q))
          if (gap > 1e-9 ? nearer(s, t, gap + slack) : cross(s, t)) return false;
    }
  for (const PagePoint& q : b.target->points)
    for (const Segment& t : branch_to(b.side, b.port, problem.stub, q))
      if (nearer(a.port, t, port_gap) || near_box(t, a.box, leader_to_box + slack)) return false;
  for (const PagePoint& q : b.target->points)
    if (!passes(rules, a, b.label, q)) return false;
  for (const PagePoint& p : a.target->points)
    if (!passes(rules, b, a.label, p)) return false;
  return true;
}

}  // namespace platewright::place
