#include "convex_reference.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "slot_model.hpp"

namespace platewright::oracle {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Program {
  const place::Problem& problem;
  std::vector<place::Placement> at;
  MatrixXd normals;  // normals * y <= limits
  VectorXd limits;
  struct Neighbours {
    int upper, lower;
    double shift;  // free gap = y[lower] - y[upper] - shift
  };
  std::vector<Neighbours> neighbours;
  double wish = 0;

  double value(const VectorXd& y, VectorXd* slope, MatrixXd* bend) const {
    double sum = 0;
    const place::Weights& w = problem.weights;
    for (int i = 0; i < y.size(); ++i) {
      const auto k = static_cast<std::size_t>(i);
      const place::Placement& p = at[k];
      for (const PagePoint& q : problem.labels[k].targets[static_cast<std::size_t>(p.target)].points) {
        const double dx = std::abs(q.x - p.port.x) - problem.stub, dy = y(i) - q.y;
        const double l = std::sqrt(dx * dx + dy * dy), scale = w.length / w.unit;
        sum += scale * l;
        if (slope) (*slope)(i) += scale * dy / l;
        if (bend) (*bend)(i, i) += scale * dx * dx / (l * l * l);
      }
    }
    if (w.gap > 0 && wish > 0)
      for (const Neighbours& n : neighbours) {
        const double off = (y(n.lower) - y(n.upper) - n.shift - wish) / wish;
        sum += w.gap * off * off;
        const double first = 2 * w.gap * off / wish, second = 2 * w.gap / (wish * wish);
        if (slope) {
          (*slope)(n.lower) += first;
          (*slope)(n.upper) -= first;
        }
        if (bend) {
          (*bend)(n.lower, n.lower) += second;
          (*bend)(n.upper, n.upper) += second;
          (*bend)(n.lower, n.upper) -= second;
          (*bend)(n.upper, n.lower) -= second;
        }
      }
    return sum;
  }
};

Program program_of(const place::Problem& problem, const std::vector<place::Placement>& start, VectorXd& inner,
                   bool& loose) {
  Program program{problem, start, {}, {}, {}, wished_gap(problem)};
  const auto n = static_cast<int>(start.size());
  std::vector<std::pair<VectorXd, double>> rows;
  inner = VectorXd::Zero(n);
  for (std::size_t c = 0; c < problem.columns.size(); ++c) {
    std::vector<int> run;
    for (int i = 0; i < n; ++i)
      if (static_cast<std::size_t>(start[static_cast<std::size_t>(i)].column) == c) run.push_back(i);
    std::sort(run.begin(), run.end(), [&](int a, int b) {
      return start[static_cast<std::size_t>(a)].port.y < start[static_cast<std::size_t>(b)].port.y;
    });
    if (run.empty()) continue;
    const auto shape = [&](int i) {
      const place::Placement& p = start[static_cast<std::size_t>(i)];
      return problem.labels[static_cast<std::size_t>(i)].variants[static_cast<std::size_t>(p.variant)];
    };
    const place::Column& column = problem.columns[c];
    double used = problem.rules.label_gap * static_cast<double>(run.size() - 1);
    for (const int i : run) used += shape(i).height;
    const double spare = (column.bottom - column.top - used) / static_cast<double>(run.size() + 1);
    if (spare < 1e-3) loose = false;
    double y = column.top;
    VectorXd row = VectorXd::Zero(n);
    row(run.front()) = -1;
    rows.emplace_back(row, -(column.top + shape(run.front()).port));
    row.setZero();
    row(run.back()) = 1;
    rows.emplace_back(row, column.bottom - shape(run.back()).height + shape(run.back()).port);
    for (std::size_t k = 0; k < run.size(); ++k) {
      y += spare + (k > 0 ? problem.rules.label_gap : 0);
      inner(run[k]) = y + shape(run[k]).port;
      y += shape(run[k]).height;
      if (k == 0) continue;
      const int upper = run[k - 1], lower = run[k];
      const double shift = shape(upper).height - shape(upper).port + shape(lower).port;
      row.setZero();
      row(upper) = 1;
      row(lower) = -1;
      rows.emplace_back(row, -(shift + problem.rules.label_gap));
      program.neighbours.push_back({upper, lower, shift});
    }
  }
  program.normals.resize(static_cast<Eigen::Index>(rows.size()), n);
  program.limits.resize(static_cast<Eigen::Index>(rows.size()));
  for (std::size_t r = 0; r < rows.size(); ++r) {
    program.normals.row(static_cast<Eigen::Index>(r)) = rows[r].first.transpose();
    program.limits(static_cast<Eigen::Index>(r)) = rows[r].second;
  }
  return program;
}

}  // namespace

std::optional<ConvexBest> convex_best(const place::Problem& problem,
                                      const std::vector<place::Placement>& start) {
  VectorXd y;
  bool loose = true;
  const Program program = program_of(problem, start, y, loose);
  if (!loose || start.empty()) return std::nullopt;
  const auto rows = static_cast<double>(program.limits.size());
  const auto merit = [&](const VectorXd& at, double t) {
    const VectorXd room = program.limits - program.normals * at;
    if (room.minCoeff() <= 0) return std::numeric_limits<double>::infinity();
    return t * program.value(at, nullptr, nullptr) - room.array().log().sum();
  };
  double t = 1;
  for (; rows / t > 1e-10; t *= 8)
    for (int step = 0; step < 60; ++step) {
      VectorXd slope = VectorXd::Zero(y.size());
      MatrixXd bend = MatrixXd::Zero(y.size(), y.size());
      program.value(y, &slope, &bend);
      const VectorXd each = (program.limits - program.normals * y).cwiseInverse();
      slope = t * slope + program.normals.transpose() * each;
      bend = t * bend + program.normals.transpose() * each.cwiseAbs2().asDiagonal() * program.normals;
      const VectorXd move = -bend.ldlt().solve(slope);
      const double decrement = -slope.dot(move);
      if (decrement < 1e-12) break;
      double stride = 1;
      const double now = merit(y, t);
      while (stride > 1e-12 && !(merit(y + stride * move, t) <= now - 0.1 * stride * decrement)) stride /= 2;
      if (stride <= 1e-12) break;
      y += stride * move;
    }
  ConvexBest best;
  best.placements = start;
  for (std::size_t i = 0; i < start.size(); ++i) {
    place::Placement& p = best.placements[i];
    const double port = problem.labels[i].variants[static_cast<std::size_t>(p.variant)].port;
    p.port.y = y(static_cast<Eigen::Index>(i));
    p.box.y = p.port.y - port;
  }
  best.cost = total_cost(problem, best.placements);
  best.slackness = rows / t + 1e-9 * best.cost;
  return best;
}

}  // namespace platewright::oracle
