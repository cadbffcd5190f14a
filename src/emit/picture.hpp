// Pixels as a PNG picture.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace platewright::emit {

// `rgb` is 0xRRGGBB, row by row; empty when Cairo can't.
std::string png_picture(int width, int height, const std::vector<std::uint32_t>& rgb);

}  // namespace platewright::emit
