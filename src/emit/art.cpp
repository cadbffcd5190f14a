#include "emit/art.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

namespace platewright::emit {
namespace {

SourcePosition place(const ArtSource& source) {
  return {source.figure ? source.figure->name : std::string(), 0, 0};
}

// Takes over a GError.
std::string message(GError* failure) {
  const text::Handle<GError, g_error_free> owned(failure);
  return owned ? owned->message : "unknown fault";
}

}  // namespace

bool mixes(const std::string& svg) { return svg.find("mix-blend-mode") != std::string::npos; }

const std::string* document_of(const compose::FigureItem& item, const ArtSource& source) {
  if (source.figure == nullptr) return nullptr;
  if (item.part >= 0) {
    const auto part = static_cast<std::size_t>(item.part);
    return part < source.parts.size() ? &source.parts[part] : nullptr;
  }
  if (item.art == compose::Art::painted) return &source.figure->svg;
  // The engine keys outline art by its width in figure units; one rounding apart is the same.
  const double width = item.outline_width / item.transform.scale;
  const std::string* nearest = nullptr;
  double least = std::max(1e-9, 1e-6 * width);
  for (const auto& [key, document] : source.outlines) {
    const double off = std::abs(key - width);
    if (off <= least) least = off, nearest = &document;
  }
  return nearest;
}

Finding art_missing(const compose::FigureItem& item, const ArtSource& source) {
  return error("art-missing", place(source),
               item.art == compose::Art::painted ? "the page shows a figure that was not given"
                                                 : "the figure's outline art was not given for "
                                                   "the line width that the page asks for");
}

FigureBox extent_of(const Figure& figure) {
  const FigureBox& p = figure.painted;
  const bool usable = std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.w) &&
                      std::isfinite(p.h) && p.w > 0 && p.h > 0;
  const FigureBox box = usable ? united(figure.view_box, p) : figure.view_box;
  return box.grown(0.01 * std::max(box.w, box.h));
}

std::optional<Finding> ArtLibrary::draw(cairo_t* cairo, const compose::FigureItem& item) {
  if (source_.figure == nullptr) return art_missing(item, source_);
  cairo_save(cairo);
  if (item.clip) {
    cairo_rectangle(cairo, item.clip->x, item.clip->y, item.clip->w, item.clip->h);
    cairo_clip(cairo);
  }
  const PageBox at = item.transform(source_.figure->view_box);
  const std::optional<Finding> fault = draw(cairo, item, {at.x, at.y, at.w, at.h});
  cairo_restore(cairo);
  return fault;
}

std::optional<Finding> ArtLibrary::draw(cairo_t* cairo, const compose::FigureItem& item,
                                        const RsvgRectangle& viewport) {
  const std::string* svg = document_of(item, source_);
  if (svg == nullptr) return art_missing(item, source_);
  GError* failure = nullptr;
  Document& document = documents_[svg];
  if (!document) {
    const text::Handle<GInputStream, g_object_unref> stream(g_memory_input_stream_new_from_data(
        svg->data(), static_cast<gssize>(svg->size()), nullptr));
    const auto flags = static_cast<RsvgHandleFlags>(
        RSVG_HANDLE_FLAG_UNLIMITED | (keep_images_ ? RSVG_HANDLE_FLAG_KEEP_IMAGE_DATA : 0));
    document.reset(
        rsvg_handle_new_from_stream_sync(stream.get(), nullptr, flags, nullptr, &failure));
    if (!document)
      return error("art-unreadable", place(source_),
                   "the figure's art can't be read: " + message(failure));
    rsvg_handle_set_dpi(document.get(), 96);
  }
  // A figure is a picture of its own and mixes with no page (CSS Compositing and Blending 1, 3.2);
  // in a PDF its form is a group.
  const bool grouped =
      item.tint < 1 ||
      (mixes(*svg) && cairo_surface_get_type(cairo_get_target(cairo)) == CAIRO_SURFACE_TYPE_IMAGE);
  if (grouped) cairo_push_group(cairo);
  const bool drawn =
      rsvg_handle_render_document(document.get(), cairo, &viewport, &failure) == TRUE;
  if (grouped) {
    cairo_pop_group_to_source(cairo);
    cairo_paint_with_alpha(cairo, std::clamp(item.tint, 0.0, 1.0));
  }
  if (!drawn)
    return error("art-undrawable", place(source_),
                 "the figure's art can't be drawn: " + message(failure));
  return std::nullopt;
}

}  // namespace platewright::emit
