#include <cairo-pdf.h>

#include <algorithm>
#include <cmath>

#include "emit/art.hpp"
#include "emit/canvas.hpp"
#include "emit/pdf_parts.hpp"

namespace platewright::emit {
namespace {

constexpr double longest_side = 14'000;  // points; PDF allows 14,400
constexpr double most_filter_pixels =
    16e6;  // librsvg draws a filter on a surface of the page's size

void collect(const std::vector<compose::Item>& items, std::vector<compose::FigureItem>& to) {
  for (const compose::Item& item : items) {
    if (const auto* figure = std::get_if<compose::FigureItem>(&item)) to.push_back(*figure);
    if (const auto* group = std::get_if<compose::Group>(&item)) collect(group->items, to);
  }
}

bool needs_pixels(const std::string& svg) {
  return svg.find("filter") != std::string::npos || svg.find("mask") != std::string::npos;
}

}  // namespace

std::optional<std::size_t> find_art(const std::vector<SharedArt>& arts,
                                    const compose::FigureItem& item, const ArtSource& source) {
  const std::string* svg = document_of(item, source);
  for (std::size_t i = 0; i < arts.size(); ++i)
    if (arts[i].svg == svg && arts[i].item.tint == item.tint) return i;
  return std::nullopt;
}

std::vector<SharedArt> shared_art(const compose::Document& document, const ArtSource& source,
                                  Findings& findings) {
  std::vector<compose::FigureItem> items;
  for (const compose::Page& page : document.pages) collect(page.items, items);
  std::vector<SharedArt> arts;
  std::vector<double> scales;  // the largest on any page, points to the figure unit
  for (const compose::FigureItem& item : items) {
    const std::string* svg = document_of(item, source);
    if (svg == nullptr) {
      findings.push_back(art_missing(item, source));
      continue;
    }
    const double scale = item.transform.scale * points_per_mm;
    if (const auto known = find_art(arts, item, source)) {
      scales[*known] = std::max(scales[*known], scale);
      continue;
    }
    arts.push_back({item, svg, extent_of(*source.figure), 1, 1, 1});
    scales.push_back(scale);
  }
  for (std::size_t i = 0; i < arts.size(); ++i) lay_out(arts[i], scales[i], source);
  return arts;
}

void lay_out(SharedArt& art, double scale, const ArtSource& source) {
  if (needs_pixels(*art.svg))
    scale = std::min(scale * filter_dpi / 72,
                     std::max(scale, std::sqrt(most_filter_pixels / (art.box.w * art.box.h))));
  scale = std::min(scale, longest_side / std::max(art.box.w, art.box.h));
  art.points_per_unit = scale;
  const FigureBox& view = source.figure->view_box;
  const double right = art.box.right(), bottom = art.box.bottom();
  art.box.x = view.x - on_coordinate_step((view.x - art.box.x) * scale) / scale;
  art.box.y = view.y - on_coordinate_step((view.y - art.box.y) * scale) / scale;
  art.box.w = right - art.box.x;
  art.box.h = bottom - art.box.y;
  art.columns = std::max(3, static_cast<int>(std::ceil(art.box.w * scale)));
  art.rows = std::max(3, static_cast<int>(std::ceil(art.box.h * scale)));
}

double on_coordinate_step(double points) { return std::round(points * 256) / 256; }

Result<std::string> art_pdf(const SharedArt& art, const ArtSource& source) {
  std::string bytes;
  const text::Handle<cairo_surface_t, cairo_surface_destroy> surface(
      cairo_pdf_surface_create_for_stream(append_bytes, &bytes, art.columns, art.rows));
  const text::Handle<cairo_t, cairo_destroy> cairo(cairo_create(surface.get()));
  ArtLibrary library(source, true);
  const FigureBox& view = source.figure->view_box;
  const double s = art.points_per_unit;
  const auto fault =
      library.draw(cairo.get(), art.item,
                   {(view.x - art.box.x) * s, (view.y - art.box.y) * s, view.w * s, view.h * s});
  if (fault) return *fault;
  cairo_show_page(cairo.get());
  cairo_surface_finish(surface.get());
  const cairo_status_t status =
      cairo_status(cairo.get()) ? cairo_status(cairo.get()) : cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS)
    return error("pdf-failed", {source.figure->name, 0, 0},
                 std::string("the figure can't be drawn: ") + cairo_status_to_string(status));
  return bytes;
}

}  // namespace platewright::emit
