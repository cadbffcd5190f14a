#include "emit/picture.hpp"

#include <cairo.h>

#include <cstring>

#include "text/handle.hpp"

namespace platewright::emit {

std::string png_picture(int width, int height, const std::vector<std::uint32_t>& rgb) {
  if (width < 1 || height < 1 ||
      rgb.size() != static_cast<std::size_t>(width) * static_cast<std::size_t>(height))
    return {};
  const text::Handle<cairo_surface_t, cairo_surface_destroy> surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return {};
  cairo_surface_flush(surface.get());
  unsigned char* data = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < height; ++y)
    std::memcpy(data + y * stride,
                rgb.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(width),
                static_cast<std::size_t>(width) * 4);
  cairo_surface_mark_dirty(surface.get());
  std::string bytes;
  const cairo_status_t status = cairo_surface_write_to_png_stream(
      surface.get(),
      [](void* to, const unsigned char* some, unsigned count) {
        static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(some), count);
        return CAIRO_STATUS_SUCCESS;
      },
      &bytes);
  return status == CAIRO_STATUS_SUCCESS ? bytes : std::string();
}

}  // namespace platewright::emit
