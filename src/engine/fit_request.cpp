#include "engine/fit_request.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace platewright {

place::FitRequest base_request(const Figure& figure, const Style& style, const PageBox& area) {
  place::FitRequest r;
  r.area = area;
  r.painted = figure.painted;
  const FigureGrid& grid = figure.silhouette;
  for (int row = 0; row < grid.rows; ++row) {
    const double y = grid.box.y + (row + 0.5) * grid.cell;
    if (y < figure.painted.top() || y > figure.painted.bottom()) continue;
    int first = -1, last = -1;
    for (int column = 0; column < grid.columns; ++column)
      if (grid.at(column, row)) {
        if (first < 0) first = column;
        last = column;
      }
    if (first < 0)
      r.profile.emplace_back(1.0, 0.0);
    else
      r.profile.emplace_back(grid.box.x + first * grid.cell,
                             grid.box.x + (last + 1) * grid.cell);
  }
  r.insets = figure.insets;
  r.detail_box = figure.detail.box;
  r.detail_columns = figure.detail.columns;
  r.detail_rows = figure.detail.rows;
  for (const std::uint8_t v : figure.detail.values)
    r.detail.push_back(static_cast<float>(v) / 255.0F);
  r.gutter = style.leader.gutter.mm();
  r.widest_gutter = std::max(style.leader.widest_gutter.mm(), r.gutter);
  r.stub = style.leader.stub.mm();
  r.rules = {style.rules.label_gap.mm(), style.rules.leader_gap.mm(),
             style.rules.anchor_gap.mm()};
  r.weights.length = style.cost.length;
  r.weights.slope = style.cost.slope;
  r.weights.steep = style.cost.steep;
  const double sine = std::sin(style.calm.angle * std::numbers::pi / 180);
  r.weights.steep_from = sine * sine;
  r.weights.gap = style.cost.gap;
  r.weights.wrong_side = style.cost.wrong_side;
  r.weights.group_break = style.cost.group_break;
  r.weights.detail = style.cost.detail;
  r.weights.balance = style.cost.balance;
  // The same costs, whatever the paper's size.
  r.weights.unit = std::min(area.w, area.h) / 10;
  r.slot = style.rules.slot.mm();
  r.calm = {style.calm.length, style.calm.angle, style.calm.gap_variation, style.calm.balance,
            style.calm.smallest};
  return r;
}

}  // namespace platewright
