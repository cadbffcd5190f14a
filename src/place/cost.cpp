#include "place/cost.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "place/cost_terms.hpp"
#include "place/inside.hpp"
#include "place/leader.hpp"

namespace platewright::place {

double fair_gap(const Problem& problem) {
  const double least = problem.rules.label_gap;
  const std::size_t n = problem.labels.size();
  if (n == 0 || problem.columns.empty()) return least;
  double heights = 0, low = 1e300, high = -1e300;
  for (const Label& label : problem.labels) {
    heights += label.variants.front().height;
    for (const PagePoint& p : label.targets.front().points) {
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
  }
  const double mean = heights / static_cast<double>(n);
  double room = 0;
  for (const Column& c : problem.columns) room += std::min(c.bottom - c.top, high - low + mean);
  return std::clamp((room - heights) / static_cast<double>(n), least, std::max(least, 2 * mean));
}

LabelCost label_cost(const Problem& problem, const Label& label, Side side, int variant, int target,
                     PagePoint port, bool with_detail) {
  const Weights& w = problem.weights;
  const double unit = w.unit > 0 ? w.unit : 1.0;
  const Target& end = label.targets[static_cast<std::size_t>(target)];
  LabelCost cost;
  const PagePoint knee = stub_end(side, port, problem.stub);
  const double stub = std::abs(knee.x - port.x);
  double slope = 0, length = stub;
  for (const PagePoint& p : end.points) {
    const double dx = p.x - knee.x, dy = p.y - knee.y;
    const double square = dx * dx + dy * dy;
    length += std::sqrt(square);
    const bool row = side == Side::top || side == Side::bottom;
    if (square > 0) slope += slope_cost(w, (row ? dx * dx : dy * dy) / square);
  }
  cost.length = w.length * length / unit;
  cost.slope = slope / static_cast<double>(end.points.size());
  if (with_detail) cost.detail = detail_cost(problem, label, side, target, port);
  if ((label.preferred < 0 && side != Side::left) || (label.preferred > 0 && side != Side::right))
    cost.side = w.wrong_side;
  cost.penalties = label.variants[static_cast<std::size_t>(variant)].penalty + end.penalty;
  return cost;
}

double detail_cost(const Problem& problem, const Label& label, Side side, int target,
                   PagePoint port, const DetailSums* sums) {
  const Weights& w = problem.weights;
  if (w.detail == 0) return 0;
  const PagePoint knee = stub_end(side, port, problem.stub);
  double detail = 0;
  for (const PagePoint& p : label.targets[static_cast<std::size_t>(target)].points)
    detail += sums != nullptr ? sums->along(knee, p) : problem.detail.along(knee, p);
  return w.detail * detail / (w.unit > 0 ? w.unit : 1.0);
}

double gap_cost(const Weights& weights, double free, double fair) {
  if (!(fair > 0)) return 0;
  const double share = (free - fair) / fair;
  return weights.gap * std::min(1.0, share * share);
}

double group_cost(const Weights& weights, const Label& a, const Label& b) {
  return a.group != b.group ? weights.group_break : 0.0;
}

double balance_cost(const Weights& weights, int left, int right) {
  return left + right > 0 ? weights.balance * std::abs(left - right) / (left + right) : 0.0;
}

CostParts cost(const Problem& problem, const std::vector<Placement>& placements) {
  if (any_inside(placements)) {  // they cost nothing
    const Beside rest = beside(problem, placements);
    return cost(rest.problem, rest.placements);
  }
  CostParts parts;
  int left = 0, right = 0;
  const double fair = fair_gap(problem);
  // One run of neighbours for each column and each row, in order along it.
  std::vector<std::vector<std::size_t>> runs(problem.columns.size() + problem.rows.size());
  for (std::size_t i = 0; i < placements.size(); ++i) {
    const Placement& p = placements[i];
    const LabelCost own =
        label_cost(problem, problem.labels[i], p.side, p.variant, p.target, p.port);
    parts.length += own.length;
    parts.slope += own.slope;
    parts.detail += own.detail;
    parts.side += own.side;
    parts.penalties += own.penalties;
    left += p.side == Side::left;
    right += p.side == Side::right;
    const bool in_column = p.side == Side::left || p.side == Side::right;
    runs[static_cast<std::size_t>(p.column) + (in_column ? 0 : problem.columns.size())].push_back(
        i);
  }
  for (std::size_t r = 0; r < runs.size(); ++r) {
    const bool column = r < problem.columns.size();
    const auto start = [&](std::size_t i) {
      return column ? placements[i].box.top() : placements[i].box.left();
    };
    const auto end = [&](std::size_t i) {
      return column ? placements[i].box.bottom() : placements[i].box.right();
    };
    auto& run = runs[r];
    std::sort(run.begin(), run.end(), [&](std::size_t a, std::size_t b) {
      return start(a) != start(b) ? start(a) < start(b)
                                  : problem.labels[a].anchor < problem.labels[b].anchor;
    });
    for (std::size_t k = 1; k < run.size(); ++k) {
      parts.gap += gap_cost(problem.weights, start(run[k]) - end(run[k - 1]), fair);
      parts.group +=
          group_cost(problem.weights, problem.labels[run[k - 1]], problem.labels[run[k]]);
    }
  }
  parts.balance = balance_cost(problem.weights, left, right);
  return parts;
}

}  // namespace platewright::place
