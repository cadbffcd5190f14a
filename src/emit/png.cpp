// One page as a PNG: drawn by Cairo on white, with its resolution in a pHYs
// chunk (PNG specification, 11.3.5.3).
#include <cairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include "base/number.hpp"
#include "emit/art.hpp"
#include "emit/canvas.hpp"
#include "emit/check.hpp"

namespace platewright::emit {
namespace {

constexpr double most_pixels = 150e6;  // 600 MB while drawing
constexpr double most_pixels_a_side = 32'000;  // Cairo's own limit is 32,767

// CRC-32 of ISO 3309, as PNG's annex D computes it.
std::uint32_t crc(std::string_view bytes) {
  std::uint32_t value = 0xFFFFFFFFu;
  for (const char byte : bytes) {
    value ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) value = (value >> 1) ^ (value & 1 ? 0xEDB88320u : 0u);
  }
  return ~value;
}

void append_big_endian(std::string& to, std::uint32_t value) {
  for (const int shift : {24, 16, 8, 0}) to += static_cast<char>(value >> shift & 0xFF);
}

// After the signature (8 bytes) and IHDR (25 bytes).
void insert_resolution(std::string& png, double dpi) {
  const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
  std::string body = "pHYs";
  append_big_endian(body, per_metre);
  append_big_endian(body, per_metre);
  body += '\x01';
  std::string chunk;
  append_big_endian(chunk, static_cast<std::uint32_t>(body.size() - 4));
  chunk += body;
  append_big_endian(chunk, crc(body));
  png.insert(33, chunk);
}

}  // namespace

Result<std::string> png(const compose::Document& document, std::size_t number,
                        const EmitContext& context) {
  Findings findings = check(document, number);
  if (has_error(findings)) return findings;
  const compose::Page& page = document.pages[number];
  const double around = surround(page), dpi = context.png_dpi;
  const double wide = (page.width + 2 * around) / 25.4, high = (page.height + 2 * around) / 25.4;
  if (!std::isfinite(dpi) || dpi < 1)
    return error("png-resolution", {}, "a resolution below 1 dpi draws nothing",
                 "ask for 72 to 600 dpi");
  const double columns = std::max(1.0, std::round(wide * dpi));
  const double rows = std::max(1.0, std::round(high * dpi));
  if (columns > most_pixels_a_side || rows > most_pixels_a_side || columns * rows > most_pixels) {
    const double fits = std::floor(std::min(most_pixels_a_side / std::max(wide, high),
                                            std::sqrt(most_pixels / (wide * high))));
    return error("png-large", {},
                 "a page of " + format_number(page.width, 1) + " by " +
                     format_number(page.height, 1) + " mm at " + format_number(dpi, 1) +
                     " dpi has " + format_number(columns * rows / 1e6, 0) + " million pixels, " +
                     "more than " + format_number(most_pixels / 1e6, 0) + " million or " +
                     format_number(most_pixels_a_side, 0) + " a side",
                 "ask for " + format_number(fits, 0) + " dpi or less, or for a PDF");
  }

  const text::Handle<cairo_surface_t, cairo_surface_destroy> surface(cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, static_cast<int>(columns), static_cast<int>(rows)));
  const text::Handle<cairo_t, cairo_destroy> cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), dpi / 25.4, dpi / 25.4);
  cairo_translate(cairo.get(), around, around);

  ArtLibrary art(context.art, false);
  Canvas canvas;
  canvas.cairo = cairo.get();
  canvas.typesetter = context.typesetter;
  canvas.selectable = false;
  canvas.draw_figure = [&](const compose::FigureItem& item) {
    if (const auto fault = art.draw(cairo.get(), item)) findings.push_back(*fault);
  };
  draw(canvas, page.items);

  std::string bytes;
  cairo_status_t status = cairo_status(cairo.get());
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream(surface.get(), append_bytes, &bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    findings.push_back(error("png-failed", {},
                             "page " + std::to_string(number + 1) +
                                 " can't be drawn: " + cairo_status_to_string(status)));
  if (has_error(findings)) return sorted(std::move(findings));
  insert_resolution(bytes, dpi);
  return bytes;
}

}  // namespace platewright::emit
