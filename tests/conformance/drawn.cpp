#include "conformance/drawn.hpp"

#include <cairo.h>
#include <librsvg/rsvg.h>
#include <poppler.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>

#include "emit/emit.hpp"

namespace conformance {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)>;

Surface paper(int width, int height) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height), cairo_surface_destroy);
  cairo_t* cairo = cairo_create(surface.get());
  cairo_set_source_rgb(cairo, 1, 1, 1);
  cairo_paint(cairo);
  cairo_destroy(cairo);
  return surface;
}

Drawn pixels_of(cairo_surface_t* surface) {
  cairo_surface_flush(surface);
  Drawn drawn{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  for (int y = 0; y < drawn.height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(data + y * cairo_image_surface_get_stride(surface));
    for (int x = 0; x < drawn.width; ++x) drawn.rgb.push_back(row[x] & 0xFFFFFF);
  }
  return drawn;
}

int channel(std::uint32_t rgb, int shift) { return static_cast<int>(rgb >> shift & 255); }

}  // namespace

bool Drawn::blank() const {
  return std::all_of(rgb.begin(), rgb.end(), [](std::uint32_t p) { return p == 0xFFFFFF; });
}

std::optional<Drawn> by_librsvg(const std::string& svg, int width, int height, bool apart) {
  RsvgHandle* handle = rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()),
                                                 svg.size(), nullptr);
  if (handle == nullptr) return std::nullopt;
  rsvg_handle_set_dpi(handle, 96);
  const Surface surface = paper(width, height);
  cairo_t* cairo = cairo_create(surface.get());
  const RsvgRectangle all{0, 0, static_cast<double>(width), static_cast<double>(height)};
  if (apart) cairo_push_group(cairo);
  const bool good = rsvg_handle_render_document(handle, cairo, &all, nullptr) != FALSE;
  if (apart) {
    cairo_pop_group_to_source(cairo);
    cairo_paint(cairo);
  }
  cairo_destroy(cairo);
  g_object_unref(handle);
  if (!good) return std::nullopt;
  return pixels_of(surface.get());
}

std::optional<Drawn> by_poppler(const std::string& pdf, int width, int height) {
  GBytes* bytes = g_bytes_new_static(pdf.data(), pdf.size());
  PopplerDocument* document = poppler_document_new_from_bytes(bytes, nullptr, nullptr);
  g_bytes_unref(bytes);
  if (document == nullptr) return std::nullopt;
  PopplerPage* page = poppler_document_get_page(document, 0);
  const Surface surface = paper(width, height);
  cairo_t* cairo = cairo_create(surface.get());
  double wide = 1, high = 1;
  poppler_page_get_size(page, &wide, &high);
  cairo_scale(cairo, width / wide, height / high);
  poppler_page_render(page, cairo);
  cairo_destroy(cairo);
  g_object_unref(page);
  g_object_unref(document);
  return pixels_of(surface.get());
}

std::optional<Drawn> of_png(const std::string& png) {
  struct Left {
    const char* at;
    std::size_t size;
  } left{png.data(), png.size()};
  const Surface image(cairo_image_surface_create_from_png_stream(
                          [](void* from, unsigned char* to, unsigned count) {
                            auto& rest = *static_cast<Left*>(from);
                            if (rest.size < count) return CAIRO_STATUS_READ_ERROR;
                            std::copy_n(rest.at, count, to);
                            rest.at += count;
                            rest.size -= count;
                            return CAIRO_STATUS_SUCCESS;
                          },
                          &left),
                      cairo_surface_destroy);
  if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS) return std::nullopt;
  return pixels_of(image.get());
}

Outputs outputs_of(const platewright::Figure& figure, double pixels_a_unit) {
  using namespace platewright;
  const text::Typesetter typesetter;
  compose::Document document;
  document.title = "A figure";
  compose::Page& page = document.pages.emplace_back();
  page.title = "A figure";
  page.language = "en";
  page.width = figure.view_box.w;
  page.height = figure.view_box.h;
  compose::FigureItem item;
  item.transform = {1, {-figure.view_box.x, -figure.view_box.y}};
  page.items.push_back(item);
  emit::EmitContext context;
  context.typesetter = &typesetter;
  context.art.figure = &figure;
  context.png_dpi = 25.4 * pixels_a_unit;
  Outputs outputs;
  const auto take = [&](Result<std::string> made, std::string& to) {
    if (made.ok())
      to = std::move(*made);
    else
      outputs.fault += to_text(made.findings().front()) + "\n";
  };
  take(emit::png(document, 0, context), outputs.png);
  take(emit::svg(document, 0, context), outputs.svg);
  take(emit::pdf(document, context), outputs.pdf);
  return outputs;
}

double apart(const Drawn& a, const Drawn& b, int levels) {
  long count = 0;
  for (int y = 0; y < a.height; ++y)
    for (int x = 0; x < a.width; ++x)
      for (const int shift : {16, 8, 0}) {
        const int own = channel(a.rgb[static_cast<std::size_t>(y * a.width + x)], shift);
        int low = 255, high = 0;
        for (int v = std::max(0, y - 1); v <= std::min(b.height - 1, y + 1); ++v)
          for (int u = std::max(0, x - 1); u <= std::min(b.width - 1, x + 1); ++u) {
            const int other = channel(b.rgb[static_cast<std::size_t>(v * b.width + u)], shift);
            low = std::min(low, other), high = std::max(high, other);
          }
        if (own >= low - levels && own <= high + levels) continue;
        ++count;
        break;
      }
  return static_cast<double>(count) / static_cast<double>(a.rgb.size());
}

}  // namespace conformance
