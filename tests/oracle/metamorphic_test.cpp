// Reference: the problem itself, seen otherwise. Mirroring, moving, permuting and
// renaming change nothing; less to place or more room never costs more. Only
// proven optima are compared. Written without sight of the solver.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <iostream>
#include <optional>
#include <span>
#include <variant>

#include "describe.hpp"
#include "geos_rules.hpp"
#include "instances.hpp"
#include "place/place.hpp"
#include "support/share.hpp"

namespace platewright::oracle {
namespace {

using place::Infeasible;
using place::Problem;
using place::Solution;

void each_point(Problem& p, const std::function<void(PagePoint&)>& change) {
  for (auto& l : p.labels)
    for (auto& t : l.targets)
      for (PagePoint& q : t.points) change(q);
}

// About x = 100, where the columns at 60 and 140 change places.
Problem mirrored_left_right(Problem p) {
  each_point(p, [](PagePoint& q) { q.x = 200 - q.x; });
  for (auto& c : p.columns) {
    c.edge = 200 - c.edge;
    c.side = c.side == Side::left ? Side::right : Side::left;
  }
  for (auto& l : p.labels) l.preferred = -l.preferred;
  for (auto& o : p.obstacles) o.x = 200 - o.right();
  auto& d = p.detail;
  d.box.x = 200 - d.box.right();
  for (int r = 0; r < d.rows; ++r)
    std::reverse(d.values.begin() + r * d.columns, d.values.begin() + (r + 1) * d.columns);
  return p;
}

// About the middle of the columns, whose height is a whole number of slots, so
// that the grid falls on itself.
Problem mirrored_top_bottom(Problem p) {
  const double twice = p.columns[0].top + p.columns[0].bottom;
  each_point(p, [&](PagePoint& q) { q.y = twice - q.y; });
  for (auto& l : p.labels)
    for (auto& v : l.variants) v.port = v.height - v.port;
  for (auto& o : p.obstacles) o.y = twice - o.bottom();
  auto& d = p.detail;
  d.box.y = twice - d.box.bottom();
  for (int r = 0; r < d.rows / 2; ++r)
    std::swap_ranges(d.values.begin() + r * d.columns, d.values.begin() + (r + 1) * d.columns,
                     d.values.begin() + (d.rows - 1 - r) * d.columns);
  return p;
}

Problem moved(Problem p) {
  const double dx = 64.5, dy = -12.25;
  each_point(p, [&](PagePoint& q) { q = {q.x + dx, q.y + dy}; });
  for (auto& c : p.columns) {
    c.edge += dx;
    c.top += dy;
    c.bottom += dy;
  }
  for (auto& o : p.obstacles) o = {o.x + dx, o.y + dy, o.w, o.h};
  p.detail.box.x += dx;
  p.detail.box.y += dy;
  return p;
}

Problem renamed(Problem p) {  // the order of names stays
  for (auto& l : p.labels) l.anchor = "os-" + l.anchor + "-sinister";
  return p;
}

std::string said(const std::variant<Solution, Infeasible>& answer) {
  if (const auto* no = std::get_if<Infeasible>(&answer)) return no->witness;
  const Certificate& c = std::get<Solution>(answer).certificate;
  return (c.status == SolveStatus::optimal ? "optimal " : "feasible ") + std::to_string(c.cost);
}

std::optional<double> optimum(const std::variant<Solution, Infeasible>& answer) {
  const auto* s = std::get_if<Solution>(&answer);
  if (!s || s->certificate.status != SolveStatus::optimal) return std::nullopt;
  return s->certificate.cost;
}

Problem instance(int seed, bool pairs, int most = 12) {
  Random random(static_cast<std::uint64_t>(seed));
  Shape shape;
  shape.labels = random.whole(1, most);
  shape.right = random.chance(0.7);
  shape.slot = 2;
  shape.height = 2.0 * random.whole(40, 60);
  shape.scatter = static_cast<Scatter>(random.whole(0, 4));
  shape.pairs = pairs;
  return make_problem(random, shape);
}

using Change = std::function<Problem(Problem, Random&)>;

void expect_same(const Change& change, int first_seed, int count = 120) {
  int compared = 0;
  for (int seed = first_seed; seed < first_seed + support::instances(count); ++seed) {
    const Problem problem = instance(seed, true);
    Random random(static_cast<std::uint64_t>(seed) + 77);
    const auto before = place::solve(problem), after = place::solve(change(problem, random));
    const auto a = optimum(before), b = optimum(after);
    if ((a && after.index() == 1) || (b && before.index() == 1))
      ADD_FAILURE() << "seed " << seed << ": " << said(before) << " became " << said(after);
    if (!a || !b) continue;
    ++compared;
    EXPECT_NEAR(*a, *b, 1e-9 * std::max(1.0, *a)) << "seed " << seed << '\n' << describe(problem, {});
  }
  std::cout << compared << " optima compared\n";
  EXPECT_GE(compared, support::at_least(count / 3));
}

void expect_no_dearer(const Change& change, int first_seed, int count = 120) {
  int compared = 0;
  for (int seed = first_seed; seed < first_seed + support::instances(count); ++seed) {
    const Problem problem = instance(seed, false, 9);
    Random random(static_cast<std::uint64_t>(seed) + 77);
    const Problem easier = change(problem, random);
    const auto before = place::solve(problem), after = place::solve(easier);
    const auto a = optimum(before), b = optimum(after);
    if (a && after.index() == 1)
      ADD_FAILURE() << "seed " << seed << ": " << said(before) << " became " << said(after);
    if (!a || !b) continue;
    ++compared;
    EXPECT_LE(*b, *a + 1e-9 * std::max(1.0, *a)) << "seed " << seed << '\n' << describe(problem, {});
  }
  std::cout << compared << " optima compared\n";
  EXPECT_GE(compared, support::at_least(count / 3));
}

TEST(Metamorphic, Mirroring_left_and_right_changes_no_optimum) {
  expect_same([](Problem p, Random&) { return mirrored_left_right(std::move(p)); }, 1);
}

TEST(Metamorphic, Mirroring_top_and_bottom_changes_no_optimum) {
  expect_same([](Problem p, Random&) { return mirrored_top_bottom(std::move(p)); }, 201);
}

TEST(Metamorphic, Order_of_input_changes_no_optimum) {
  expect_same(
      [](Problem p, Random& random) {
        random.shuffle(std::span(p.labels));
        random.shuffle(std::span(p.obstacles));
        return p;
      },
      401);
}

TEST(Metamorphic, Moving_the_page_changes_no_optimum) {
  expect_same([](Problem p, Random&) { return moved(std::move(p)); }, 601);
}

TEST(Metamorphic, Other_names_in_the_same_order_change_no_optimum) {
  expect_same([](Problem p, Random&) { return renamed(std::move(p)); }, 801);
}

// A search that cannot finish must not say that there is nothing: where the
// mirror image has a placement, its mirror image keeps every rule here (GEOS says so).
TEST(Metamorphic, A_large_figure_is_not_infeasible_when_its_mirror_image_is_solved) {
  const std::vector<int> seeds = {9200, 10200, 11200, 12200};
  for (std::size_t k = 0; k < static_cast<std::size_t>(support::instances(4)); ++k) {
    const int seed = seeds[k];
    Random random(static_cast<std::uint64_t>(seed));
    Shape shape;
    shape.labels = 200;
    shape.rich = false;
    shape.slot = 1.5;
    shape.height = 946.5;  // fill 0.74
    const Problem problem = make_problem(random, shape);
    const Problem image = mirrored_top_bottom(problem);
    const auto one = place::solve(problem, {2'000}), two = place::solve(image, {2'000});
    ASSERT_TRUE(one.index() == 0 || two.index() == 0) << seed;
    if (one.index() == two.index()) continue;
    const bool first = one.index() == 0;
    const Problem& other = first ? image : problem;
    auto placements = std::get<Solution>(first ? one : two).placements;
    const double twice = problem.columns[0].top + problem.columns[0].bottom;
    for (auto& p : placements) {
      p.box.y = twice - p.box.bottom();
      p.port.y = twice - p.port.y;
    }
    const auto broken = geos_rules(other, placements, 2e-6);
    EXPECT_TRUE(broken.empty()) << seed << ": " << broken.front().rule;
    ADD_FAILURE() << "seed " << seed << ": a placement exists (the " << (first ? "upright" : "mirrored")
                  << " figure's), but the other is called infeasible: "
                  << std::get<Infeasible>(first ? two : one).witness;
  }
}

// Gap and balance costs depend on all labels, so these hold without them
// (a shorter run of groups never breaks more often).
TEST(Metamorphic, One_label_less_never_costs_more) {
  expect_no_dearer(
      [](Problem p, Random& random) {
        p.labels.erase(p.labels.begin() + random.whole(0, static_cast<int>(p.labels.size()) - 1));
        return p;
      },
      1001);
}

TEST(Metamorphic, A_smaller_box_never_costs_more) {
  expect_no_dearer(
      [](Problem p, Random& random) {
        auto& l = p.labels[static_cast<std::size_t>(random.whole(0, static_cast<int>(p.labels.size()) - 1))];
        const double by = random.in(0.1, 0.4);
        for (auto& v : l.variants) {
          v.width *= 1 - by;
          v.height -= v.port * by;  // from below the port
          v.height -= v.port * by;  // and above it
          v.port -= v.port * by;
        }
        return p;
      },
      1201);
}

TEST(Metamorphic, A_larger_page_never_costs_more) {
  expect_no_dearer(
      [](Problem p, Random& random) {
        const double up = p.slot * random.whole(0, 5), down = random.in(0, 20);
        for (auto& c : p.columns) {
          c.top -= up;  // whole slots, so that the old ports stay ports
          c.bottom += down;
          c.width += 5;
        }
        return p;
      },
      1401);
}

}  // namespace
}  // namespace platewright::oracle
