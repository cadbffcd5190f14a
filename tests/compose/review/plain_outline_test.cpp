// The plain outline that children draw parts into.
#include <gtest/gtest.h>

#include <algorithm>

#include "compose/review/flow.hpp"

namespace platewright::compose {
namespace {

// What is painted of 60 x 60 mm, in cells of half a millimetre.
struct Painted {
  Figure figure;
  Painted() {
    figure.view_box = figure.silhouette.box = {0, 0, 60, 60};
    figure.silhouette.cell = 0.5;
    figure.silhouette.columns = figure.silhouette.rows = 120;
    figure.silhouette.values.assign(120 * 120, 0);
  }
  Painted& box(int left, int top, int right, int bottom) {  // cells
    for (int row = top; row < bottom; ++row)
      for (int column = left; column < right; ++column)
        figure.silhouette.values[static_cast<std::size_t>(row * 120 + column)] = 255;
    return *this;
  }
  // How far down a pen half a millimetre wide gets, mm.
  double lowest() const {
    FigureToPage to_page;
    double y = 0;
    for (const auto& step : silhouette_of(figure, to_page, Pen{{}, 0.5, {}, true}).steps)
      if (const auto* curve = std::get_if<CurveTo>(&step)) y = std::max(y, curve->to.y);
    return y;
  }
};

TEST(Plain_outline, Goes_round_limbs_and_leaves_out_hairs) {
  EXPECT_NEAR(Painted().box(40, 20, 80, 60).lowest(), 30, 0.6);
  EXPECT_NEAR(Painted().box(40, 20, 80, 60).box(58, 60, 59, 90).lowest(), 30, 0.6);
  EXPECT_NEAR(Painted().box(40, 20, 80, 60).box(58, 60, 61, 90).lowest(), 45, 0.8);
}

TEST(Plain_outline, Goes_round_a_drawing_that_is_all_thin_lines) {
  EXPECT_NEAR(Painted().box(20, 20, 22, 100).lowest(), 50, 0.6);
}

}  // namespace
}  // namespace platewright::compose
