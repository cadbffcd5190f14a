#include "place/cells.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"
#include "place/cost_terms.hpp"
#include "place/leader.hpp"
#include "place/route_model.hpp"

namespace platewright::place {
namespace {

// Least detail that leaders to `end` can cross, wherever in [low, high] across
// from it they start: in narrow strips, each with the calmest of the cells that
// some leader of them sees.
double least_detail(const DetailField& field, PagePoint end, double line, double low, double high,
                    bool row) {
  if (field.columns <= 0 || field.rows <= 0 || field.values.empty() || field.box.w <= 0 ||
      field.box.h <= 0)
    return 0;
  // `a` runs across from the line to the target, `b` along the line.
  const double far = row ? end.y : end.x, along = row ? end.x : end.y;
  const double box_a = row ? field.box.y : field.box.x, box_b = row ? field.box.x : field.box.y;
  const double cell_a = row ? field.box.h / field.rows : field.box.w / field.columns,
               cell_b = row ? field.box.w / field.columns : field.box.h / field.rows;
  const int many_a = row ? field.rows : field.columns, many_b = row ? field.columns : field.rows;
  const double reach = std::abs(far - line);
  if (!(reach > 0)) return 0;
  const double from = std::max(std::min(line, far), box_a),
               to = std::min(std::max(line, far), box_a + cell_a * many_a);
  if (!(from < to)) return 0;
  const int parts = std::max(1, static_cast<int>(std::ceil(40.0 / many_a)));
  const double part = cell_a / parts;
  const double nearest = std::clamp(along, low, high);
  const double stretch = std::hypot(1.0, (along - nearest) / reach);  // length by distance across
  double sum = 0;
  const int first = static_cast<int>(std::floor((from - box_a) / part)),
            last = static_cast<int>(std::ceil((to - box_a) / part));
  for (int k = first; k < last; ++k) {
    const double a0 = std::max(from, box_a + part * k), a1 = std::min(to, box_a + part * (k + 1));
    if (!(a0 < a1)) continue;
    const int ia = std::clamp(k / parts, 0, many_a - 1);
    // Where along the line leaders are at both ends of the strip.
    const double s0 = std::abs(a0 - line) / reach, s1 = std::abs(a1 - line) / reach;
    const double b0 = std::min(low + (along - low) * s0, low + (along - low) * s1),
                 b1 = std::max(high + (along - high) * s0, high + (along - high) * s1);
    const double lowest = (std::min(b0, b1) - box_b) / cell_b - 1e-9,
                 highest = (std::max(b0, b1) - box_b) / cell_b + 1e-9;
    if (lowest < 0 || highest >= many_b) continue;  // some leader may be outside
    double least = never;
    for (int ib = static_cast<int>(lowest); ib <= static_cast<int>(highest); ++ib) {
      const int column = row ? ib : ia, r = row ? ia : ib;
      least = std::min(least,
                       static_cast<double>(field.values[at(r) * at(field.columns) + at(column)]));
    }
    sum += std::max(0.0, least) * (a1 - a0);
  }
  return sum * stretch;
}

struct Anchor {
  PagePoint point;
  double gap;
};

// The anchors with one place only that a label's leaders must pass at a distance; by y.
std::vector<Anchor> anchors_for(const Rulebook& rules, int self) {
  std::vector<Anchor> anchors;
  const Problem& problem = *rules.problem;
  for (std::size_t k = 0; k < problem.labels.size(); ++k) {
    const double gap = rules.anchor_gap(self, static_cast<int>(k));
    if (static_cast<int>(k) == self || gap <= 0 || problem.labels[k].targets.size() > 1) continue;
    for (const PagePoint& p : problem.labels[k].targets.front().points)
      anchors.push_back({p, gap - 1e-5});
  }
  std::sort(anchors.begin(), anchors.end(), [](const Anchor& a, const Anchor& b) {
    return a.point.y != b.point.y ? a.point.y < b.point.y : a.point.x < b.point.x;
  });
  return anchors;
}

// Every leader from the stretch passes some foreign anchor too near.
bool all_too_near(const Problem& problem, const std::vector<Anchor>& anchors, Side side,
                  PagePoint middle, double half, const Target& target) {
  for (const PagePoint& end : target.points)
    for (const Segment& s : branch_to(side, middle, problem.stub, end)) {
      const double low = std::min(s.from.y, s.to.y) - 2, high = std::max(s.from.y, s.to.y) + 2;
      auto next = std::upper_bound(anchors.begin(), anchors.end(), low,
                                   [](double y, const Anchor& a) { return y < a.point.y; });
      for (; next != anchors.end() && next->point.y < high; ++next)
        if (distance(next->point, s) + half < next->gap) return true;
    }
  return false;
}

// A step near `wanted` of whose multiples the distances of neighbours' ports fall
// short least.
double dividing_step(const std::vector<double>& distances, double wanted) {
  double best = wanted, least = never;
  const auto offer = [&](double step) {
    double lost = 0.35 * step * static_cast<double>(distances.size());
    for (const double d : distances) lost += d - step * std::floor(d / step + 1e-9);
    if (lost < least - 1e-12) least = lost, best = step;
  };
  offer(wanted);
  double last = -1;
  for (const double d : distances) {
    if (d == last) continue;
    last = d;
    for (double parts = std::ceil(d / (1.5 * wanted)); d / parts > 0.6 * wanted; ++parts)
      if (parts >= 1) offer(d / parts);
  }
  return best;
}

bool is_row(Side side) { return side == Side::top || side == Side::bottom; }

double knee_of(const Problem& problem, Side side, double line) {
  return is_row(side) ? line : stub_end(side, {line, 0}, problem.stub).x;
}

// The parts of least_cost_within: all but the detail crossed, and that.
double least_plain_cost(const Problem& problem, const Label& label, Side side, double line,
                        double low, double high, int target) {
  const Weights& w = problem.weights;
  const double unit = w.unit > 0 ? w.unit : 1.0;
  const Target& end = label.targets[at(target)];
  const bool row = is_row(side);
  const double knee = knee_of(problem, side, line);
  double length = std::abs(knee - line), slope = 0;
  for (const PagePoint& p : end.points) {
    const double across = row ? p.y - line : p.x - knee;
    const double along = row ? p.x : p.y;
    const double off = along - std::clamp(along, low, high);
    const double square = across * across + off * off;
    length += std::sqrt(square);
    if (square > 0) slope += slope_cost(w, off * off / square);
  }
  double cost =
      w.length * length / unit + slope / static_cast<double>(end.points.size()) + end.penalty;
  if ((label.preferred < 0 && side != Side::left) || (label.preferred > 0 && side != Side::right))
    cost += w.wrong_side;
  return cost;
}

double least_detail_cost(const Problem& problem, const Label& label, Side side, double line,
                         double low, double high, int target) {
  const Weights& w = problem.weights;
  if (!(w.detail > 0)) return 0;
  const double knee = knee_of(problem, side, line);
  double detail = 0;
  for (const PagePoint& p : label.targets[at(target)].points)
    detail += least_detail(problem.detail, p, knee, low, high, is_row(side));
  return w.detail * detail / (w.unit > 0 ? w.unit : 1.0);
}

}  // namespace

double least_cost_within(const Problem& problem, const Label& label, Side side, double line,
                         double low, double high, int target) {
  return least_plain_cost(problem, label, side, line, low, high, target) +
         least_detail_cost(problem, label, side, line, low, high, target);
}

CellModel cell_model(const Rulebook& rules, double wanted, int most_shapes,
                     const std::vector<double>& far) {
  const Problem& problem = *rules.problem;
  CellModel cells;
  RouteModel& model = cells.model;
  start_model(model, problem);
  const double fair = fair_gap(problem);
  for (std::size_t k = 0; k < problem.columns.size() + problem.rows.size(); ++k) {
    const bool row = k >= problem.columns.size();
    const std::size_t index = row ? k - problem.columns.size() : k;
    Station s;  // just where it lies, for what boxes take along it
    s.rules = &rules;
    s.side = row ? problem.rows[index].side : problem.columns[index].side;
    s.line = row ? problem.rows[index].edge : problem.columns[index].edge;
    s.from = row ? problem.rows[index].left : problem.columns[index].top;
    s.to = row ? problem.rows[index].right : problem.columns[index].bottom;
    const double across = row ? problem.rows[index].height : problem.columns[index].width;
    s.labels.resize(problem.labels.size());
    const double knee = row ? 0.0 : problem.stub;
    for (std::size_t i = 0; i < problem.labels.size(); ++i) {
      const Label& label = problem.labels[i];
      for (std::size_t v = 0; v < label.variants.size(); ++v)
        if ((row ? label.variants[v].height : label.variants[v].width) <= across + 1e-6)
          s.labels[i].variants.push_back(static_cast<int>(v));
      for (std::size_t t = 0; t < label.targets.size(); ++t) {
        double nearest = never;
        for (const PagePoint& p : label.targets[t].points)
          nearest = std::min(nearest, s.reach_of(p));
        if (nearest > knee) s.labels[i].targets.push_back(static_cast<int>(t));
      }
    }
    const Shapes shapes = shapes_of(s, most_shapes);
    std::vector<double> distances;
    for (std::size_t a = 0; a < shapes.reach.size(); ++a)
      for (std::size_t b = 0; b < shapes.reach.size(); ++b)
        for (int c = 0; c < std::min(20, shapes.count[a] * shapes.count[b]); ++c)
          distances.push_back(shapes.reach[a].after_low + shapes.reach[b].before_low +
                              problem.rules.label_gap);
    // A hair less, so that a distance of whole cells stays one after rounding.
    s.step = dividing_step(distances, wanted) * (1 - 1e-5);
    s.slots = s.to >= s.from ? static_cast<int>(std::floor((s.to - s.from) / s.step)) + 1 : 0;
    RouteModel::Line line;
    line.slots = s.slots;
    line.lean = s.side == Side::left ? -1 : s.side == Side::right ? 1 : 0;
    line.shapes = static_cast<int>(shapes.reach.size());
    line.shape_of = shapes.of;
    for (std::size_t i = 0; i < s.labels.size(); ++i) {
      const StationLabel& l = s.labels[i];
      const int self = static_cast<int>(i);
      const Label& label = problem.labels[i];
      if (l.targets.empty() || l.variants.empty()) continue;
      const std::vector<Anchor> anchors = anchors_for(rules, self);
      std::vector<double> leader(at(s.slots), never);
      double first = never, last = -never;
      for (const int v : l.variants) {
        first = std::min(first, s.from + s.before(self, v) - 1e-6);
        last = std::max(last, s.to - s.after(self, v) + 1e-6);
      }
      const auto ends_of = [&](int slot, double from, double to, double& low, double& high) {
        low = std::max(from, s.along(slot));
        high = std::min(to, s.along(slot) + s.step);
        return low <= high;
      };
      for (int slot = 0; slot < s.slots; ++slot) {
        double low = 0, high = 0;
        if (!ends_of(slot, first, last, low, high)) continue;
        const double middle = (low + high) / 2;
        const PagePoint port = row ? PagePoint{middle, s.line} : PagePoint{s.line, middle};
        for (const int t : l.targets) {
          double cost = least_plain_cost(problem, label, s.side, s.line, low, high, t);
          if (!(cost < leader[at(slot)])) continue;
          if (far.empty() || cost <= far[i]) {
            if (all_too_near(problem, anchors, s.side, port, (high - low) / 2,
                             label.targets[at(t)]))
              continue;
            cost += least_detail_cost(problem, label, s.side, s.line, low, high, t);
          }
          leader[at(slot)] = std::min(leader[at(slot)], cost);
        }
      }
      for (const int v : l.variants) {
        const int shape = shapes.of[i][at(v)];
        RouteModel::Entry& entry = entry_of(line, self, shape);
        for (int slot = 0; slot < s.slots; ++slot) {
          double low = 0, high = 0;
          if (!ends_of(slot, s.from + s.before(self, v) - 1e-6, s.to - s.after(self, v) + 1e-6, low,
                       high))
            continue;
          double& cost = entry.cost[at(slot)];
          cost = std::min(cost, leader[at(slot)] + label.variants[at(v)].penalty);
        }
      }
    }
    fill_pairs(line, shapes, problem, s.step, fair, s.step);
    model.lines.push_back(std::move(line));
    cells.step.push_back(s.step);
  }
  return cells;
}

}  // namespace platewright::place
