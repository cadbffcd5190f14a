// Short ways to read a figure in a test.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "read/read.hpp"

namespace platewright::read {

inline std::string svg_of(const std::string& body,
                          const std::string& attributes = "viewBox=\"0 0 100 100\"") {
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" " + attributes + ">" + body + "</svg>";
}

inline const std::string paper = "<rect x=\"1\" y=\"1\" width=\"98\" height=\"98\" fill=\"#eda\"/>";

inline Result<Figure> read_svg(const std::string& svg, const std::vector<AddedAnchor>& added = {},
                               const Limits& limits = {}) {
  return figure(svg, "test.svg", added, limits);
}

inline std::string texts(const Findings& findings) {
  std::string all;
  for (const Finding& f : findings) all += to_text(f) + "\n";
  return all;
}

inline std::vector<std::string> codes(const Findings& findings) {
  std::vector<std::string> all;
  for (const Finding& f : findings) all.push_back(f.code);
  std::ranges::sort(all);
  return all;
}

// The one point of an anchor; fails the test when there is no such anchor.
inline FigurePoint point_of(const Result<Figure>& figure, const std::string& name) {
  if (!figure.ok()) {
    ADD_FAILURE() << texts(figure.findings());
    return {-1e9, -1e9};
  }
  const Anchor* anchor = figure->find(name);
  if (!anchor || anchor->points.empty()) {
    ADD_FAILURE() << "no anchor " << name;
    return {-1e9, -1e9};
  }
  return anchor->points.front().at;
}

inline void expect_near(FigurePoint p, double x, double y, double within) {
  EXPECT_NEAR(p.x, x, within);
  EXPECT_NEAR(p.y, y, within);
}

}  // namespace platewright::read
