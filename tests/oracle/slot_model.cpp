// Written without sight of the solver; see slot_model.hpp.
#include "slot_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace platewright::oracle {
namespace {

using place::Column;
using place::Label;
using place::Placement;
using place::Problem;
using place::Row;
using place::Target;
using place::Variant;

bool in_column(Side side) { return side == Side::left || side == Side::right; }

// Busy mm along a stroke: cut at every grid wall, take each piece's cell by its
// middle. (The solver's side walks from cell to cell.)
double busy(const place::DetailField& field, const Stroke& s) {
  if (field.columns <= 0 || field.rows <= 0 || field.values.empty()) return 0;
  const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y;
  std::vector<double> cuts{0, 1};
  const auto cut = [&](double at, double from, double delta) {
    if (delta == 0) return;
    const double t = (at - from) / delta;
    if (t > 0 && t < 1) cuts.push_back(t);
  };
  for (int c = 0; c <= field.columns; ++c)
    cut(field.box.x + field.box.w * c / field.columns, s.from.x, dx);
  for (int r = 0; r <= field.rows; ++r) cut(field.box.y + field.box.h * r / field.rows, s.from.y, dy);
  std::sort(cuts.begin(), cuts.end());
  double sum = 0;
  for (std::size_t k = 1; k < cuts.size(); ++k) {
    const double middle = (cuts[k - 1] + cuts[k]) / 2;
    const double gx = (s.from.x + middle * dx - field.box.x) / field.box.w * field.columns;
    const double gy = (s.from.y + middle * dy - field.box.y) / field.box.h * field.rows;
    if (gx < 0 || gy < 0 || gx >= field.columns || gy >= field.rows) continue;
    const auto cell = static_cast<std::size_t>(gy) * static_cast<std::size_t>(field.columns) +
                      static_cast<std::size_t>(gx);
    sum += (cuts[k] - cuts[k - 1]) * static_cast<double>(field.values[cell]);
  }
  return sum * std::hypot(dx, dy);
}

double own_cost(const Problem& problem, const Label& label, const Option& option) {
  const place::Weights& w = problem.weights;
  const double unit = w.unit > 0 ? w.unit : 1;
  const Placement& p = option.placement;
  const Target& target = label.targets[static_cast<std::size_t>(p.target)];
  double length = 0, slope = 0, steep = 0, detail = 0;
  const std::size_t stubs = option.strokes.size() - option.ends.size();
  for (std::size_t k = 0; k < option.strokes.size(); ++k) {
    const Stroke& s = option.strokes[k];
    const double dx = s.to.x - s.from.x, dy = s.to.y - s.from.y, l = std::hypot(dx, dy);
    length += l;
    if (k < stubs || l == 0) continue;
    const double off = in_column(p.side) ? dy : dx;
    const double squared_sine = off * off / (l * l);
    slope += squared_sine;
    if (squared_sine > w.steep_from) steep += squared_sine - w.steep_from;
    detail += busy(problem.detail, s);
  }
  double sum = w.length * length / unit +
               (w.slope * slope + w.steep * steep) / static_cast<double>(option.ends.size()) +
               w.detail * detail / unit;
  if ((label.preferred == -1 && p.side != Side::left) || (label.preferred == 1 && p.side != Side::right))
    sum += w.wrong_side;
  return sum + label.variants[static_cast<std::size_t>(p.variant)].penalty + target.penalty;
}

}  // namespace

double ends_apart(const Problem& problem, std::size_t label_a, std::size_t label_b) {
  double most = 0;
  for (const Target& t : problem.labels[label_a].targets)
    for (const Target& u : problem.labels[label_b].targets) {
      double least = std::numeric_limits<double>::infinity();
      for (const PagePoint& p : t.points)
        for (const PagePoint& q : u.points) least = std::min(least, distance(p, q));
      most = std::max(most, least);
    }
  return most;
}

