#include "read/region_pixels.hpp"

#include <algorithm>
#include <cstdlib>

namespace platewright::read {
namespace {

constexpr std::uint32_t least_paint = 24;  // of 255
constexpr int least_change = 12;           // of a channel

std::uint32_t channel(std::uint32_t argb, int shift) { return argb >> shift & 0xff; }

}  // namespace

std::size_t Mask::count() const {
  return static_cast<std::size_t>(std::count(inside.begin(), inside.end(), std::uint8_t{1}));
}

bool is_paint(std::uint32_t argb) { return channel(argb, 24) >= least_paint; }

bool differs(std::uint32_t a, std::uint32_t b) {
  if (a == b) return false;
  for (const int shift : {0, 8, 16})
    if (std::abs(on_white(a, shift) - on_white(b, shift)) >= least_change) return true;
  return false;
}

int apart(std::uint32_t pixel, std::uint32_t colour) {
  int most = 0;
  for (const int shift : {0, 8, 16})
    most =
        std::max(most, std::abs(on_white(pixel, shift) - static_cast<int>(channel(colour, shift))));
  return most;
}

Mask painted(const Pixels& pixels, const PixelBox& window) {
  Mask mask{window, {}};
  mask.inside.resize(pixels.argb.size());
  for (std::size_t i = 0; i < pixels.argb.size(); ++i)
    mask.inside[i] = is_paint(pixels.argb[i]) ? 1 : 0;
  return mask;
}

Mask trimmed_to_content(const Mask& mask) {
  const auto wide = static_cast<std::ptrdiff_t>(mask.window.w);
  int left = mask.window.w, right = -1, top = mask.window.h, bottom = -1;
  for (int y = 0; y < mask.window.h; ++y) {
    const auto row = mask.inside.begin() + y * wide, end = row + wide;
    const auto first = std::find(row, end, std::uint8_t{1});
    if (first == end) continue;
    auto last = end;
    while (*(last - 1) == 0) --last;
    left = std::min(left, static_cast<int>(first - row));
    right = std::max(right, static_cast<int>(last - row) - 1);
    top = std::min(top, y);
    bottom = y;
  }
  Mask small;
  if (right < 0) return small;
  small.window = {mask.window.x + left, mask.window.y + top, right - left + 1, bottom - top + 1};
  small.inside.reserve(static_cast<std::size_t>(small.window.w) *
                       static_cast<std::size_t>(small.window.h));
  for (int y = top; y <= bottom; ++y) {
    const auto row = mask.inside.begin() + y * wide;
    small.inside.insert(small.inside.end(), row + left, row + right + 1);
  }
  return small;
}

Mask joined(const Mask& a, const Mask& b) {
  if (a.inside.empty()) return b;
  if (b.inside.empty()) return a;
  Mask both;
  const int x = std::min(a.window.x, b.window.x), y = std::min(a.window.y, b.window.y);
  both.window = {x, y, std::max(a.window.x + a.window.w, b.window.x + b.window.w) - x,
                 std::max(a.window.y + a.window.h, b.window.y + b.window.h) - y};
  both.inside.reserve(static_cast<std::size_t>(both.window.w) *
                      static_cast<std::size_t>(both.window.h));
  for (int row = 0; row < both.window.h; ++row)
    for (int column = 0; column < both.window.w; ++column)
      both.inside.push_back(a.at(x + column, y + row) || b.at(x + column, y + row) ? 1 : 0);
  return both;
}

}  // namespace platewright::read
