#include <algorithm>
#include <cmath>

#include "text/impl.hpp"

namespace platewright::text {
namespace {

constexpr double units = PANGO_SCALE;

struct Rectangles {
  PangoRectangle ink{}, logical{};
};

Rectangles extents_of(PangoLayout* layout) {
  Rectangles result;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, 0), &result.ink,
                                &result.logical);
  return result;
}

// A browser's text box has the primary face's ascent and descent even where all
// glyphs come from another face.
Typesetter::Impl::Extents primary_extents(Typesetter::Impl& impl, const Font& font) {
  const Typesetter::Impl::Face face{font.face, font.bold, font.italic};
  const auto known = impl.primary.find(face);
  if (known != impl.primary.end()) return known->second;
  const auto layout = shaped(impl, "x", font, "en", Direction::left_to_right);
  const PangoRectangle box = extents_of(layout.get()).logical;
  const double em = em_units("x") * units;
  return impl.primary[face] = {-box.y / em, (box.y + box.height) / em};
}

}  // namespace

double hangs_left(const std::vector<Line>& lines) {
  double most = 0;
  for (const Line& line : lines)
    if (line.ink_right > line.ink_left) most = std::max(most, -line.ink_left);
  return most;
}

double hangs_right(const std::vector<Line>& lines) {
  double most = 0;
  for (const Line& line : lines)
    if (line.ink_right > line.ink_left) most = std::max(most, line.ink_right - line.advance);
  return most;
}

double em_units(std::string_view text) {
  return std::min(100.0, 1e6 / static_cast<double>(text.size() + 1));
}

Handle<PangoLayout, g_object_unref> shaped(const Typesetter::Impl& impl, const std::string& text,
                                           const Font& font, std::string_view language,
                                           Direction direction) {
  PangoContext* context = impl.context.get();
  pango_context_set_language(
      context,
      pango_language_from_string(language.empty() ? "und" : std::string(language).c_str()));
  pango_context_set_base_dir(
      context, direction == Direction::right_to_left ? PANGO_DIRECTION_RTL : PANGO_DIRECTION_LTR);
  const Handle<PangoFontDescription, pango_font_description_free> description(
      pango_font_description_new());
  pango_font_description_set_family(description.get(), font.face.c_str());
  pango_font_description_set_weight(description.get(),
                                    font.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(description.get(),
                                   font.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_font_description_set_absolute_size(description.get(), em_units(text) * units);

  Handle<PangoLayout, g_object_unref> layout(pango_layout_new(context));
  pango_layout_set_auto_dir(layout.get(), FALSE);
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_font_description(layout.get(), description.get());
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  // Pango moves Latin letters among Chinese ones to the ideographic baseline;
  // browsers do not, so one baseline for all.
  for (GSList* run = pango_layout_get_line(layout.get(), 0)->runs; run; run = run->next)
    static_cast<PangoGlyphItem*>(run->data)->y_offset = 0;
  return layout;
}

Line measured(Typesetter::Impl& impl, std::string text, const Font& font, std::string_view language,
              Direction direction) {
  Line line;
  line.text = std::move(text);
  line.font = font;
  line.language = language;
  line.direction = direction;
  const double size = font.size.mm();
  const Typesetter::Impl::Extents face = primary_extents(impl, font);
  line.ascent = face.ascent * size;
  line.descent = face.descent * size;
  if (line.text.empty()) return line;

  const auto layout = shaped(impl, line.text, font, language, direction);
  const Rectangles box = extents_of(layout.get());
  const double mm = size / (em_units(line.text) * units);
  line.advance = box.logical.width * mm;
  line.ascent = std::max(line.ascent, -box.logical.y * mm);
  line.descent = std::max(line.descent, (box.logical.y + box.logical.height) * mm);
  line.ink_left = box.ink.x * mm;
  line.ink_right = (box.ink.x + box.ink.width) * mm;
  line.ink_top = -box.ink.y * mm;
  line.ink_bottom = -(box.ink.y + box.ink.height) * mm;
  return line;
}

}  // namespace platewright::text
