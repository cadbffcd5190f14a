#include <cairo-pdf.h>

#include <algorithm>

#include "emit/art.hpp"
#include "emit/canvas.hpp"
#include "emit/check.hpp"
#include "emit/pdf_parts.hpp"

namespace platewright::emit {
namespace {

using Surface = text::Handle<cairo_surface_t, cairo_surface_destroy>;

// Structure types of ISO 32000-1, 14.8.4.
const char* tag_of(compose::Role role) {
  using compose::Role;
  switch (role) {
    case Role::title:
      return "H1";
    case Role::label:
    case Role::blank_list:
    case Role::footer:
    case Role::instruction:
    case Role::word_bank:
      return "P";
    case Role::plain:
    case Role::leader:
    case Role::mark:
    case Role::crop_marks:
    case Role::ruling:
      break;
  }
  return nullptr;
}

// A surface that Cairo stores once, however often it is painted, since it
// carries a unique id.
Surface placeholder(const SharedArt& art, std::size_t index) {
  const cairo_rectangle_t extent{0, 0, static_cast<double>(art.columns),
                                 static_cast<double>(art.rows)};
  Surface surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extent));
  const text::Handle<cairo_t, cairo_destroy> cairo(cairo_create(surface.get()));
  const auto [red, green, blue] = placeholder_colour(index);
  cairo_set_source_rgb(cairo.get(), red, green, blue);
  cairo_rectangle(cairo.get(), 0, 0, extent.width, extent.height);
  cairo_fill(cairo.get());
  auto* id = new std::string("platewright-art-" + std::to_string(index));
  cairo_surface_set_mime_data(
      surface.get(), CAIRO_MIME_TYPE_UNIQUE_ID, reinterpret_cast<const unsigned char*>(id->data()),
      id->size(), [](void* owned) { delete static_cast<std::string*>(owned); }, id);
  return surface;
}

// Opens and closes the tags of marked content, which are not nested.
class Tags {
 public:
  explicit Tags(cairo_t* cairo) : cairo_(cairo) {}
  // Whether the tag is new content for a reader, not part of what is open.
  bool open(const char* tag) {
    const bool inside =
        std::any_of(open_.begin(), open_.end(), [](const char* t) { return t != nullptr; });
    open_.push_back(inside ? nullptr : tag);
    if (open_.back() == nullptr) return false;
    cairo_tag_begin(cairo_, tag, nullptr);
    return true;
  }
  void close() {
    if (open_.back() != nullptr) cairo_tag_end(cairo_, open_.back());
    open_.pop_back();
  }

 private:
  cairo_t* cairo_;
  std::vector<const char*> open_;
};

}  // namespace

PlaceholderColour placeholder_colour(std::size_t index) {
  return {0.123, 0.456, static_cast<double>(index % 1000) / 1000};
}

Result<std::string> drawn_pdf(const compose::Document& document, const EmitContext& context,
                              const std::vector<SharedArt>& arts,
                              std::vector<PageMarks>& marks) {
  std::string bytes;
  const compose::Page& first = document.pages.front();
  const auto side = [](const compose::Page& page, double mm) {
    return (mm + 2 * surround(page)) * points_per_mm;
  };
  const Surface surface(cairo_pdf_surface_create_for_stream(
      append_bytes, &bytes, side(first, first.width), side(first, first.height)));
  const text::Handle<cairo_t, cairo_destroy> owner(cairo_create(surface.get()));
  cairo_t* cairo = owner.get();
  std::vector<Surface> placeholders;
  for (std::size_t i = 0; i < arts.size(); ++i) placeholders.push_back(placeholder(arts[i], i));

  Tags tags(cairo);
  Canvas canvas;
  canvas.cairo = cairo;
  canvas.typesetter = context.typesetter;
  canvas.enter = [&](compose::Role role, const std::string& anchor) {
    if (tags.open(tag_of(role)))
      marks.back().tagged.push_back(role == compose::Role::label ? anchor : std::string());
  };
  canvas.leave = [&](compose::Role) { tags.close(); };
  canvas.leader_miter = [&](const compose::Group& leader) {
    marks.back().leaders.push_back(leader.anchor);
    return first_leader_miter + static_cast<double>(marks.back().leaders.size() - 1);
  };
  canvas.draw_figure = [&](const compose::FigureItem& item) {
    const std::size_t index = *find_art(arts, item, context.art);
    const SharedArt& art = arts[index];
    if (tags.open("Figure")) marks.back().tagged.emplace_back();
    cairo_save(cairo);
    if (item.clip) {
      cairo_rectangle(cairo, item.clip->x, item.clip->y, item.clip->w, item.clip->h);
      cairo_clip(cairo);
    }
    const PageBox at = item.transform(art.box);
    const double scale = item.transform.scale / art.points_per_unit;
    double x = at.x, y = at.y;
    cairo_user_to_device(cairo, &x, &y);
    x = on_coordinate_step(x);
    y = on_coordinate_step(y);
    cairo_device_to_user(cairo, &x, &y);
    cairo_translate(cairo, x, y);
    cairo_scale(cairo, scale, scale);
    // Cairo forgets the tags before a first paint that nothing clips.
    cairo_rectangle(cairo, 0, 0, art.columns, art.rows);
    cairo_clip(cairo);
    cairo_set_source_surface(cairo, placeholders[index].get(), 0, 0);
    cairo_paint(cairo);
    cairo_restore(cairo);
    tags.close();
  };

  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const compose::Page& page = document.pages[i];
    cairo_pdf_surface_set_size(surface.get(), side(page, page.width), side(page, page.height));
    marks.emplace_back();
    cairo_tag_begin(cairo, "Sect", nullptr);
    cairo_save(cairo);
    cairo_scale(cairo, points_per_mm, points_per_mm);
    cairo_translate(cairo, surround(page), surround(page));
    draw(canvas, page.items);
    cairo_restore(cairo);
    cairo_tag_end(cairo, "Sect");
    cairo_show_page(cairo);
  }
  cairo_surface_finish(surface.get());
  const cairo_status_t status =
      cairo_status(cairo) ? cairo_status(cairo) : cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS)
    return error("pdf-failed", {},
                 std::string("the pages can't be drawn: ") + cairo_status_to_string(status));
  return bytes;
}

}  // namespace platewright::emit
