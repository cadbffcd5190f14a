// Labels beside the parts of a tiled body: off the joins, apart, not crossing.
#include "place/body_labels.hpp"

#include <gtest/gtest.h>

#include <random>

namespace platewright::place {
namespace {

// A body 100 mm wide in the middle of 2 x 2 tiles of 200 mm that share 12 mm.
struct Body {
  Cells cells{388, 388, 1, std::vector<std::uint8_t>(388u * 388u, 0)};
  Tiling tiling;
  Body() {
    for (int r = 10; r < 378; ++r)
      for (int c = 144; c < 244; ++c) cells.values[static_cast<std::size_t>(r * 388 + c)] = 255;
    tiling.width = tiling.height = 200;
    tiling.overlap = 12;
    tiling.rows = tiling.columns = 2;
    tiling.printed = {{0, 0}, {0, 1}, {1, 0}, {1, 1}};
  }
};

bool crosses(PagePoint a, PagePoint b, PagePoint c, PagePoint d) {
  const auto side = [](PagePoint p, PagePoint q, PagePoint r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

TEST(Body_labels, Lie_on_one_sheet_off_the_strips_and_off_the_body) {
  const Body body;
  const Occupancy figure(body.cells);
  std::mt19937 random(2);
  std::vector<BodyLabelRequest> labels;
  for (int i = 0; i < 10; ++i)
    labels.push_back({"part" + std::to_string(i),
                      40,
                      10,
                      5,
                      {{150.0 + static_cast<double>(random() % 90),
                        20.0 + 34 * i + static_cast<double>(random() % 20)}}});
  const auto places = body_labels(labels, body.tiling, figure);
  for (std::size_t i = 0; i < places.size(); ++i) {
    ASSERT_TRUE(places[i].placed);
    EXPECT_FALSE(places[i].across_join);
    const PageBox& b = places[i].box;
    EXPECT_TRUE(figure.empty(b));
    EXPECT_FALSE(overlap(b, PageBox{188, 0, 12, 388}));
    EXPECT_FALSE(overlap(b, PageBox{0, 188, 388, 12}));
    for (std::size_t j = 0; j < i; ++j) {
      EXPECT_FALSE(overlap(b.grown(2), places[j].box));
      EXPECT_FALSE(crosses(places[i].port, places[i].target, places[j].port, places[j].target));
    }
  }
}

TEST(Body_labels, Go_to_an_empty_sheet_rather_than_over_the_drawing) {
  // The left tiles are full; the right ones empty and not printed.
  Cells cells{200, 200, 1, std::vector<std::uint8_t>(40'000, 255)};
  Tiling tiling;
  tiling.width = tiling.height = 200;
  tiling.overlap = 12;
  tiling.rows = 1;
  tiling.columns = 2;
  tiling.printed = {{0, 0}};
  const auto places = body_labels({{"a", 40, 10, 5, {{150, 100}}}}, tiling, Occupancy(cells));
  ASSERT_TRUE(places[0].placed);
  EXPECT_GE(places[0].box.left(), 200);
}

TEST(Body_labels, Take_a_place_across_a_join_only_when_there_is_no_other) {
  Cells cells{100, 60, 1, std::vector<std::uint8_t>(6000, 255)};
  Tiling tiling;
  tiling.width = 60;
  tiling.height = 60;
  tiling.overlap = 20;
  tiling.rows = 1;
  tiling.columns = 2;
  tiling.printed = {{0, 0}, {0, 1}};
  const auto places = body_labels({{"wide", 45, 10, 5, {{20, 30}}}}, tiling, Occupancy(cells));
  ASSERT_TRUE(places[0].placed);
  EXPECT_TRUE(places[0].across_join);
}

}  // namespace
}  // namespace platewright::place
