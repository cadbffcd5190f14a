#include "read/svg_drawing.hpp"

#include <cairo-pdf.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <cmath>

namespace platewright::read {
namespace {

struct DestroySurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct DestroyContext {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
struct FreeError {
  void operator()(GError* error) const { g_error_free(error); }
};
struct UnrefObject {
  void operator()(void* object) const { g_object_unref(object); }
};
using Surface = std::unique_ptr<cairo_surface_t, DestroySurface>;
using Context = std::unique_ptr<cairo_t, DestroyContext>;

// Geometry is asked for at this size, since cairo's paths lie on 256ths of a pixel.
constexpr double geometry_side = 4096;

FigureBox to_figure(const RsvgRectangle& r, const FigureBox& view, double scale) {
  return {view.x + r.x / scale, view.y + r.y / scale, r.width / scale, r.height / scale};
}

bool sane(const RsvgRectangle& r) {
  return std::isfinite(r.x) && std::isfinite(r.y) && std::isfinite(r.width) &&
         std::isfinite(r.height) && (r.width > 0 || r.height > 0);
}

}  // namespace

PixelBox RasterFrame::pixels(const FigureBox& box, int margin) const {
  const auto clip = [](double value, int most) {
    return static_cast<int>(std::clamp(value, 0.0, static_cast<double>(most)));
  };
  const int left = clip(std::floor((box.x - view.x) * scale) - margin, width);
  const int top = clip(std::floor((box.y - view.y) * scale) - margin, height);
  const int right = clip(std::ceil((box.right() - view.x) * scale) + margin, width);
  const int bottom = clip(std::ceil((box.bottom() - view.y) * scale) + margin, height);
  return {left, top, std::max(0, right - left), std::max(0, bottom - top)};
}

RasterFrame raster_frame(const FigureBox& view, int side) {
  RasterFrame frame;
  frame.view = view;
  frame.scale = side / std::max(view.w, view.h);
  frame.width = std::max(1, static_cast<int>(std::ceil(view.w * frame.scale - 1e-6)));
  frame.height = std::max(1, static_cast<int>(std::ceil(view.h * frame.scale - 1e-6)));
  return frame;
}

void Drawing::Unref::operator()(void* object) const { g_object_unref(object); }

std::optional<Drawing> Drawing::load(const std::string& svg, const std::string& rules,
                                     std::string& why) {
  Drawing drawing;
  drawing.svg_ = svg;
  GError* raw = nullptr;
  const std::unique_ptr<GInputStream, UnrefObject> stream(g_memory_input_stream_new_from_data(
      drawing.svg_.data(), static_cast<gssize>(drawing.svg_.size()), nullptr));
  drawing.handle_.reset(rsvg_handle_new_from_stream_sync(
      stream.get(), nullptr, RSVG_HANDLE_FLAG_UNLIMITED, nullptr, &raw));
  const std::unique_ptr<GError, FreeError> failure(raw);
  if (!drawing.handle_) {
    why = failure && failure->message ? failure->message : "unknown reason";
    return std::nullopt;
  }
  auto* handle = static_cast<RsvgHandle*>(drawing.handle_.get());
  rsvg_handle_set_dpi(handle, 96);
  if (!rules.empty()) drawing.restyle(rules);
  return drawing;
}

void Drawing::restyle(const std::string& rules) {
  GError* unread = nullptr;
  rsvg_handle_set_stylesheet(static_cast<RsvgHandle*>(handle_.get()),
                             reinterpret_cast<const guint8*>(rules.data()), rules.size(), &unread);
  const std::unique_ptr<GError, FreeError> failure(unread);
}

std::optional<Geometry> Drawing::geometry(const std::string& id, const FigureBox& view) const {
  const double scale = geometry_side / std::max(view.w, view.h);
  const RsvgRectangle viewport{0, 0, view.w * scale, view.h * scale};
  RsvgRectangle ink{}, logical{};
  GError* raw = nullptr;
  const std::string name = "#" + id;
  const bool known =
      rsvg_handle_get_geometry_for_layer(static_cast<RsvgHandle*>(handle_.get()), name.c_str(),
                                         &viewport, &ink, &logical, &raw) != 0;
  const std::unique_ptr<GError, FreeError> failure(raw);
  if (!known || !sane(logical)) return std::nullopt;
  if (!sane(ink)) ink = logical;
  return Geometry{to_figure(ink, view, scale), to_figure(logical, view, scale)};
}

std::optional<FigureBox> Drawing::ink_without_view() const {
  const Surface surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr));
  const Context context(cairo_create(surface.get()));
  // Without a viewBox the viewport only decides what percentages mean.
  const RsvgRectangle viewport{0, 0, 1000, 1000};
  GError* raw = nullptr;
  const bool drawn = rsvg_handle_render_layer(static_cast<RsvgHandle*>(handle_.get()),
                                              context.get(), nullptr, &viewport, &raw) != 0;
  const std::unique_ptr<GError, FreeError> failure(raw);
  if (!drawn) return std::nullopt;
  RsvgRectangle ink{};
  cairo_recording_surface_ink_extents(surface.get(), &ink.x, &ink.y, &ink.width, &ink.height);
  if (!sane(ink)) return std::nullopt;
  return FigureBox{ink.x, ink.y, ink.width, ink.height};
}

