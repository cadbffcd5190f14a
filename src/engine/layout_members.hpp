// Every member of what the solver is asked and answers, for keys and kept layouts.
#pragma once

#include "engine/exact.hpp"
#include "place/place.hpp"

namespace platewright {

template <class Space>
struct Members<Point<Space>> {
  static void of(Like<Point<Space>> auto& value, auto&& visit) {
    auto& [x, y] = value;
    visit(x, y);
  }
};
template <class Space>
struct Members<Box<Space>> {
  static void of(Like<Box<Space>> auto& value, auto&& visit) {
    auto& [x, y, w, h] = value;
    visit(x, y, w, h);
  }
};
template <>
struct Members<FigureToPage> {
  static void of(Like<FigureToPage> auto& value, auto&& visit) {
    auto& [scale, origin] = value;
    visit(scale, origin);
  }
};
template <>
struct Members<Fallback> {
  static void of(Like<Fallback> auto& value, auto&& visit) {
    auto& [step, witness] = value;
    visit(step, witness);
  }
};
template <>
struct Members<Certificate> {
  static void of(Like<Certificate> auto& value, auto&& visit) {
    auto& [status, cost, bound, gap, polished_cost, continuous_bound, continuous_gap] = value;
    visit(status, cost, bound, gap, polished_cost, continuous_bound, continuous_gap);
  }
};

template <>
struct Members<place::Variant> {
  static void of(Like<place::Variant> auto& value, auto&& visit) {
    auto& [width, height, port, penalty, beside] = value;
    visit(width, height, port, penalty, beside);
  }
};
template <>
struct Members<place::FigureRoom> {
  static void of(Like<place::FigureRoom> auto& value, auto&& visit) {
    auto& [box, columns, rows, free] = value;
    visit(box, columns, rows, free);
  }
};
template <>
struct Members<place::FitLabel::End> {
  static void of(Like<place::FitLabel::End> auto& value, auto&& visit) {
    auto& [points, penalty] = value;
    visit(points, penalty);
  }
};
template <>
struct Members<place::FitLabel> {
  static void of(Like<place::FitLabel> auto& value, auto&& visit) {
    auto& [anchor, variants, number, targets, preferred, group, room] = value;
    visit(anchor, variants, number, targets, preferred, group, room);
  }
};
template <>
struct Members<place::Rules> {
  static void of(Like<place::Rules> auto& value, auto&& visit) {
    auto& [label_gap, leader_gap, anchor_gap] = value;
    visit(label_gap, leader_gap, anchor_gap);
  }
};
template <>
struct Members<place::Weights> {
  static void of(Like<place::Weights> auto& value, auto&& visit) {
    auto& [length, slope, gap, wrong_side, group_break, detail, balance, unit, steep, steep_from] =
        value;
    visit(length, slope, gap, wrong_side, group_break, detail, balance, unit, steep, steep_from);
  }
};
template <>
struct Members<place::Calm> {
  static void of(Like<place::Calm> auto& value, auto&& visit) {
    auto& [length, angle, gap_variation, balance, smallest] = value;
    visit(length, angle, gap_variation, balance, smallest);
  }
};
template <>
struct Members<place::Effort> {
  static void of(Like<place::Effort> auto& value, auto&& visit) {
    auto& [nodes, proof, off_grid, stop] = value;
    static_cast<void>(stop);  // no answer that is kept depends on it
    visit(nodes, proof, off_grid);
  }
};
template <>
struct Members<place::FitRequest> {
  static void of(Like<place::FitRequest> auto& value, auto&& visit) {
    auto& [area, painted, profile, detail_box, detail_columns, detail_rows, detail, labels, text_pt,
           gutter, widest_gutter, target_clear, obstacles, insets, inside, rules, weights, slot,
           stub, most_scale, fixed_scale, known_scale, wanted_share, numbers, calm] = value;
    visit(area, painted, profile, detail_box, detail_columns, detail_rows, detail, labels, text_pt,
          gutter, widest_gutter, target_clear, obstacles, insets, inside, rules, weights, slot,
          stub, most_scale, fixed_scale, known_scale, wanted_share, numbers, calm);
  }
};

template <>
struct Members<place::Target> {
  static void of(Like<place::Target> auto& value, auto&& visit) {
    auto& [points, penalty] = value;
    visit(points, penalty);
  }
};
template <>
struct Members<place::Room> {
  static void of(Like<place::Room> auto& value, auto&& visit) {
    auto& [box, columns, rows, free] = value;
    visit(box, columns, rows, free);
  }
};
template <>
struct Members<place::Label> {
  static void of(Like<place::Label> auto& value, auto&& visit) {
    auto& [anchor, variants, targets, preferred, group, room] = value;
    visit(anchor, variants, targets, preferred, group, room);
  }
};
template <>
struct Members<place::Column> {
  static void of(Like<place::Column> auto& value, auto&& visit) {
    auto& [side, edge, top, bottom, width] = value;
    visit(side, edge, top, bottom, width);
  }
};
template <>
struct Members<place::Row> {
  static void of(Like<place::Row> auto& value, auto&& visit) {
    auto& [side, edge, left, right, height] = value;
    visit(side, edge, left, right, height);
  }
};
template <>
struct Members<place::DetailField> {
  static void of(Like<place::DetailField> auto& value, auto&& visit) {
    auto& [box, columns, rows, values] = value;
    visit(box, columns, rows, values);
  }
};
template <>
struct Members<place::Problem> {
  static void of(Like<place::Problem> auto& value, auto&& visit) {
    auto& [labels, columns, rows, obstacles, detail, rules, weights, slot, stub] = value;
    visit(labels, columns, rows, obstacles, detail, rules, weights, slot, stub);
  }
};
template <>
struct Members<place::Placement> {
  static void of(Like<place::Placement> auto& value, auto&& visit) {
    auto& [side, column, variant, target, box, port] = value;
    visit(side, column, variant, target, box, port);
  }
};
template <>
struct Members<place::Start> {
  static void of(Like<place::Start> auto& value, auto&& visit) {
    auto& [placements, step, settled, spare] = value;
    visit(placements, step, settled, spare);
  }
};
template <>
struct Members<place::Solution> {
  static void of(Like<place::Solution> auto& value, auto&& visit) {
    auto& [placements, certificate, on_grid] = value;
    visit(placements, certificate, on_grid);
  }
};
template <>
struct Members<place::Fit> {
  static void of(Like<place::Fit> auto& value, auto&& visit) {
    // What was reckoned follows from the problem.
    auto& [figure_to_page, text_step, cramped, problem, solution, as_number, fallbacks, reckoned] =
        value;
    visit(figure_to_page, text_step, cramped, problem, solution, as_number, fallbacks);
  }
};

}  // namespace platewright
