// Pictures compared by pixels, with a tolerance: type and curves may be drawn a
// little otherwise by another version of a library, not stand somewhere else.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace golden {

// 24 bits a pixel in the lower bytes, row by row.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;
};

Picture read_png(const std::string& file);  // no pixels: not there, or not a PNG
void write_png(const Picture& picture, const std::string& file);

// What may differ: channels by so many levels without counting, and so large a
// share of the pixels that count.
constexpr int tolerated_levels = 48;
constexpr double tolerated_share = 0.0005;

// Share of pixels that differ in a channel by more than `tolerated_levels`; 1 where the sizes do.
double share_that_differs(const Picture& expected, const Picture& actual);

// Expected, difference (black where they differ) and actual, side by side.
Picture side_by_side(const Picture& expected, const Picture& actual);

}  // namespace golden
