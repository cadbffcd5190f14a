#include "raster.hpp"

#include <cairo-pdf.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "support/process.hpp"

namespace true_size_test {
namespace {

constexpr double points_per_mm = 72 / 25.4;

RsvgHandle* handle_of(const std::string& svg) {
  GError* failure = nullptr;
  RsvgHandle* handle =
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &failure);
  if (!handle) throw std::runtime_error(failure->message);
  return handle;
}

}  // namespace

Grey page_of(const std::string& pdf, int page, double dpi, const std::string& scratch) {
  const std::string stem = scratch + "/page";
  const std::string number = std::to_string(page);
  const auto done = support::run({"pdftoppm", "-gray", "-r", std::to_string(dpi), "-f", number,
                                  "-l", number, "-singlefile", pdf, stem});
  if (done.code != 0) throw std::runtime_error(done.said());
  std::ifstream file(stem + ".pgm", std::ios::binary);
  std::string magic;
  int most = 0;
  Grey grey;
  file >> magic >> grey.width >> grey.height >> most;
  file.get();
  grey.values.resize(static_cast<std::size_t>(grey.width) * static_cast<std::size_t>(grey.height));
  file.read(reinterpret_cast<char*>(grey.values.data()),
            static_cast<std::streamsize>(grey.values.size()));
  if (magic != "P5" || !file)
    throw std::runtime_error("no picture of page " + number + " of " + pdf);
  return grey;
}

void draw_directly(const std::string& svg, const std::vector<DirectPage>& pages,
                   const std::string& pdf) {
  RsvgHandle* handle = handle_of(svg);
  cairo_surface_t* surface = cairo_pdf_surface_create(pdf.c_str(), 100, 100);
  cairo_t* cairo = cairo_create(surface);
  for (const DirectPage& page : pages) {
    cairo_pdf_surface_set_size(surface, page.width * points_per_mm, page.height * points_per_mm);
    cairo_save(cairo);
    cairo_scale(cairo, points_per_mm, points_per_mm);
    cairo_rectangle(cairo, page.clip.x, page.clip.y, page.clip.w, page.clip.h);
    cairo_clip(cairo);
    const RsvgRectangle viewport{page.at.x, page.at.y, page.at.w, page.at.h};
    GError* failure = nullptr;
    if (!rsvg_handle_render_document(handle, cairo, &viewport, &failure))
      throw std::runtime_error(failure->message);
    cairo_restore(cairo);
    cairo_show_page(cairo);
  }
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
  g_object_unref(handle);
}

Grey painted_by(const platewright::Figure& figure, const std::string& id, double per_unit) {
  RsvgHandle* handle = handle_of(figure.svg);
  const auto& view = figure.view_box;
  Grey grey;
  grey.width = static_cast<int>(std::ceil(view.w * per_unit));
  grey.height = static_cast<int>(std::ceil(view.h * per_unit));
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_A8, grey.width, grey.height);
  cairo_t* cairo = cairo_create(surface);
  const RsvgRectangle viewport{0, 0, view.w * per_unit, view.h * per_unit};
  GError* failure = nullptr;
  if (!rsvg_handle_render_layer(handle, cairo, ("#" + id).c_str(), &viewport, &failure))
    throw std::runtime_error(failure->message);
  cairo_surface_flush(surface);
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  grey.values.reserve(static_cast<std::size_t>(grey.width) * static_cast<std::size_t>(grey.height));
  for (int y = 0; y < grey.height; ++y)
    std::transform(data + y * stride, data + y * stride + grey.width,
                   std::back_inserter(grey.values),
                   [](unsigned char alpha) { return alpha >= 128 ? 0 : 255; });
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
  g_object_unref(handle);
  return grey;
}

}  // namespace true_size_test
