#include "base/utf8.hpp"
#include "text/impl.hpp"
#include "text/text.hpp"
#include "text/unicode.hpp"

namespace platewright::text {

Typesetter::Typesetter() : impl_(std::make_unique<Impl>()) {
  impl_->map.reset(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
  pango_cairo_font_map_set_resolution(reinterpret_cast<PangoCairoFontMap*>(impl_->map.get()), 72);
  impl_->context.reset(pango_font_map_create_context(impl_->map.get()));
  PangoContext* context = impl_->context.get();
  const Handle<cairo_font_options_t, cairo_font_options_destroy> options(
      cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options.get());
  pango_context_set_round_glyph_positions(context, FALSE);
}

Typesetter::~Typesetter() = default;

Line Typesetter::line(std::string_view text, const Font& font, std::string_view language) const {
  const std::string clean = cleaned(text);
  std::string shown;
  for (const char32_t c : characters(clean))
    if (c != 0xAD) append_utf8(shown, c == '\n' ? U' ' : c);
  return measured(*impl_, shown, font, language, direction_of(clean, language));
}

}  // namespace platewright::text
