// Every member of a figure as read, of what it is read by and of what was found.
#pragma once

#include "engine/exact.hpp"
#include "engine/layout_members.hpp"
#include "platewright/figure.hpp"
#include "platewright/figure_version.hpp"

namespace platewright {

template <>
struct Members<SourcePosition> {
  static void of(Like<SourcePosition> auto& value, auto&& visit) {
    auto& [file, line, column] = value;
    visit(file, line, column);
  }
};
template <>
struct Members<FindingNote> {
  static void of(Like<FindingNote> auto& value, auto&& visit) {
    auto& [at, message] = value;
    visit(at, message);
  }
};
template <>
struct Members<Finding> {
  static void of(Like<Finding> auto& value, auto&& visit) {
    auto& [severity, code, message, advice, at, notes] = value;
    visit(severity, code, message, advice, at, notes);
  }
};

template <>
struct Members<FigureGrid> {
  static void of(Like<FigureGrid> auto& value, auto&& visit) {
    auto& [box, cell, columns, rows, values] = value;
    visit(box, cell, columns, rows, values);
  }
};
template <>
struct Members<AnchorPoint> {
  static void of(Like<AnchorPoint> auto& value, auto&& visit) {
    auto& [at, penalty, clearance] = value;
    visit(at, penalty, clearance);
  }
};
template <>
struct Members<Anchor> {
  static void of(Like<Anchor> auto& value, auto&& visit) {
    auto& [name, kind, points, box, on_outline, declared, text_room, element_id] = value;
    visit(name, kind, points, box, on_outline, declared, text_room, element_id);
  }
};
template <>
struct Members<Figure> {
  static void of(Like<Figure> auto& value, auto&& visit) {
    auto& [name, title, description, svg, view_box, painted, silhouette, detail, anchors, insets,
           hidden] = value;
    visit(name, title, description, svg, view_box, painted, silhouette, detail, anchors, insets,
          hidden);
  }
};

template <>
struct Members<AddedAnchor> {
  static void of(Like<AddedAnchor> auto& value, auto&& visit) {
    auto& [name, at, region, declared] = value;
    visit(name, at, region, declared);
  }
};
template <>
struct Members<TextBySet> {
  static void of(Like<TextBySet> auto& value, auto&& visit) {
    auto& [everywhere, by] = value;
    visit(everywhere, by);
  }
};
template <>
struct Members<NamedAt> {
  static void of(Like<NamedAt> auto& value, auto&& visit) {
    auto& [name, at] = value;
    visit(name, at);
  }
};
template <>
struct Members<Colour> {
  static void of(Like<Colour> auto& value, auto&& visit) {
    auto& [red, green, blue] = value;
    visit(red, green, blue);
  }
};
template <>
struct Members<FigureVersion> {
  static void of(Like<FigureVersion> auto& value, auto&& visit) {
    auto& [name, title, show, hide, tints, ink_saving, declared] = value;
    visit(name, title, show, hide, tints, ink_saving, declared);
  }
};

}  // namespace platewright
