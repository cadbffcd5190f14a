#include "golden/picture.hpp"

#include <cairo.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>

namespace golden {
namespace {

bool differ(std::uint32_t a, std::uint32_t b) {
  for (const int shift : {0, 8, 16}) {
    const int x = static_cast<int>(a >> shift & 0xFF), y = static_cast<int>(b >> shift & 0xFF);
    if (std::abs(x - y) > tolerated_levels) return true;
  }
  return false;
}

// The pixel at (x, y), grey outside.
std::uint32_t pixel(const Picture& picture, int x, int y) {
  if (x >= picture.width || y >= picture.height) return 0x808080;
  return picture.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                        static_cast<std::size_t>(x)];
}

}  // namespace

Picture read_png(const std::string& file) {
  Picture picture;
  cairo_surface_t* png = cairo_image_surface_create_from_png(file.c_str());
  if (cairo_surface_status(png) == CAIRO_STATUS_SUCCESS) {
    picture.width = cairo_image_surface_get_width(png);
    picture.height = cairo_image_surface_get_height(png);
    // On white, whatever its format.
    cairo_surface_t* flat =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height);
    cairo_t* cairo = cairo_create(flat);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_set_source_surface(cairo, png, 0, 0);
    cairo_paint(cairo);
    cairo_destroy(cairo);
    cairo_surface_flush(flat);
    const auto width = static_cast<std::size_t>(picture.width);
    picture.pixels.resize(width * static_cast<std::size_t>(picture.height));
    for (int y = 0; y < picture.height; ++y)
      std::memcpy(&picture.pixels[static_cast<std::size_t>(y) * width],
                  cairo_image_surface_get_data(flat) + y * cairo_image_surface_get_stride(flat),
                  width * 4);
    for (std::uint32_t& p : picture.pixels) p &= 0xFFFFFF;
    cairo_surface_destroy(flat);
  }
  cairo_surface_destroy(png);
  return picture;
}

void write_png(const Picture& picture, const std::string& file) {
  cairo_surface_t* surface =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height);
  cairo_surface_flush(surface);
  for (int y = 0; y < picture.height; ++y)
    std::memcpy(cairo_image_surface_get_data(surface) +
                    y * cairo_image_surface_get_stride(surface),
                &picture.pixels[static_cast<std::size_t>(y) *
                                static_cast<std::size_t>(picture.width)],
                static_cast<std::size_t>(picture.width) * 4);
  cairo_surface_mark_dirty(surface);
  cairo_surface_write_to_png(surface, file.c_str());
  cairo_surface_destroy(surface);
}

double share_that_differs(const Picture& expected, const Picture& actual) {
  if (expected.width != actual.width || expected.height != actual.height ||
      expected.pixels.empty())
    return 1;
  std::size_t count = 0;
  for (std::size_t i = 0; i < expected.pixels.size(); ++i)
    count += differ(expected.pixels[i], actual.pixels[i]);
  return static_cast<double>(count) / static_cast<double>(expected.pixels.size());
}

Picture side_by_side(const Picture& expected, const Picture& actual) {
  const int width = std::max(expected.width, actual.width), gap = 8;
  Picture all;
  all.width = 3 * width + 2 * gap;
  all.height = std::max(expected.height, actual.height);
  all.pixels.reserve(static_cast<std::size_t>(all.width) * static_cast<std::size_t>(all.height));
  for (int y = 0; y < all.height; ++y)
    for (int x = 0; x < all.width; ++x) {
      const int column = x / (width + gap), at = x % (width + gap);
      const std::uint32_t left = pixel(expected, at, y), right = pixel(actual, at, y);
      all.pixels.push_back(at >= width    ? 0x808080
                           : column == 0  ? left
                           : column == 2  ? right
                           : differ(left, right) ? 0
                                                 : 0xFFFFFF);
    }
  return all;
}

}  // namespace golden
