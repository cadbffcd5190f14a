// A PDF's texts, fonts, pictures and pixels by poppler.
#include <cairo.h>
#include <glib-object.h>
#include <poppler.h>

#include <cmath>
#include <memory>

#include "base/quote.hpp"
#include "read/finished.hpp"

namespace platewright::read {
namespace {

constexpr double mm = 25.4 / 72;  // in one point

template <typename T, auto Free>
struct Freed {
  void operator()(T* t) const { Free(t); }
};
template <typename T>
using Owned = std::unique_ptr<T, Freed<T, g_object_unref>>;
using Bytes = std::unique_ptr<GBytes, Freed<GBytes, g_bytes_unref>>;
using Surface = std::unique_ptr<cairo_surface_t, Freed<cairo_surface_t, cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Freed<cairo_t, cairo_destroy>>;
using Text = std::unique_ptr<char, Freed<void, g_free>>;

Colour colour_of(const PopplerColor& c) {
  return {static_cast<std::uint8_t>(c.red >> 8), static_cast<std::uint8_t>(c.green >> 8),
          static_cast<std::uint8_t>(c.blue >> 8)};
}

void read_words(PopplerPage* page, FinishedPage& out) {
  const Text text(poppler_page_get_text(page));
  PopplerRectangle* places = nullptr;
  guint count = 0;
  if (!text || !poppler_page_get_text_layout(page, &places, &count)) return;
  const std::unique_ptr<PopplerRectangle, Freed<void, g_free>> owner(places);
  struct Look {
    double size = 0;
    Colour colour;
  };
  std::vector<Look> looks(count);
  GList* runs = poppler_page_get_text_attributes(page);
  for (GList* at = runs; at != nullptr; at = at->next) {
    const auto* run = static_cast<PopplerTextAttributes*>(at->data);
    for (int i = std::max(0, run->start_index);
         i <= run->end_index && i < static_cast<int>(count); ++i)
      looks[static_cast<std::size_t>(i)] = {run->font_size, colour_of(run->color)};
  }
  poppler_page_free_text_attributes(runs);

  FinishedWord word;
  const auto end = [&] {
    if (!word.text.empty()) out.words.push_back(word);
    word = {};
  };
  const char* c = text.get();
  for (guint i = 0; *c != 0 && i < count; ++i, c = g_utf8_next_char(c)) {
    const gunichar letter = g_utf8_get_char(c);
    if (g_unichar_isspace(letter)) {
      end();
      continue;
    }
    const PopplerRectangle& r = places[i];
    const PageBox box{std::min(r.x1, r.x2) * mm, std::min(r.y1, r.y2) * mm,
                      std::abs(r.x2 - r.x1) * mm, std::abs(r.y2 - r.y1) * mm};
    // Letters on one line but far apart are words of their own, blank between them or not.
    const double em = word.size_pt * mm;
    if (box.left() > word.box.right() + em || box.right() < word.box.left() - em ||
        box.top() > word.box.bottom() + em || box.bottom() < word.box.top() - em)
      end();
    if (word.text.empty()) {
      word.box = box;
      word.size_pt = looks[i].size;
      word.colour = looks[i].colour;
    } else {
      word.box = united(word.box, box);
    }
    word.text.append(c, static_cast<std::size_t>(g_utf8_next_char(c) - c));
  }
  end();
}

void read_images(PopplerPage* page, FinishedPage& out) {
  GList* all = poppler_page_get_image_mapping(page);
  for (GList* at = all; at != nullptr; at = at->next) {
    const auto* one = static_cast<PopplerImageMapping*>(at->data);
    const Surface pixels(poppler_page_get_image(page, one->image_id));
    if (!pixels || cairo_surface_status(pixels.get()) != CAIRO_STATUS_SUCCESS) continue;
    const PopplerRectangle& r = one->area;
    out.images.push_back({{std::min(r.x1, r.x2) * mm, std::min(r.y1, r.y2) * mm,
                           std::abs(r.x2 - r.x1) * mm, std::abs(r.y2 - r.y1) * mm},
                          cairo_image_surface_get_width(pixels.get()),
                          cairo_image_surface_get_height(pixels.get())});
  }
  poppler_page_free_image_mapping(all);
}

// False where Cairo has no memory for it.
bool read_pixels(PopplerPage* page, FinishedPage& out) {
  PagePixels& p = out.pixels;
  p.per_mm = finished_dpi / 25.4;
  p.width = static_cast<int>(std::lround(out.width * p.per_mm));
  p.height = static_cast<int>(std::lround(out.height * p.per_mm));
  if (p.width < 1 || p.height < 1 || p.width > 32000 || p.height > 32000) return false;
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, p.width, p.height));
  const Context cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), finished_dpi / 72, finished_dpi / 72);
  poppler_page_render(page, cairo.get());
  cairo_surface_flush(surface.get());
  if (cairo_status(cairo.get()) != CAIRO_STATUS_SUCCESS) return false;
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  p.rgb.reserve(static_cast<std::size_t>(p.width) * static_cast<std::size_t>(p.height));
  for (int y = 0; y < p.height; ++y)
    for (int x = 0; x < p.width; ++x)
      p.rgb.push_back(reinterpret_cast<const std::uint32_t*>(data + y * stride)[x] & 0xFFFFFF);
  return true;
}

}  // namespace

