// Shapes on pages: apart, inside, and on few pages.
#include "place/nesting.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace platewright::place {
namespace {

Polygon box(double w, double h) { return {{0, 0}, {w, 0}, {w, h}, {0, h}}; }

// A star of many corners, some of them deep hollows.
Polygon star(std::mt19937& random, double size) {
  Polygon p;
  for (int i = 0; i < 14; ++i) {
    const double r = size * (0.35 + 0.65 * static_cast<double>(random() % 1000) / 1000);
    const double a = 2 * M_PI * i / 14;
    p.push_back({40 + r * std::cos(a), 25 + r * std::sin(a)});
  }
  return p;
}

Polygon placed(const Polygon& p, const NestPlace& at) {
  Polygon out = turned(p, at.turn);
  for (PagePoint& q : out) q = {q.x + at.x, q.y + at.y};
  return out;
}

double point_to(const Polygon& p, PagePoint q) {
  double best = 1e9;
  bool inside = false;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const PagePoint &a = p[i], &b = p[(i + 1) % p.size()];
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double t =
        std::clamp(((q.x - a.x) * dx + (q.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    best = std::min(best, std::hypot(q.x - a.x - t * dx, q.y - a.y - t * dy));
    if ((a.y > q.y) != (b.y > q.y) && q.x < a.x + (q.y - a.y) / dy * dx) inside = !inside;
  }
  return inside ? -best : best;
}

// Least distance of one border's points to the other shape; negative inside.
double between(const Polygon& a, const Polygon& b) {
  double best = 1e9;
  for (int way = 0; way < 2; ++way) {
    const Polygon &p = way ? b : a, &q = way ? a : b;
    for (std::size_t i = 0; i < p.size(); ++i)
      for (int s = 0; s < 20; ++s) {
        const PagePoint &u = p[i], &v = p[(i + 1) % p.size()];
        best =
            std::min(best, point_to(q, {u.x + (v.x - u.x) * s / 20, u.y + (v.y - u.y) * s / 20}));
      }
  }
  return best;
}

TEST(Nest, Keeps_shapes_apart_and_on_the_page) {
  std::mt19937 random(5);
  for (int instance = 0; instance < 4; ++instance) {
    std::vector<NestShape> shapes;
    for (int i = 0; i < 12; ++i)
      shapes.push_back(
          {std::to_string(i), {star(random, 15 + static_cast<double>(random() % 30))}, 0, 0});
    NestRequest request;
    request.width = 180;
    request.height = 200;
    request.gap = 3;
    request.turns = 8;
    request.orders = 3;
    const Nest nest = nested(shapes, request);
    EXPECT_GE(nest.pages, nest.bound);
    for (std::size_t i = 0; i < shapes.size(); ++i) {
      ASSERT_GE(nest.places[i].page, 0);
      ASSERT_LT(nest.places[i].page, nest.pages);
      const Polygon a = placed(shapes[i].outline[0], nest.places[i]);
      for (const PagePoint& p : a) {
        EXPECT_GE(p.x, -1e-9);
        EXPECT_GE(p.y, -1e-9);
        EXPECT_LE(p.x, request.width + 1e-9);
        EXPECT_LE(p.y, request.height + 1e-9);
      }
      for (std::size_t j = 0; j < i; ++j) {
        if (nest.places[i].page != nest.places[j].page) continue;
        EXPECT_GE(between(a, placed(shapes[j].outline[0], nest.places[j])), request.gap)
            << i << " " << j;
      }
    }
  }
}

TEST(Nest, Turns_a_shape_that_only_fits_the_other_way_round) {
  NestRequest request;
  request.width = 100;
  request.height = 60;
  const Nest nest = nested({{"long", {box(20, 90)}, 0, 0}}, request);
  ASSERT_EQ(nest.places[0].page, 0);
  EXPECT_NEAR(std::abs(std::sin(nest.places[0].turn * M_PI / 180)), 1, 0.35);
}

TEST(Nest, Says_which_shape_fits_on_no_page) {
  NestRequest request;
  request.width = 100;
  request.height = 100;
  const Nest nest =
      nested({{"fits", {box(50, 50)}, 0, 0}, {"large", {box(150, 20)}, 0, 0}}, request);
  EXPECT_EQ(nest.places[0].page, 0);
  EXPECT_EQ(nest.places[1].page, -1);
  EXPECT_EQ(nest.pages, 1);
}

TEST(Nest, Fills_the_hollow_of_a_frame) {
  // A U of 90 mm with a hollow of 60, and a box that only fits into it.
  const Polygon u = {{0, 0}, {15, 0}, {15, 75}, {75, 75}, {75, 0}, {90, 0}, {90, 90}, {0, 90}};
  NestRequest request;
  request.width = 95;
  request.height = 95;
  const Nest nest = nested({{"u", {u}, 0, 0}, {"box", {box(40, 40)}, 0, 0}}, request);
  EXPECT_EQ(nest.pages, 1);
}

TEST(Nest, Keeps_room_for_the_tag_below_a_shape) {
  NestRequest request;
  request.width = 60;
  request.height = 100;
  const Nest nest = nested({{"a", {box(20, 20)}, 40, 6}, {"b", {box(50, 20)}, 0, 0}}, request);
  ASSERT_EQ(nest.pages, 1);
  const PageBox tag = nest.places[0].tag;
  EXPECT_EQ(tag.w, 40);
  const Polygon a = placed(box(20, 20), nest.places[0]), b = placed(box(50, 20), nest.places[1]);
  double lowest = 0;
  for (const PagePoint& p : a) lowest = std::max(lowest, p.y);
  EXPECT_GE(tag.top(), lowest);
  const Polygon t = {{tag.left(), tag.top()},
                     {tag.right(), tag.top()},
                     {tag.right(), tag.bottom()},
                     {tag.left(), tag.bottom()}};
  EXPECT_GE(between(t, b), request.gap);
}

TEST(Nest, Is_the_same_every_time) {
  std::mt19937 random(9);
  std::vector<NestShape> shapes;
  for (int i = 0; i < 8; ++i) shapes.push_back({std::to_string(i), {star(random, 25)}, 0, 0});
  NestRequest request;
  request.width = 120;
  request.height = 120;
  request.turns = 6;
  const Nest a = nested(shapes, request), b = nested(shapes, request);
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    EXPECT_EQ(a.places[i].page, b.places[i].page);
    EXPECT_EQ(a.places[i].x, b.places[i].x);
    EXPECT_EQ(a.places[i].y, b.places[i].y);
    EXPECT_EQ(a.places[i].turn, b.places[i].turn);
  }
}

}  // namespace
}  // namespace platewright::place
