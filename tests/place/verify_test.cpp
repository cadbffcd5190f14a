// Each hard rule broken once, by hand.
#include "place/verify.hpp"

#include <gtest/gtest.h>

#include <memory>

#include "place/exact_turn.hpp"
#include "place/place.hpp"

namespace platewright::place {
namespace {

// Two labels on the left column at x = 30, level leaders to (60, y).
struct Pair {
  Problem problem;
  Solution solution;
};

Placement left_at(double y, double h = 4, double w = 20) {
  Placement p;
  p.side = Side::left;
  p.port = {30, y};
  p.box = {30 - w, y - h / 2, w, h};
  return p;
}

Pair pair(double first = 10, double second = 20) {
  Pair pair;
  pair.problem.columns.push_back({Side::left, 30, 0, 40, 25});
  for (const auto& [name, y] : {std::pair{"first", first}, std::pair{"second", second}}) {
    Label l;
    l.anchor = name;
    l.variants.push_back({20, 4, 2, 0});
    l.targets.push_back({{{60, y}}, 0});
    pair.problem.labels.push_back(l);
    pair.solution.placements.push_back(left_at(y));
  }
  return pair;
}

void move(Pair& pair, std::size_t i, double y) {
  pair.solution.placements[i].box.y += y - pair.solution.placements[i].port.y;
  pair.solution.placements[i].port.y = y;
}

std::vector<std::string> rules_broken(const Pair& pair) {
  std::vector<std::string> rules;
  for (const Violation& v : verify(pair.problem, pair.solution)) rules.push_back(v.rule);
  return rules;
}

bool broken_rule(const Pair& pair, const std::string& rule) {
  for (const std::string& r : rules_broken(pair))
    if (r == rule) return true;
  return false;
}

TEST(Verify, Finds_nothing_in_a_placement_that_keeps_every_rule) {
  EXPECT_TRUE(rules_broken(pair()).empty());
}

TEST(Verify, Finds_labels_nearer_than_the_label_gap) {
  Pair p = pair();
  move(p, 1, 15.0);  // boxes 8..12 and 13..17: 1 mm apart, 1.5 mm asked
  EXPECT_TRUE(broken_rule(p, "label-overlap"));
  move(p, 1, 15.5);
  EXPECT_FALSE(broken_rule(p, "label-overlap"));
}
TEST(Verify, Finds_crossing_leaders) {
  Pair p = pair();
  std::swap(p.problem.labels[0].targets, p.problem.labels[1].targets);
  EXPECT_TRUE(broken_rule(p, "leader-crossing"));
}
TEST(Verify, Finds_leaders_that_come_too_near_each_other) {
  Pair p = pair(10, 20);
  p.problem.labels[1].targets[0].points[0] = {80, 10.9};  // passes the first target at about 1.9 mm
  p.problem.labels[0].targets[0].points[0] = {75, 12.2};
  p.problem.rules.anchor_gap = 0.1;
  EXPECT_TRUE(broken_rule(p, "leader-gap") || broken_rule(p, "leader-crossing"));
}
TEST(Verify, Finds_a_leader_near_a_foreign_label) {
  Pair p = pair();
  p.problem.labels[0].targets[0].points[0] = {30.3, 30};  // runs down along the second box
  EXPECT_TRUE(broken_rule(p, "leader-label"));
}
TEST(Verify, Finds_a_leader_through_its_own_label) {
  Pair p = pair();
  p.problem.labels[0].targets[0].points[0] = {5, 10};
  EXPECT_TRUE(broken_rule(p, "leader-label"));
}
TEST(Verify, Finds_a_leader_that_passes_a_foreign_anchor_too_near) {
  Pair p = pair();
  p.problem.labels[0].targets[0].points[0] = {45, 19.2};  // 0.8 mm above the second leader
  EXPECT_TRUE(broken_rule(p, "anchor-gap"));
}
TEST(Verify, Finds_a_box_outside_its_column) {
  Pair p = pair();
  move(p, 0, 1.5);
  EXPECT_TRUE(broken_rule(p, "outside"));
}
TEST(Verify, Finds_a_box_wider_than_its_column) {
  Pair p = pair();
  p.problem.columns[0].width = 18;
  EXPECT_TRUE(broken_rule(p, "outside"));
}
TEST(Verify, Finds_a_port_off_its_columns_edge) {
  Pair p = pair();
  p.solution.placements[0].port.x += 1;
  EXPECT_TRUE(broken_rule(p, "outside"));
}
TEST(Verify, Finds_a_box_that_is_not_its_variants) {
  Pair p = pair();
  p.solution.placements[0].box.h = 3;
  EXPECT_TRUE(broken_rule(p, "outside"));
}
TEST(Verify, Finds_labels_and_leaders_in_obstacles) {
  Pair on_box = pair();
  on_box.problem.obstacles.push_back({12, 9, 3, 3});
  EXPECT_TRUE(broken_rule(on_box, "obstacle"));
  Pair on_leader = pair();
  on_leader.problem.obstacles.push_back({40, 9, 3, 3});
  EXPECT_TRUE(broken_rule(on_leader, "obstacle"));
}
TEST(Verify, Lets_a_leader_end_in_an_obstacle) {
  Pair p = pair();
  const PagePoint end = p.problem.labels[0].targets[0].points[0];
  p.problem.obstacles.push_back({end.x - 0.4, end.y - 0.4, 0.8, 0.8});
  EXPECT_FALSE(broken_rule(p, "obstacle"));
  p.problem.obstacles.back().x = end.x - 1.5;  // the leader runs through to its end beyond
  p.problem.obstacles.back().w = 1;
  EXPECT_TRUE(broken_rule(p, "obstacle"));
}
TEST(Verify, Finds_labels_without_a_place) {
  Pair p = pair();
  p.solution.placements.pop_back();
  EXPECT_TRUE(broken_rule(p, "missing"));
  Pair q = pair();
  q.solution.placements[0].column = 7;
  EXPECT_TRUE(broken_rule(q, "missing"));
}
TEST(Verify, Lets_a_forks_own_branches_share_their_port) {
  Pair p = pair();
  p.problem.labels[0].targets[0].points = {{60, 9}, {60, 12}};
  EXPECT_TRUE(rules_broken(p).empty());
}
TEST(Verify, Lets_leaders_to_coincident_anchors_meet_there_and_nowhere_else) {
  Pair p = pair();
  for (Label& l : p.problem.labels) l.targets[0].points[0] = {60, 15};
  EXPECT_TRUE(rules_broken(p).empty());
  p.problem.labels[1].targets[0].points[0] = {60, 15.5};
  EXPECT_TRUE(rules_broken(p).empty()) << "half of the 0.5 mm that they lie apart is asked";
}

TEST(Exact_turn, Decides_points_that_lie_on_a_line_to_the_last_bit) {
  const PagePoint a{0.5, 0.5}, b{12, 12};
  // Kettner, Mehlhorn, Pion, Schirra, Yap 2008: the classroom example, where
  // plain doubles give wrong signs around (0.5, 0.5).
  const PagePoint on{24, 24};
  EXPECT_EQ(exact_turn(a, b, on), 0);
  const double up = std::nextafter(24.0, 25.0);
  EXPECT_EQ(exact_turn(a, b, {24, up}), 1);
  EXPECT_EQ(exact_turn(a, b, {up, 24}), -1);
  const double near_half = std::nextafter(0.5, 1.0);
  EXPECT_EQ(exact_turn({near_half, 0.5}, b, on), exact_turn(b, on, {near_half, 0.5}));
  EXPECT_NE(exact_turn({near_half, 0.5}, b, on), 0);
}

// The first label inside a room of 30 x 20 cells of 1 mm at (50, 5), all free; the second
// beside, its leader to (60, 30).
Pair inside(double x, double y) {
  Pair p = pair(10, 32);
  auto room = std::make_shared<Room>(Room{{50, 5, 30, 20}, 30, 20, {}});
  room->free.assign(600, 1);
  p.problem.labels[0].room = room;
  Placement& in = p.solution.placements[0];
  in = {Side::inside, 0, 0, 0, {x, y, 20, 4}, {x + 10, y + 2}};
  return p;
}

TEST(Verify, Lets_a_label_stand_inside_its_room_and_nowhere_else) {
  EXPECT_TRUE(rules_broken(inside(55, 10)).empty());
  EXPECT_TRUE(broken_rule(inside(61, 10), "outside"));
  Pair busy = inside(55, 10);
  auto room = std::make_shared<Room>(*busy.problem.labels[0].room);
  room->free[7 * 30 + 12] = 0;  // at 62..63, 12..13
  busy.problem.labels[0].room = room;
  EXPECT_TRUE(broken_rule(busy, "outside"));
  Pair roomless = inside(55, 10);
  roomless.problem.labels[0].room = nullptr;
  EXPECT_TRUE(broken_rule(roomless, "missing"));
}

TEST(Verify, Keeps_foreign_leaders_and_anchors_off_a_label_inside) {
  Pair crossed = inside(55, 10);
  crossed.problem.labels[1].targets[0].points[0] = {76, 5};  // through the box
  EXPECT_TRUE(broken_rule(crossed, "leader-label"));
  Pair ended = inside(55, 10);
  ended.problem.labels[1].targets[0].points[0] = {60, 14.8};  // 0.8 mm below it
  EXPECT_TRUE(broken_rule(ended, "anchor-gap"));
  EXPECT_FALSE(broken_rule(ended, "leader-label"));
}

}  // namespace
}  // namespace platewright::place
