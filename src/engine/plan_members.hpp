// Every member of where labels stand on a page, for the keys of what is drawn there.
#pragma once

#include "compose/plan.hpp"
#include "engine/exact.hpp"
#include "engine/layout_members.hpp"

namespace platewright {

template <>
struct Members<Length> {
  static void of(const Length& value, auto&& visit) { visit(value.mm()); }
};
template <>
struct Members<Paper> {
  static void of(Like<Paper> auto& value, auto&& visit) {
    auto& [name, width, height, standard] = value;
    visit(name, width, height, standard);
  }
};
template <>
struct Members<PlacedLabel> {
  static void of(Like<PlacedLabel> auto& value, auto&& visit) {
    auto& [anchor, side, box, port, targets, leaders, lines, text, group, as_number, number] =
        value;
    visit(anchor, side, box, port, targets, leaders, lines, text, group, as_number, number);
  }
};
template <>
struct Members<LayoutMetrics> {
  static void of(Like<LayoutMetrics> auto& value, auto&& visit) {
    auto& [leader_length, shortest_length, angle_p95, gap_variation, balance, least_balance,
           detail_crossed, detail_of_y_order, least_detail] = value;
    visit(leader_length, shortest_length, angle_p95, gap_variation, balance, least_balance,
          detail_crossed, detail_of_y_order, least_detail);
  }
};
template <>
struct Members<Layout> {
  static void of(Like<Layout> auto& value, auto&& visit) {
    auto& [paper, figure_to_page, figure_box, labels, text_size, certificate, fallbacks, metrics] =
        value;
    visit(paper, figure_to_page, figure_box, labels, text_size, certificate, fallbacks, metrics);
  }
};

template <>
struct Members<text::Font> {
  static void of(Like<text::Font> auto& value, auto&& visit) {
    auto& [face, size, bold, italic] = value;
    visit(face, size, bold, italic);
  }
};
template <>
struct Members<text::Line> {
  static void of(Like<text::Line> auto& value, auto&& visit) {
    auto& [text, font, language, direction, advance, ascent, descent, ink_left, ink_right, ink_top,
           ink_bottom] = value;
    visit(text, font, language, direction, advance, ascent, descent, ink_left, ink_right, ink_top,
          ink_bottom);
  }
};
template <>
struct Members<compose::Frame> {
  static void of(Like<compose::Frame> auto& value, auto&& visit) {
    auto& [width, height, margin, growth, title, row, area, footer, title_font, row_font, list_font,
           footer_font, footer_lines] = value;
    visit(width, height, margin, growth, title, row, area, footer, title_font, row_font, list_font,
          footer_font, footer_lines);
  }
};
template <>
struct Members<compose::Blank> {
  static void of(Like<compose::Blank> auto& value, auto&& visit) {
    auto& [width, lines, ruling, descender] = value;
    visit(width, lines, ruling, descender);
  }
};
template <>
struct Members<compose::Plan> {
  static void of(Like<compose::Plan> auto& value, auto&& visit) {
    auto& [frame, layout, label_font, heading_font, leading, blank, blanks_beside, copy_beside,
           list_height] = value;
    visit(frame, layout, label_font, heading_font, leading, blank, blanks_beside, copy_beside,
          list_height);
  }
};

}  // namespace platewright