Result<Finished> finished_pdf(std::string_view bytes, const std::string& path) {
  auto strokes = pdf_strokes(bytes, path);
  if (!strokes.ok()) return strokes.findings();
  const Bytes kept(g_bytes_new(bytes.data(), bytes.size()));
  GError* failure = nullptr;
  const Owned<PopplerDocument> document(
      poppler_document_new_from_bytes(kept.get(), nullptr, &failure));
  if (!document) {
    const std::string why = failure ? failure->message : "unknown fault";
    g_clear_error(&failure);
    return error("pdf-unreadable", {path, 0, 0}, "the file is not a PDF that can be read: " + escaped(why));
  }
  Finished out;
  out.path = path;
  out.is_pdf = true;
  const int count = poppler_document_get_n_pages(document.get());
  if (count < 1 || static_cast<std::size_t>(count) != strokes->size())
    return error("pdf-unreadable", {path, 0, 0}, "the file's pages can't be told");
  for (int i = 0; i < count; ++i) {
    const Owned<PopplerPage> page(poppler_document_get_page(document.get(), i));
    PageStrokes& from = (*strokes)[static_cast<std::size_t>(i)];
    FinishedPage one;
    one.width = from.width * mm;
    one.height = from.height * mm;
    const PageBox whole{0, 0, one.width, one.height};
    one.trim = from.trim.value_or(whole);
    one.bleed = from.bleed.value_or(from.trim ? *from.trim : whole);
    const auto within = [](const PageBox& in, const PageBox& box) {
      return in.left() >= box.left() - 0.01 && in.right() <= box.right() + 0.01 &&
             in.top() >= box.top() - 0.01 && in.bottom() <= box.bottom() + 0.01;
    };
    one.boxes_nested = within(one.trim, one.bleed) && within(one.bleed, whole);
    one.strokes = std::move(from.strokes);
    if (!page) return error("pdf-unreadable", {path, i + 1, 0}, "the page can't be read");
    read_words(page.get(), one);
    read_images(page.get(), one);
    if (!read_pixels(page.get(), one))
      return error("pdf-large", {path, i + 1, 0}, "the page is too large to look at",
                   "make it smaller than 10 m");
    out.pages.push_back(std::move(one));
  }
  PopplerFontInfo* info = poppler_font_info_new(document.get());
  const Owned<PopplerFontInfo> info_owner(info);
  PopplerFontsIter* fonts = nullptr;
  while (poppler_font_info_scan(info, 50, &fonts)) {
    if (fonts == nullptr) continue;
    do {
      const char* name = poppler_fonts_iter_get_full_name(fonts);
      out.fonts.push_back({name ? name : "without a name", poppler_fonts_iter_is_embedded(fonts) != FALSE});
    } while (poppler_fonts_iter_next(fonts));
    poppler_fonts_iter_free(fonts);
  }
  return out;
}

}  // namespace platewright::read
