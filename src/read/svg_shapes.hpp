// Which elements draw a shape (SVG 2, section 10).
#pragma once

#include <string_view>

namespace platewright::read {

inline bool is_shape(std::string_view name) {
  for (const std::string_view kind :
       {"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
    if (name == kind) return true;
  return false;
}

}  // namespace platewright::read