Option option_of(const Problem& problem, std::size_t label, const Placement& placement) {
  Option option;
  option.placement = placement;
  option.label = label;
  option.line = static_cast<std::size_t>(placement.column) +
                (in_column(placement.side) ? 0 : problem.columns.size());
  const Label& l = problem.labels[label];
  option.ends = l.targets[static_cast<std::size_t>(placement.target)].points;
  PagePoint knee = placement.port;
  if (problem.stub > 0 && in_column(placement.side)) {
    knee.x += placement.side == Side::left ? problem.stub : -problem.stub;
    option.strokes.push_back({placement.port, knee});
  }
  for (const PagePoint& end : option.ends) option.strokes.push_back({knee, end});
  option.own_cost = own_cost(problem, l, option);
  return option;
}

bool stands_alone(const Problem& problem, const Option& option, double slack) {
  const PageBox& box = option.placement.box;
  if (in_column(option.placement.side)) {
    const Column& c = problem.columns[option.line];
    if (box.w > c.width + slack || box.top() < c.top - slack || box.bottom() > c.bottom + slack)
      return false;
  } else {
    const Row& r = problem.rows[option.line - problem.columns.size()];
    if (box.h > r.height + slack || box.left() < r.left - slack || box.right() > r.right + slack)
      return false;
  }
  for (const PageBox& obstacle : problem.obstacles) {
    const PageBox core = obstacle.grown(-slack);
    if (overlap(box, core)) return false;
    for (const Stroke& s : option.strokes)
      // A leader may end in one.
      if (const bool ends = std::count(option.ends.begin(), option.ends.end(), s.to) > 0 && obstacle.contains(s.to);
          !ends && core.w > 0 && core.h > 0 && apart(s, core) == 0) return false;
  }
  return true;
}

bool compatible(const Problem& problem, const Option& a, const Option& b, double slack) {
  if (apart(a.placement.box, b.placement.box) < problem.rules.label_gap - slack) return false;
  for (const Stroke& s : a.strokes)
    if (apart(s, b.placement.box) < leader_label_clear - slack) return false;
  for (const Stroke& s : b.strokes)
    if (apart(s, a.placement.box) < leader_label_clear - slack) return false;
  const double ends = ends_apart(problem, a.label, b.label);
  const double leader_gap = std::min(problem.rules.leader_gap, ends / 2);
  const double anchor_gap = std::min(problem.rules.anchor_gap, ends / 2);
  for (const Stroke& s : a.strokes)
    for (const PagePoint& q : b.ends)
      if (apart(Stroke{q, q}, s) < anchor_gap - slack) return false;
  for (const Stroke& s : b.strokes)
    for (const PagePoint& p : a.ends)
      if (apart(Stroke{p, p}, s) < anchor_gap - slack) return false;
  for (const Stroke& s : a.strokes)
    for (const Stroke& t : b.strokes) {
      if (ends == 0) {
        // One point in common is the shared end; lines through it must differ.
        const bool shared = s.to == t.to;
        if (shared ? same_direction(s, t) : meet(s, t))
          return false;
      } else if (meet(s, t) || apart(s, t) < leader_gap - slack) {
        return false;
      }
    }
  return true;
}

