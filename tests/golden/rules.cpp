#include "golden/rules.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>

namespace golden {
namespace {

constexpr double touching = 0.05;  // mm; less is a leader that begins on its label's edge

double turn(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool cross(Point a, Point b, Point c, Point d) {
  const double abc = turn(a, b, c), abd = turn(a, b, d), cda = turn(c, d, a), cdb = turn(c, d, b);
  return ((abc > 0) != (abd > 0)) && ((cda > 0) != (cdb > 0));
}

std::string mm(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3f mm", value);
  return text;
}

struct Segment {
  Point a, b;
};

std::vector<Segment> segments(const SeenLeader& leader) {
  std::vector<Segment> all;
  for (const std::vector<Point>& branch : leader.branches)
    for (std::size_t i = 1; i < branch.size(); ++i) all.push_back({branch[i - 1], branch[i]});
  return all;
}

double distance(const SeenLeader& one, const SeenLeader& other) {
  double least = 1e9;
  for (const Segment& s : segments(one))
    for (const Segment& t : segments(other)) least = std::min(least, distance(s.a, s.b, t.a, t.b));
  return least;
}

class Check {
 public:
  Check(const SeenSheet& sheet, const Promises& promises) : sheet_(sheet), p_(promises) {}

  std::vector<std::string> all() {
    for (const std::string& fault : sheet_.faults) say(fault);
    page();
    texts();
    labels();
    leaders();
    edge();
    return std::move(said_);
  }

 private:
  void say(const std::string& what) { said_.push_back(sheet_.name + ": " + what); }

  void page() {
    const auto exact = [](const std::string& written, double wanted) {
      double value = 0;
      return std::sscanf(written.c_str(), "%lfmm", &value) == 1 && written.ends_with("mm") &&
             std::abs(value - wanted) < 0.001;
    };
    double x = 1, y = 1, w = 0, h = 0;
    if (!exact(sheet_.width, p_.width) || !exact(sheet_.height, p_.height))
      say("the page is " + sheet_.width + " x " + sheet_.height + ", not " + mm(p_.width) + " x " +
          mm(p_.height));
    if (std::sscanf(sheet_.view_box.c_str(), "%lf %lf %lf %lf", &x, &y, &w, &h) != 4 || x != 0 ||
        y != 0 || std::abs(w - p_.width) > 0.001 || std::abs(h - p_.height) > 0.001)
      say("the viewBox is " + sheet_.view_box);
  }

  // Credit and licence are for grown-ups: the footer has a size of its own.
  void texts() {
    for (const SeenText& text : sheet_.texts) {
      if (text.role != "pw-footer" && text.size_pt < p_.text_floor_pt - 0.01)
        say("\"" + text.text + "\" is " + std::to_string(text.size_pt) + " pt, below the floor of " +
            std::to_string(p_.text_floor_pt));
      const double slack = std::max(0.15, 0.01 * text.length);
      if (p_.text_widths && text.length > 0 && std::abs(text.natural - text.length) > slack)
        say("\"" + text.text + "\" is set " + mm(text.length) + " wide; the browser's type takes " +
            mm(text.natural));
      inside(text.box, "\"" + text.text + "\"");
    }
  }

  void inside(const Box& box, const std::string& what) {
    const double least = std::min({box.x, box.y, p_.width - box.right(), p_.height - box.bottom()});
    if (least < p_.edge) say(what + " is " + mm(least) + " from the page's edge");
  }

  void labels() {
    for (std::size_t i = 0; i < sheet_.labels.size(); ++i) {
      const SeenLabel& label = sheet_.labels[i];
      inside(label.box, "label " + label.anchor);
      if (p_.off_figure && label.painted_under > 0)
        say("label " + label.anchor + " stands on " + std::to_string(label.painted_under) +
            " painted pixels of the figure");
      for (std::size_t j = 0; j < i; ++j) {
        const SeenLabel& other = sheet_.labels[j];
        if (other.anchor == label.anchor) say("two labels for " + label.anchor);
        const double gap = distance(label.box, other.box);
        if (gap < p_.label_gap - p_.rounding)
          say("labels " + other.anchor + " and " + label.anchor + " are " + mm(gap) + " apart");
      }
    }
  }

  void leaders() {
    for (std::size_t i = 0; i < sheet_.leaders.size(); ++i) {
      const SeenLeader& leader = sheet_.leaders[i];
      if (leader.moved) say("leader " + leader.anchor + " is moved by a transform");
      if (leader.branches.empty()) say("leader " + leader.anchor + " has no path");
      for (std::size_t b = 0; b < leader.hits.size(); ++b)
        if (leader.hits[b] == "no")
          say("leader " + leader.anchor + " ends off its part of the drawing");
      for (const std::vector<Point>& branch : leader.branches)
        for (const Point& p : branch) inside({p.x, p.y, 0, 0}, "leader " + leader.anchor);
      for (const SeenLabel& label : sheet_.labels) {
        const bool own = label.anchor == leader.anchor;
        // From its label, not through it: it may begin on the edge of the label's box.
        const double in = own ? touching : 0;
        const Box box{label.box.x + in, label.box.y + in, label.box.w - 2 * in, label.box.h - 2 * in};
        double gap = 1e9;
        for (const Segment& s : segments(leader)) gap = std::min(gap, distance(s.a, s.b, box));
        if (own) {
          if (gap <= 0) say("leader " + leader.anchor + " runs into its own label");
        } else if (gap <= 0) {
          say("leader " + leader.anchor + " crosses label " + label.anchor);
        }
      }
      for (const SeenLeader& other : sheet_.leaders) {
        if (other.anchor == leader.anchor) continue;
        for (const std::vector<Point>& branch : other.branches) {
          double gap = 1e9;
          for (const Segment& s : segments(leader))
            gap = std::min(gap, distance(branch.back(), s.a, s.b));
          if (gap < p_.anchor_gap - p_.rounding)
            say("leader " + leader.anchor + " passes " + mm(gap) + " from anchor " + other.anchor);
        }
      }
      for (std::size_t j = 0; j < i; ++j) {
        const double gap = distance(leader, sheet_.leaders[j]);
        if (gap < p_.leader_gap - p_.rounding)
          say("leaders " + sheet_.leaders[j].anchor + " and " + leader.anchor + " are " + mm(gap) +
              " apart");
      }
    }
    for (const SeenLeader& leader : sheet_.leaders)
      if (std::none_of(sheet_.labels.begin(), sheet_.labels.end(),
                       [&](const SeenLabel& l) { return l.anchor == leader.anchor; }))
        say("leader " + leader.anchor + " has no label");
    for (const SeenLabel& label : sheet_.labels)
      if (std::none_of(sheet_.leaders.begin(), sheet_.leaders.end(),
                       [&](const SeenLeader& l) { return l.anchor == label.anchor; }))
        say("label " + label.anchor + " has no leader");
  }

  void edge() {
    if (!sheet_.ink) return;
    const Margins& m = *sheet_.ink;
    const double least = std::min({m.left, m.top, m.right, m.bottom});
    if (least < p_.edge) say("something is drawn " + mm(least) + " from the page's edge");
  }

  const SeenSheet& sheet_;
  const Promises& p_;
  std::vector<std::string> said_;
};

}  // namespace

double distance(Point p, Point a, Point b) {
  const double dx = b.x - a.x, dy = b.y - a.y;
  const double length = dx * dx + dy * dy;
  const double t =
      length > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double distance(Point a, Point b, Point c, Point d) {
  if (cross(a, b, c, d)) return 0;
  return std::min({distance(a, c, d), distance(b, c, d), distance(c, a, b), distance(d, a, b)});
}

double distance(Point a, Point b, const Box& box) {
  const auto within = [&](Point p) {
    return p.x >= box.x && p.x <= box.right() && p.y >= box.y && p.y <= box.bottom();
  };
  if (within(a) || within(b)) return 0;
  const Point corners[] = {{box.x, box.y},
                           {box.right(), box.y},
                           {box.right(), box.bottom()},
                           {box.x, box.bottom()}};
  double least = 1e9;
  for (std::size_t i = 0; i < 4; ++i)
    least = std::min(least, distance(a, b, corners[i], corners[(i + 1) % 4]));
  return least;
}

double distance(const Box& a, const Box& b) {
  const double dx = std::max({0.0, b.x - a.right(), a.x - b.right()});
  const double dy = std::max({0.0, b.y - a.bottom(), a.y - b.bottom()});
  return std::hypot(dx, dy);
}

std::vector<std::string> broken(const SeenSheet& sheet, const Promises& promises) {
  return Check(sheet, promises).all();
}

}  // namespace golden
