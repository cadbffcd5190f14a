#include "read/text_room.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "platewright/colour.hpp"
#include "read/region_pixels.hpp"

namespace platewright::read {
namespace {

// Steps of luminance within two pixels that still count as calm: a soft shade does, a
// line does not.
constexpr double calm = 0.09;
constexpr std::size_t reach = 2;

// Luminance of pixels on white paper: a sum of what each channel gives by itself.
class Light {
 public:
  Light() {
    for (std::size_t k = 0; k < 256; ++k) {
      const auto value = static_cast<std::uint8_t>(k);
      red_[k] = luminance(Colour{value, 0, 0});
      green_[k] = luminance(Colour{0, value, 0});
      blue_[k] = luminance(Colour{0, 0, value});
    }
  }
  double operator()(std::uint32_t argb) const {
    const auto channel = [&](int shift) { return static_cast<std::size_t>(on_white(argb, shift)); };
    return red_[channel(16)] + green_[channel(8)] + blue_[channel(0)];
  }

 private:
  std::array<double, 256> red_, green_, blue_;
};

// Takes `count` values into the least and the most so far.
void widen(const double* least, const double* most, std::size_t count, double* low, double* high) {
  for (std::size_t i = 0; i < count; ++i) {
    low[i] = least[i] < low[i] ? least[i] : low[i];
    high[i] = most[i] > high[i] ? most[i] : high[i];
  }
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
  const auto wide = static_cast<std::size_t>(room.columns),
             high = static_cast<std::size_t>(room.rows);
  room.values.assign(wide * high, 0);
  if (room.values.empty()) return room;
  static const Light light;
  const std::size_t seen_x =
      std::min(wide, static_cast<std::size_t>(std::max(0, pixels.width - window.x)));
  const std::size_t seen_y =
      std::min(high, static_cast<std::size_t>(std::max(0, pixels.height - window.y)));
  // The darkest and the lightest within two pixels: first along each row, of which only those
  // within reach are kept, then down the columns.
  constexpr std::size_t kept = 2 * reach + 1;
  std::vector<double> lights(wide), dark(kept * wide), bright(kept * wide);
  const auto read_row = [&](std::size_t y) {
    std::fill(lights.begin(), lights.end(), 1.0);
    if (y < seen_y) {
      const std::uint32_t* row = &pixels.argb[(static_cast<std::size_t>(window.y) + y) *
                                                  static_cast<std::size_t>(pixels.width) +
                                              static_cast<std::size_t>(window.x)];
      for (std::size_t x = 0; x < seen_x; ++x)
        lights[x] = x > 0 && row[x] == row[x - 1] ? lights[x - 1] : light(row[x]);
    }
    double *low = &dark[y % kept * wide], *most = &bright[y % kept * wide];
    std::copy(lights.begin(), lights.end(), low);
    std::copy(lights.begin(), lights.end(), most);
    for (std::size_t d = 1; d <= std::min(reach, wide - 1); ++d) {
      widen(&lights[d], &lights[d], wide - d, low, most);
      widen(lights.data(), lights.data(), wide - d, low + d, most + d);
    }
  };
  std::vector<double> darkest(wide), brightest(wide);
  for (std::size_t y = 0, next = 0; y < high; ++y) {
    for (; next < high && next <= y + reach; ++next) read_row(next);
    std::fill(darkest.begin(), darkest.end(), 1.0);
    std::fill(brightest.begin(), brightest.end(), 0.0);
    for (std::size_t j = y - std::min(y, reach); j <= std::min(high - 1, y + reach); ++j)
      widen(&dark[j % kept * wide], &bright[j % kept * wide], wide, darkest.data(),
            brightest.data());
    for (std::size_t x = 0; x < wide; ++x)
      if (mask.inside[y * wide + x] != 0 && brightest[x] - darkest[x] <= calm)
        room.values[y * wide + x] = static_cast<std::uint8_t>(1 + std::floor(254 * darkest[x]));
  }
  return room;
}

}  // namespace platewright::read
