// A PDF's pages: texts, fonts and pixels by poppler, the rest by its commands.
#include <cairo.h>
#include <glib-object.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/quote.hpp"
#include "read/finished_commands.hpp"
#include "read/poppler.hpp"

namespace platewright::read {
namespace {

constexpr std::size_t most_runs = 20'000;  // of text on a page, that words are joined with
constexpr double most_cropped = 0.5;       // mm of an edge that a crop box may hide

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

void read_words(const Poppler& poppler, PopplerPage* page, FinishedPage& out) {
  const Text text(poppler.page_get_text(page));
  PopplerRectangle* places = nullptr;
  guint count = 0;
  if (!text || !poppler.page_get_text_layout(page, &places, &count)) return;
  const std::unique_ptr<PopplerRectangle, Freed<void, g_free>> owner(places);
  struct Look {
    double size = 0;
    Colour colour;
  };
  std::vector<Look> looks(count);
  GList* runs = poppler.page_get_text_attributes(page);
  for (GList* at = runs; at != nullptr; at = at->next) {
    const auto* run = static_cast<PopplerTextAttributes*>(at->data);
    for (int i = std::max(0, run->start_index);
         i <= run->end_index && i < static_cast<int>(count); ++i)
      looks[static_cast<std::size_t>(i)] = {run->font_size, colour_of(run->color)};
  }
  poppler.page_free_text_attributes(runs);

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
    const PageBox box{std::min(r.x1, r.x2) * mm_per_point, std::min(r.y1, r.y2) * mm_per_point,
                      std::abs(r.x2 - r.x1) * mm_per_point, std::abs(r.y2 - r.y1) * mm_per_point};
    // Letters on one line but far apart are words of their own, blank between them or not.
    const double em = word.size_pt * mm_per_point;
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

// False where Cairo has no memory for it.
bool read_pixels(const Poppler& poppler, PopplerPage* page, FinishedPage& out) {
  PagePixels& p = out.pixels;
  p.per_mm = pixels_per_mm(out.width, out.height);
  p.width = static_cast<int>(std::lround(out.width * p.per_mm));
  p.height = static_cast<int>(std::lround(out.height * p.per_mm));
  if (p.width < 1 || p.height < 1 || p.width > 32000 || p.height > 32000) return false;
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, p.width, p.height));
  const Context cairo(cairo_create(surface.get()));
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), p.per_mm * mm_per_point, p.per_mm * mm_per_point);
  poppler.page_render(page, cairo.get());
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

FinishedPage with_commands(PageCommands& from) {
  FinishedPage page;
  page.width = from.width * mm_per_point;
  page.height = from.height * mm_per_point;
  const PageBox whole{0, 0, page.width, page.height};
  page.trim = from.trim.value_or(whole);
  page.bleed = from.bleed.value_or(from.trim ? *from.trim : whole);
  const auto within = [](const PageBox& in, const PageBox& box) {
    return in.left() >= box.left() - 0.01 && in.right() <= box.right() + 0.01 &&
           in.top() >= box.top() - 0.01 && in.bottom() <= box.bottom() + 0.01;
  };
  page.boxes_nested = within(page.trim, page.bleed) && within(page.bleed, whole);
  if (from.crop && !within(whole.grown(-most_cropped), *from.crop)) page.crop = from.crop;
  page.unit = from.unit;
  page.strokes = std::move(from.strokes);
  page.leaders = std::move(from.leaders);
  page.images = std::move(from.images);
  page.language = std::move(from.language);
  return page;
}

// A word belongs to the run of text that starts last before it on its line.
void name_labels(FinishedPage& page, std::vector<TextRun>& runs) {
  if (runs.size() > most_runs) return;
  std::stable_sort(runs.begin(), runs.end(),
                   [](const TextRun& a, const TextRun& b) { return a.start.x < b.start.x; });
  for (FinishedWord& word : page.words) {
    const double slack = 0.2 * word.box.h;
    for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
      if (run->start.x > word.box.left() + 0.5 || run->start.y < word.box.top() + slack ||
          run->start.y > word.box.bottom() + slack)
        continue;
      word.anchor = run->label;
      word.upright = run->upright;
      break;
    }
  }
}

void read_fonts(const Poppler& poppler, PopplerDocument* document, Finished& out) {
  const Owned<PopplerFontInfo> info(poppler.font_info_new(document));
  PopplerFontsIter* fonts = nullptr;
  while (poppler.font_info_scan(info.get(), 50, &fonts)) {
    if (fonts == nullptr) continue;
    do {
      const char* name = poppler.fonts_iter_get_full_name(fonts);
      out.fonts.push_back(
          {name ? name : "without a name", poppler.fonts_iter_is_embedded(fonts) != FALSE});
    } while (poppler.fonts_iter_next(fonts));
    poppler.fonts_iter_free(fonts);
  }
}

}  // namespace

double pixels_per_mm(double width, double height) {
  const double usual = finished_dpi / 25.4;
  return std::min(usual, std::sqrt(most_finished_pixels / std::max(1.0, width * height)));
}

Result<Finished> finished_pdf(std::string_view bytes, const std::string& path,
                              const EachPage& each) {
  std::string why_not;
  const Poppler* const loaded = read::poppler(why_not);
  if (loaded == nullptr)
    return error("poppler-missing", {path, 0, 0},
                 "PDFs can't be read without the library poppler: " + escaped(why_not),
                 "install the package libpoppler-glib8");
  const Poppler& poppler = *loaded;
  const Bytes kept(g_bytes_new_static(bytes.data(), bytes.size()));
  Owned<PopplerDocument> document;
  Finished out;
  out.path = path;
  out.is_pdf = true;
  Findings findings = each_page_commands(
      bytes, path, [&](PageCommands&& from, std::size_t index, std::size_t count) -> Findings {
        const int number = static_cast<int>(index) + 1;
        if (!document) {
          GError* failure = nullptr;
          document.reset(poppler.document_new_from_bytes(kept.get(), nullptr, &failure));
          const std::string why = failure ? failure->message : "unknown fault";
          g_clear_error(&failure);
          if (!document)
            return {error("pdf-unreadable", {path, 0, 0},
                          "the file is not a PDF that can be read: " + escaped(why))};
          if (static_cast<std::size_t>(std::max(0, poppler.document_get_n_pages(document.get()))) !=
              count)
            return {error("pdf-unreadable", {path, 0, 0}, "the file's pages can't be told")};
        }
        const Owned<PopplerPage> page(poppler.document_get_page(document.get(), number - 1));
        if (!page) return {error("pdf-unreadable", {path, number, 0}, "the page can't be read")};
        FinishedPage one = with_commands(from);
        // In this order poppler reads the page once: drawing it finds its text as well.
        if (!read_pixels(poppler, page.get(), one))
          return {error("pdf-large", {path, number, 0}, "the page is too large to look at",
                        "make it smaller than 10 m")};
        read_words(poppler, page.get(), one);
        name_labels(one, from.runs);
        if (each) each(one, index);
        out.pages.push_back(std::move(one));
        return {};
      });
  if (!findings.empty()) return findings;
  if (!document) return error("pdf-unreadable", {path, 0, 0}, "the file has no pages");
  read_fonts(poppler, document.get(), out);
  return out;
}

}  // namespace platewright::read