bool Drawing::render(const RasterFrame& frame, const PixelBox& window, const std::string& id,
                     const std::vector<PixelBox>& only, Pixels& pixels) const {
  pixels.width = window.w;
  pixels.height = window.h;
  pixels.argb.assign(static_cast<std::size_t>(window.w) * static_cast<std::size_t>(window.h), 0);
  if (window.w == 0 || window.h == 0) return true;
  const Surface surface(
      cairo_image_surface_create_for_data(reinterpret_cast<unsigned char*>(pixels.argb.data()),
                                          CAIRO_FORMAT_ARGB32, window.w, window.h, window.w * 4));
  const Context context(cairo_create(surface.get()));
  for (const PixelBox& box : only)
    cairo_rectangle(context.get(), box.x - window.x, box.y - window.y, box.w, box.h);
  if (!only.empty()) cairo_clip(context.get());
  const RsvgRectangle viewport{static_cast<double>(-window.x), static_cast<double>(-window.y),
                               frame.view.w * frame.scale, frame.view.h * frame.scale};
  const std::string name = "#" + id;
  GError* raw = nullptr;
  const bool drawn =
      rsvg_handle_render_layer(static_cast<RsvgHandle*>(handle_.get()), context.get(),
                               id.empty() ? nullptr : name.c_str(), &viewport, &raw) != 0;
  const std::unique_ptr<GError, FreeError> failure(raw);
  cairo_surface_flush(surface.get());
  return drawn;
}

std::optional<std::string> Drawing::pdf(double width, double height) const {
  std::string bytes;
  const auto write = [](void* to, const unsigned char* data, unsigned size) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
    return CAIRO_STATUS_SUCCESS;
  };
  const Surface surface(cairo_pdf_surface_create_for_stream(write, &bytes, width, height));
  const Context context(cairo_create(surface.get()));
  const RsvgRectangle viewport{0, 0, width, height};
  GError* raw = nullptr;
  const bool drawn = rsvg_handle_render_layer(static_cast<RsvgHandle*>(handle_.get()),
                                              context.get(), nullptr, &viewport, &raw) != 0;
  const std::unique_ptr<GError, FreeError> failure(raw);
  cairo_surface_finish(surface.get());
  if (!drawn || cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return std::nullopt;
  return bytes;
}

bool Drawing::paints(const std::string& id, const FigureBox& view) const {
  const Surface surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr));
  const Context context(cairo_create(surface.get()));
  const double scale = 1000 / std::max(view.w, view.h);
  const RsvgRectangle viewport{0, 0, view.w * scale, view.h * scale};
  const std::string name = "#" + id;
  GError* raw = nullptr;
  rsvg_handle_render_layer(static_cast<RsvgHandle*>(handle_.get()), context.get(), name.c_str(),
                           &viewport, &raw);
  const std::unique_ptr<GError, FreeError> failure(raw);
  RsvgRectangle ink{};
  cairo_recording_surface_ink_extents(surface.get(), &ink.x, &ink.y, &ink.width, &ink.height);
  return ink.width > 0 && ink.height > 0;
}

}  // namespace platewright::read