std::vector<Option> options(const Problem& problem, std::size_t label) {
  const Label& l = problem.labels[label];
  std::vector<Option> found;
  const auto add = [&](Side side, std::size_t line, std::size_t variant, const PageBox& box, PagePoint port) {
    for (std::size_t t = 0; t < l.targets.size(); ++t) {
      Placement p;
      p.side = side;
      p.column = static_cast<int>(line);
      p.variant = static_cast<int>(variant);
      p.target = static_cast<int>(t);
      p.box = box;
      p.port = port;
      Option option = option_of(problem, label, p);
      if (stands_alone(problem, option)) found.push_back(std::move(option));
    }
  };
  for (std::size_t c = 0; c < problem.columns.size(); ++c) {
    const Column& column = problem.columns[c];
    for (std::size_t v = 0; v < l.variants.size(); ++v) {
      const Variant& shape = l.variants[v];
      for (int k = 0; column.top + k * problem.slot <= column.bottom + tolerance; ++k) {
        const double y = column.top + k * problem.slot;
        const double x = column.side == Side::left ? column.edge - shape.width : column.edge;
        add(column.side, c, v, {x, y - shape.port, shape.width, shape.height}, {column.edge, y});
      }
    }
  }
  for (std::size_t r = 0; r < problem.rows.size(); ++r) {
    const Row& row = problem.rows[r];
    for (std::size_t v = 0; v < l.variants.size(); ++v) {
      const Variant& shape = l.variants[v];
      for (int k = 0; row.left + k * problem.slot <= row.right + tolerance; ++k) {
        const double x = row.left + k * problem.slot;
        const double y = row.side == Side::top ? row.edge - shape.height : row.edge;
        add(row.side, r, v, {x - shape.width / 2, y, shape.width, shape.height}, {x, row.edge});
      }
    }
  }
  return found;
}

std::vector<std::vector<Option>> options(const Problem& problem) {
  std::vector<std::vector<Option>> all;
  for (std::size_t i = 0; i < problem.labels.size(); ++i) all.push_back(options(problem, i));
  return all;
}

double start_of(const Option& o) {
  return in_column(o.placement.side) ? o.placement.box.top() : o.placement.box.left();
}
double end_of(const Option& o) {
  return in_column(o.placement.side) ? o.placement.box.bottom() : o.placement.box.right();
}

double wished_gap(const Problem& problem) {
  const double least = problem.rules.label_gap;
  if (problem.labels.empty() || problem.columns.empty()) return least;
  const auto n = static_cast<double>(problem.labels.size());
  double heights = 0, low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Label& l : problem.labels) {
    heights += l.variants[0].height;
    for (const PagePoint& p : l.targets[0].points) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
  }
  double room = 0;
  for (const Column& c : problem.columns)
    room += std::min(c.bottom - c.top, high - low + heights / n);
  const double wish = (room - heights) / n, most = 2 * heights / n;
  return wish < least ? least : std::max(least, std::min(wish, most));
}

double pair_cost(const Problem& problem, std::size_t label_a, const Option& a, std::size_t label_b,
                 const Option& b) {
  const double wish = wished_gap(problem);
  double sum = 0;
  if (wish > 0) {
    const double off = (start_of(b) - end_of(a) - wish) / wish;
    sum += problem.weights.gap * std::min(1.0, off * off);
  }
  if (problem.labels[label_a].group != problem.labels[label_b].group) sum += problem.weights.group_break;
  return sum;
}

double total_cost(const Problem& problem, const std::vector<const Option*>& chosen) {
  double sum = 0;
  int left = 0, right = 0;
  std::vector<std::vector<std::size_t>> lines(problem.columns.size() + problem.rows.size());
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    sum += chosen[i]->own_cost;
    left += chosen[i]->placement.side == Side::left;
    right += chosen[i]->placement.side == Side::right;
    lines[chosen[i]->line].push_back(i);
  }
  for (auto& line : lines) {
    std::sort(line.begin(), line.end(),
              [&](std::size_t a, std::size_t b) { return start_of(*chosen[a]) < start_of(*chosen[b]); });
    for (std::size_t k = 1; k < line.size(); ++k)
      sum += pair_cost(problem, line[k - 1], *chosen[line[k - 1]], line[k], *chosen[line[k]]);
  }
  if (left + right > 0)
    sum += problem.weights.balance * std::abs(left - right) / static_cast<double>(left + right);
  return sum;
}

double total_cost(const Problem& problem, const std::vector<Placement>& placements) {
  std::vector<Option> held;
  for (std::size_t i = 0; i < placements.size(); ++i)
    held.push_back(option_of(problem, i, placements[i]));
  std::vector<const Option*> chosen;
  for (const Option& o : held) chosen.push_back(&o);
  return total_cost(problem, chosen);
}

}  // namespace platewright::oracle
