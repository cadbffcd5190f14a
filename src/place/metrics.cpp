#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "place/detail.hpp"
#include "place/inside.hpp"
#include "place/leader.hpp"
#include "place/place.hpp"
#include "place/two_sides.hpp"
#include "place/y_order.hpp"

namespace platewright::place {
namespace {

// A label is free to change sides unless its row asks for one, a column is too
// narrow for it, or the other column is more than twice as far.
constexpr double far = 2;

// -1, +1: bound to that side; 0: free.
int bound_side(const Problem& problem, const Label& label) {
  if (label.preferred != 0) return label.preferred;
  double narrowest = 1e300, x = 0;
  for (const Variant& v : label.variants) narrowest = std::min(narrowest, v.width);
  for (const PagePoint& p : label.targets.front().points) x += p.x;
  x /= static_cast<double>(label.targets.front().points.size());
  double left = 1e300, right = 1e300;
  for (const Column& c : problem.columns) {
    if (narrowest > c.width + 1e-9) continue;
    double& side = c.side == Side::left ? left : right;
    side = std::min(side, std::abs(x - c.edge));
  }
  if (left > far * right) return 1;
  return right > far * left ? -1 : 0;
}

double least_balance(const Problem& problem, const Solution& solution) {
  int left = 0, right = 0, free = 0;
  for (std::size_t i = 0; i < solution.placements.size(); ++i) {
    const Side side = solution.placements[i].side;
    if (side != Side::left && side != Side::right) continue;
    const int bound = bound_side(problem, problem.labels[i]);
    left += bound < 0;
    right += bound > 0;
    free += bound == 0;
  }
  const int all = left + right + free;
  return all > 0 ? static_cast<double>(std::max(all % 2, std::abs(left - right) - free)) / all : 0;
}

double detail(const Problem& problem, const Label& label, const Placement& p) {
  double sum = 0;
  for (const PagePoint& t : label.targets[static_cast<std::size_t>(p.target)].points)
    sum += problem.detail.along(stub_end(p.side, p.port, problem.stub), t);
  return sum;
}

// Places on a column or row from which a label's calmest leader is looked for, at most.
constexpr double most_looks = 300;

// The calmest leader to a label from a slot of any column or row, with no other label about, mm.
double calmest(const Problem& problem, const DetailSums& detail, const Label& label) {
  double least = 1e300;
  const auto look = [&](Side side, PagePoint port) {
    const PagePoint from = stub_end(side, port, problem.stub);
    for (const Target& target : label.targets) {
      double sum = 0;
      for (const PagePoint& t : target.points) sum += detail.along(from, t);
      least = std::min(least, sum);
    }
  };
  const auto step = [&](double length) { return std::max(slot_of(problem), length / most_looks); };
  for (const Column& c : problem.columns)
    for (double y = c.top; y <= c.bottom; y += step(c.bottom - c.top)) look(c.side, {c.edge, y});
  for (const Row& r : problem.rows)
    for (double x = r.left; x <= r.right; x += step(r.right - r.left)) look(r.side, {x, r.edge});
  return least < 1e300 ? least : 0;
}

}  // namespace

// angle_p95: over branches, by nearest rank; leaders of rows count from the
// vertical. shortest_length: for each branch the level distance from its target
// to the nearest column (or row). gap_variation: over the free gaps between
// neighbours of one column, gaps of all columns together against each column's
// own mean.
LayoutMetrics spreads(const Problem& problem, const Solution& solution) {
  if (any_inside(solution.placements)) {
    const Beside rest = beside(problem, solution.placements);
    return spreads(rest.problem, {rest.placements, solution.certificate});
  }
  LayoutMetrics m;
  std::vector<double> angles;
  int left = 0, right = 0;
  std::vector<std::vector<PageBox>> columns(problem.columns.size());
  for (std::size_t i = 0; i < solution.placements.size(); ++i) {
    const Placement& p = solution.placements[i];
    const bool row = p.side == Side::top || p.side == Side::bottom;
    left += p.side == Side::left;
    right += p.side == Side::right;
    if (!row) columns[static_cast<std::size_t>(p.column)].push_back(p.box);
    const PagePoint knee = stub_end(p.side, p.port, problem.stub);
    m.leader_length += std::abs(knee.x - p.port.x);
    for (const PagePoint& t :
         problem.labels[i].targets[static_cast<std::size_t>(p.target)].points) {
      const double dx = std::abs(t.x - knee.x), dy = std::abs(t.y - knee.y);
      m.leader_length += std::hypot(dx, dy);
      angles.push_back((row ? std::atan2(dx, dy) : std::atan2(dy, dx)) * 180 / std::numbers::pi);
      double shortest = 1e300;
      for (const Column& c : problem.columns) shortest = std::min(shortest, std::abs(t.x - c.edge));
      for (const Row& r : problem.rows) shortest = std::min(shortest, std::abs(t.y - r.edge));
      if (shortest < 1e300) m.shortest_length += shortest;
    }
  }
  if (!angles.empty()) {
    std::sort(angles.begin(), angles.end());
    const auto rank =
        static_cast<std::size_t>(std::ceil(0.95 * static_cast<double>(angles.size())));
    m.angle_p95 = angles[std::max<std::size_t>(rank, 1) - 1];
  }
  double squares = 0, sum = 0;
  int count = 0;
  for (auto& boxes : columns) {
    std::sort(boxes.begin(), boxes.end(),
              [](const PageBox& a, const PageBox& b) { return a.y < b.y; });
    if (boxes.size() < 2) continue;
    double mean = 0;
    for (std::size_t k = 1; k < boxes.size(); ++k) mean += boxes[k].top() - boxes[k - 1].bottom();
    mean /= static_cast<double>(boxes.size() - 1);
    for (std::size_t k = 1; k < boxes.size(); ++k) {
      const double gap = boxes[k].top() - boxes[k - 1].bottom();
      squares += (gap - mean) * (gap - mean);
      sum += gap;
      ++count;
    }
  }
  if (count > 0 && sum > 0) m.gap_variation = std::sqrt(squares / count) / (sum / count);
  if (left + right > 0) m.balance = static_cast<double>(std::abs(left - right)) / (left + right);
  m.least_balance = least_balance(problem, solution);
  return m;
}

LayoutMetrics metrics(const Problem& problem, const Solution& solution) {
  if (any_inside(solution.placements)) {
    const Beside rest = beside(problem, solution.placements);
    return metrics(rest.problem, {rest.placements, solution.certificate});
  }
  LayoutMetrics m = spreads(problem, solution);
  for (std::size_t i = 0; i < solution.placements.size(); ++i)
    m.detail_crossed += detail(problem, problem.labels[i], solution.placements[i]);
  const std::vector<Placement> stacked = y_order_stacking(problem);
  for (std::size_t i = 0; i < stacked.size(); ++i)
    m.detail_of_y_order += detail(problem, problem.labels[i], stacked[i]);
  return m;
}

double least_detail(const Problem& problem, const Solution& solution) {
  if (any_inside(solution.placements)) {
    const Beside rest = beside(problem, solution.placements);
    return least_detail(rest.problem, {rest.placements, solution.certificate});
  }
  const DetailSums detail(problem.detail);
  double sum = 0;
  for (const Label& label : problem.labels) sum += calmest(problem, detail, label);
  return sum;
}

}  // namespace platewright::place
