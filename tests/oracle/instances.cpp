#include "instances.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::oracle {
namespace {

using place::Column;
using place::Label;
using place::Problem;
using place::Row;
using place::Target;
using place::Variant;

// Columns stand at x = 60 and 140, targets between 72 and 128.
PagePoint scattered(Random& random, const Shape& shape, const Problem& problem, PagePoint centre) {
  const double top = 20, bottom = top + shape.height;
  switch (shape.scatter) {
    case Scatter::uniform: break;
    case Scatter::clustered:
      return {std::clamp(centre.x + random.in(-6, 6), 72.0, 128.0),
              std::clamp(centre.y + random.in(-6, 6), top, bottom)};
    case Scatter::midline: return {100, random.in(top, bottom)};
    case Scatter::collinear: {
      const double t = random.unit();
      return {75 + 50 * t, top + shape.height * (0.2 + 0.5 * t)};
    }
    case Scatter::coincident:
      if (!problem.labels.empty() && random.chance(0.4)) {
        const auto at = random.whole(0, static_cast<int>(problem.labels.size()) - 1);
        return problem.labels[static_cast<std::size_t>(at)].targets[0].points[0];
      }
      break;
  }
  return {random.in(72, 128), random.in(top, bottom)};
}

bool far_enough(const Problem& problem, const Shape& shape, PagePoint p) {
  for (const Label& l : problem.labels)
    for (const Target& t : l.targets)
      for (const PagePoint& q : t.points) {
        const double d = distance(p, q);
        if (d < shape.apart && !(d == 0 && shape.scatter == Scatter::coincident)) return false;
      }
  return true;
}

void enrich(Random& random, const Shape& shape, Problem& problem) {
  for (Label& l : problem.labels) {
    if (random.chance(0.3)) l.preferred = random.chance(0.5) ? -1 : 1;
    if (random.chance(0.4)) l.group = random.chance(0.5) ? "bones" : "vessels";
    if (random.chance(0.25)) {  // a wrapped variant: narrower, higher
      Variant v = l.variants[0];
      v.width *= 0.6;
      v.height *= 1.6;
      v.port = v.height / 2;
      v.penalty = random.in(0, 1);
      l.variants.push_back(v);
    }
  }
  if (shape.scatter != Scatter::coincident)
    for (std::size_t i = 0; i < problem.labels.size(); ++i) {
      if (!random.chance(0.3)) continue;
      const PagePoint p{random.in(72, 128), random.in(20, 20 + shape.height)};
      if (!far_enough(problem, shape, p)) continue;
      if (random.chance(0.5))
        problem.labels[i].targets.push_back({{p}, random.in(0, 2)});
      else
        problem.labels[i].targets[0].points.push_back(p);  // a fork
    }
  if (random.chance(0.5)) {
    problem.detail.box = {70, 15, 60, shape.height + 10};
    problem.detail.columns = 5;
    problem.detail.rows = 4;
    for (int k = 0; k < 20; ++k) problem.detail.values.push_back(static_cast<float>(random.unit()));
  }
  if (random.chance(0.25)) {
    const double x = random.in(62, 68), y = random.in(20, 15 + shape.height);
    problem.obstacles.push_back({x - 10, y, 12, random.in(2, 6)});
  }
  if (random.chance(0.25)) problem.stub = random.in(1, 6);
  if (random.chance(0.5)) {
    problem.weights.steep = random.in(0, 20);
    problem.weights.steep_from = random.in(0.1, 0.6);
  }
}

}  // namespace

std::string name_of(int number) {
  std::string digits = std::to_string(number);
  return "a" + std::string(4 - std::min<std::size_t>(4, digits.size()), '0') + digits;
}

Problem make_problem(Random& random, const Shape& shape) {
  Problem problem;
  const double top = 20, bottom = top + shape.height;
  if (shape.left) problem.columns.push_back({Side::left, 60, top, bottom, 40});
  if (shape.right) problem.columns.push_back({Side::right, 140, top, bottom, 40});
  if (shape.staggered) problem.columns.push_back({Side::left, 15, top, bottom, 30});
  if (shape.row) problem.rows.push_back({Side::top, top - 8, 62, 138, 12});
  problem.slot = shape.slot;
  problem.weights.unit = random.in(2, 6);
  problem.weights.slope = random.in(0, 3);
  problem.weights.gap = shape.pairs ? random.in(0.2, 2) : 0;
  problem.weights.group_break = shape.pairs ? random.in(0, 2) : 0;
  problem.weights.balance = shape.pairs && random.chance(0.7) ? random.in(0, 3) : 0;
  const PagePoint centre{random.in(80, 120), random.in(top + 10, bottom - 10)};
  for (int i = 0; i < shape.labels; ++i) {
    Label label;
    label.anchor = name_of(i);
    const double height = random.chance(0.5) ? shape.tallest * 0.6 : random.in(shape.tallest / 2, shape.tallest);
    label.variants.push_back({random.in(8, 28), height, height / 2, 0});
    PagePoint at = scattered(random, shape, problem, centre);
    for (int k = 0; k < 200 && !far_enough(problem, shape, at); ++k)
      at = scattered(random, shape, problem, centre);
    if (!far_enough(problem, shape, at))  // a crowded scatter: anywhere, however near
      at = {random.in(72, 128), random.in(top, bottom)};
    label.targets.push_back({{at}, 0});
    problem.labels.push_back(std::move(label));
  }
  if (shape.rich) enrich(random, shape, problem);
  return problem;
}

}  // namespace platewright::oracle
