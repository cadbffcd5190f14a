// Where type shows ink on a composed page, read from its drawing items.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "compose/page.hpp"

namespace platewright {

// Where a line of type shows ink, in mm on the page, through turned groups too.
struct Ink {
  std::string text;
  PageBox box;
};

inline void collect(const std::vector<compose::Item>& items,
             const std::function<PagePoint(PagePoint)>& turned, std::vector<Ink>& found) {
  for (const compose::Item& item : items) {
    if (const auto* text = std::get_if<compose::TextItem>(&item)) {
      const text::Line& l = text->line;
      const PagePoint a = turned({text->at.x + l.ink_left, text->at.y - l.ink_top});
      const PagePoint b = turned({text->at.x + l.ink_right, text->at.y - l.ink_bottom});
      found.push_back({l.text, {std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x),
                                std::abs(a.y - b.y)}});
    } else if (const auto* group = std::get_if<compose::Group>(&item)) {
      const double angle = group->turn * 3.14159265358979323846 / 180;
      const PagePoint pivot = group->pivot;
      collect(group->items,
              [&, angle, pivot](PagePoint p) {
                const double x = p.x - pivot.x, y = p.y - pivot.y;
                return turned({pivot.x + x * std::cos(angle) - y * std::sin(angle),
                               pivot.y + x * std::sin(angle) + y * std::cos(angle)});
              },
              found);
    }
  }
}

inline std::vector<Ink> ink_of(const compose::Page& page) {
  std::vector<Ink> found;
  collect(page.items, [](PagePoint p) { return p; }, found);
  return found;
}

}  // namespace platewright
