// Where a picture is not white, for tests that compare what is seen.
#pragma once

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright::emit {

struct Picture {
  int columns = 0, rows = 0;
  std::vector<unsigned char> grey;  // 0 black .. 255 white, by the darkest channel
  std::vector<unsigned> pixels;     // 0xRRGGBB
  int at(int c, int r) const {
    return grey[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns) +
                static_cast<std::size_t>(c)];
  }
};

inline std::optional<Picture> picture(const std::string& path) {
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
      cairo_image_surface_create_from_png(path.c_str()), cairo_surface_destroy);
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return std::nullopt;
  Picture result;
  result.columns = cairo_image_surface_get_width(surface.get());
  result.rows = cairo_image_surface_get_height(surface.get());
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int r = 0; r < result.rows; ++r)
    for (int c = 0; c < result.columns; ++c) {
      unsigned pixel = 0;
      std::memcpy(&pixel, data + r * stride + c * 4, 4);
      const unsigned darkest = std::min({pixel >> 16 & 255, pixel >> 8 & 255, pixel & 255});
      result.grey.push_back(static_cast<unsigned char>(darkest));
      result.pixels.push_back(pixel & 0xFFFFFF);
    }
  return result;
}

// The box of what is darker than a half inside `window` (mm).
// The picture spans `wide` mm.
inline std::optional<PageBox> ink(const Picture& p, double wide, PageBox window) {
  const double mm = wide / p.columns;
  const int left = std::max(0, static_cast<int>(window.left() / mm));
  const int right = std::min(p.columns, static_cast<int>(window.right() / mm));
  const int top = std::max(0, static_cast<int>(window.top() / mm));
  const int bottom = std::min(p.rows, static_cast<int>(window.bottom() / mm));
  int x0 = p.columns, x1 = -1, y0 = p.rows, y1 = -1;
  for (int r = top; r < bottom; ++r)
    for (int c = left; c < right; ++c)
      if (p.at(c, r) < 128) {
        x0 = std::min(x0, c);
        x1 = std::max(x1, c);
        y0 = std::min(y0, r);
        y1 = std::max(y1, r);
      }
  if (x1 < 0) return std::nullopt;
  return PageBox{x0 * mm, y0 * mm, (x1 + 1 - x0) * mm, (y1 + 1 - y0) * mm};
}

}  // namespace platewright::emit
