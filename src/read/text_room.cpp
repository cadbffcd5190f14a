#include "read/text_room.hpp"

#include <algorithm>
#include <cmath>

#include "platewright/colour.hpp"
#include "read/region_pixels.hpp"

namespace platewright::read {
namespace {

// Steps of luminance within two pixels that still count as calm: a soft shade does, a
// line does not.
constexpr double calm = 0.09;
constexpr int reach = 2;

double light(std::uint32_t argb) {
  const auto channel = [&](int shift) { return static_cast<std::uint8_t>(on_white(argb, shift)); };
  return luminance(Colour{channel(16), channel(8), channel(0)});
}

}  // namespace

FigureGrid text_room(const Mask& mask, const Pixels& pixels, const RasterFrame& frame) {
  FigureGrid room;
  const PixelBox& window = mask.window;
  const FigurePoint corner = frame.to_figure(window.x, window.y);
  room.cell = 1.0 / frame.scale;
  room.columns = std::max(0, window.w);
  room.rows = std::max(0, window.h);
  room.box = {corner.x, corner.y, room.columns * room.cell, room.rows * room.cell};
  const auto at = [&](int x, int y) {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(room.columns) +
           static_cast<std::size_t>(x);
  };
  room.values.assign(static_cast<std::size_t>(room.columns) * static_cast<std::size_t>(room.rows),
                     0);
  std::vector<double> lights(room.values.size(), 1.0);
  for (int y = 0; y < room.rows; ++y)
    for (int x = 0; x < room.columns; ++x)
      if (window.x + x < pixels.width && window.y + y < pixels.height)
        lights[at(x, y)] = light(pixels.at(window.x + x, window.y + y));
  // The darkest and the lightest within two pixels: first along rows, then down columns.
  std::vector<double> dark(lights.size()), bright(lights.size());
  for (int y = 0; y < room.rows; ++y)
    for (int x = 0; x < room.columns; ++x) {
      double low = 1, high = 0;
      for (int i = std::max(0, x - reach); i <= std::min(room.columns - 1, x + reach); ++i) {
        low = std::min(low, lights[at(i, y)]);
        high = std::max(high, lights[at(i, y)]);
      }
      dark[at(x, y)] = low;
      bright[at(x, y)] = high;
    }
  for (int y = 0; y < room.rows; ++y)
    for (int x = 0; x < room.columns; ++x) {
      if (!mask.at(window.x + x, window.y + y)) continue;
      double low = 1, high = 0;
      for (int j = std::max(0, y - reach); j <= std::min(room.rows - 1, y + reach); ++j) {
        low = std::min(low, dark[at(x, j)]);
        high = std::max(high, bright[at(x, j)]);
      }
      if (high - low <= calm)
        room.values[at(x, y)] = static_cast<std::uint8_t>(1 + std::floor(254 * low));
    }
  return room;
}

}  // namespace platewright::read
