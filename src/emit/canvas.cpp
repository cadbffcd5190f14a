#include "emit/canvas.hpp"

#include <numbers>

#include "text/draw.hpp"

namespace platewright::emit {
namespace {

void set_colour(cairo_t* cairo, Colour c) {
  cairo_set_source_rgb(cairo, c.red / 255.0, c.green / 255.0, c.blue / 255.0);
}

void stroke(cairo_t* cairo, const compose::Pen& pen, double miter_limit) {
  set_colour(cairo, pen.colour);
  cairo_set_line_width(cairo, pen.width);
  cairo_set_dash(cairo, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0);
  cairo_set_line_cap(cairo, pen.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo, pen.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
  cairo_set_miter_limit(cairo, miter_limit);
  cairo_stroke(cairo);
}

struct Trace {
  cairo_t* cairo;
  void operator()(const compose::MoveTo& s) const { cairo_move_to(cairo, s.to.x, s.to.y); }
  void operator()(const compose::LineTo& s) const { cairo_line_to(cairo, s.to.x, s.to.y); }
  void operator()(const compose::CurveTo& s) const {
    cairo_curve_to(cairo, s.control1.x, s.control1.y, s.control2.x, s.control2.y, s.to.x, s.to.y);
  }
  void operator()(const compose::ClosePath&) const { cairo_close_path(cairo); }
};

struct Draw {
  const Canvas& canvas;

  void operator()(const compose::PathItem& item) const {
    cairo_t* cairo = canvas.cairo;
    cairo_new_path(cairo);
    for (const compose::PathStep& step : item.steps) std::visit(Trace{cairo}, step);
    if (item.fill) {
      set_colour(cairo, *item.fill);
      cairo_fill_preserve(cairo);
    }
    if (item.pen) stroke(cairo, *item.pen, canvas.miter_limit);
    cairo_new_path(cairo);
  }

  void operator()(const compose::TextItem& item) const {
    cairo_t* cairo = canvas.cairo;
    const auto [x, y] = item.at;
    if (canvas.enter) canvas.enter(compose::Role::instruction, {});
    // Under outlined letters lies the same text in white: selectable, not seen.
    set_colour(cairo, item.outline ? Colour{255, 255, 255} : item.colour);
    cairo_new_path(cairo);
    if (canvas.selectable) {
      text::show_line(*canvas.typesetter, cairo, item.line, x, y);
    } else {
      text::line_path(*canvas.typesetter, cairo, item.line, x, y);
      cairo_fill(cairo);
    }
    if (item.outline) {
      text::line_path(*canvas.typesetter, cairo, item.line, x, y);
      stroke(cairo, *item.outline, canvas.miter_limit);
    }
    cairo_new_path(cairo);
    if (canvas.leave) canvas.leave(compose::Role::instruction);
  }

  void operator()(const compose::FigureItem& item) const { canvas.draw_figure(item); }

  void operator()(const compose::Group& group) const {
    if (canvas.enter) canvas.enter(group.role, group.anchor);
    cairo_save(canvas.cairo);
    if (group.turn != 0) {
      cairo_translate(canvas.cairo, group.pivot.x, group.pivot.y);
      cairo_rotate(canvas.cairo, group.turn * std::numbers::pi / 180);
      cairo_translate(canvas.cairo, -group.pivot.x, -group.pivot.y);
    }
    if (!group.clip.empty()) {
      cairo_new_path(canvas.cairo);
      for (const compose::PathStep& step : group.clip) std::visit(Trace{canvas.cairo}, step);
      cairo_clip(canvas.cairo);
    }
    if (group.role == compose::Role::leader && canvas.leader_miter) {
      Canvas own = canvas;
      own.miter_limit = canvas.leader_miter(group);
      draw(own, group.items);
    } else {
      draw(canvas, group.items);
    }
    cairo_restore(canvas.cairo);
    if (canvas.leave) canvas.leave(group.role);
  }
};

}  // namespace

cairo_status_t append_bytes(void* text, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

void draw(const Canvas& canvas, const std::vector<compose::Item>& items) {
  for (const compose::Item& item : items) std::visit(Draw{canvas}, item);
}

}  // namespace platewright::emit
