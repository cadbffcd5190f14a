// Sets of the raster's pixels, and what pixels say.
#pragma once

#include <cstdint>
#include <vector>

#include "read/svg_drawing.hpp"

namespace platewright::read {

// 1 inside, 0 outside; the window lies inside the raster.
struct Mask {
  PixelBox window;
  std::vector<std::uint8_t> inside;
  std::size_t count() const;
  bool at(int x, int y) const {  // raster coordinates
    const int column = x - window.x, row = y - window.y;
    if (column < 0 || row < 0 || column >= window.w || row >= window.h) return false;
    return inside[static_cast<std::size_t>(row) * static_cast<std::size_t>(window.w) +
                  static_cast<std::size_t>(column)] != 0;
  }
};

// A channel (0, 8, 16: blue, green, red) of a premultiplied pixel on white paper, 0..255.
constexpr int on_white(std::uint32_t argb, int shift) {
  const std::uint32_t channel = (argb >> shift & 0xff) + 255 - (argb >> 24);
  return channel < 255 ? static_cast<int>(channel) : 255;
}
// Whether a pixel prints as nothing, or as good as.
constexpr bool prints_nothing(std::uint32_t argb) {
  constexpr int near_white = 250;
  return on_white(argb, 0) >= near_white && on_white(argb, 8) >= near_white &&
         on_white(argb, 16) >= near_white;
}

// Whether a pixel is painted enough to belong to what painted it; less is the
// soft rim of an edge.
bool is_paint(std::uint32_t argb);
// On white paper: whether two pixels are seen to differ, and how far a pixel is
// from a colour in its farthest channel (0..255).
bool differs(std::uint32_t a, std::uint32_t b);
int apart(std::uint32_t pixel, std::uint32_t colour);

Mask painted(const Pixels& pixels, const PixelBox& window);
// Only the part of the window that has something inside; empty when nothing has.
Mask trimmed_to_content(const Mask& mask);
Mask joined(const Mask& a, const Mask& b);

}  // namespace platewright::read
