#include "text/draw.hpp"

#include <pango/pangocairo.h>

#include <vector>

#include "text/impl.hpp"

namespace platewright::text {
namespace {

using Run = Handle<PangoGlyphItem, pango_glyph_item_free>;

// Sets the context up for Pango's units at the line's left end and draws.
template <class Draw>
void place(const Typesetter& typesetter, cairo_t* cairo, const Line& line, double x, double y,
           Draw draw) {
  if (line.text.empty()) return;
  const auto layout =
      shaped(typesetter.impl(), line.text, line.font, line.language, line.direction);
  const double scale = line.font.size.mm() / em_units(line.text);
  cairo_matrix_t before;
  cairo_get_matrix(cairo, &before);
  cairo_translate(cairo, x, y);
  cairo_scale(cairo, scale, scale);
  cairo_move_to(cairo, 0, 0);
  draw(pango_layout_get_line(layout.get(), 0));
  cairo_set_matrix(cairo, &before);
}

// Bytes of the run's text up to and with its first spaces; the whole when none end inside.
int first_word(const char* text, const PangoItem& item) {
  bool in_space = false;
  for (int i = 0; i < item.length; ++i) {
    const bool space = text[item.offset + i] == ' ';
    if (in_space && !space) return i;
    in_space = space;
  }
  return item.length;
}

// The run cut into its words, in logical order.
std::vector<Run> words_of(const char* text, const PangoGlyphItem& run) {
  std::vector<Run> words;
  Run rest(pango_glyph_item_copy(const_cast<PangoGlyphItem*>(&run)));
  for (int end = first_word(text, *rest->item); end < rest->item->length;
       end = first_word(text, *rest->item))
    words.emplace_back(pango_glyph_item_split(rest.get(), text, end));
  words.push_back(std::move(rest));
  return words;
}

}  // namespace

// Word by word, each at a size that differs in the tenth digit: so Cairo's PDF
// surface writes every word's own place. Within one string it trusts advances
// rounded to a thousandth of the em, which add up to 0.5 mm in a poster's title.
void show_line(const Typesetter& typesetter, cairo_t* cairo, const Line& line, double x, double y) {
  place(typesetter, cairo, line, x, y, [&](PangoLayoutLine* set) {
    const char* text = line.text.c_str();
    bool odd = false;
    int left = 0;
    for (GSList* node = set->runs; node; node = node->next) {
      const auto* run = static_cast<const PangoGlyphItem*>(node->data);
      const int width = pango_glyph_string_get_width(run->glyphs);
      const bool right_to_left = run->item->analysis.level % 2 == 1;
      int at = right_to_left ? left + width : left;
      for (const Run& word : words_of(text, *run)) {
        const int wide = pango_glyph_string_get_width(word->glyphs);
        if (right_to_left) at -= wide;
        cairo_matrix_t matrix;
        cairo_get_matrix(cairo, &matrix);
        cairo_translate(cairo, pango_units_to_double(at), 0);
        const double size = odd ? 1 + 1e-9 : 1;
        cairo_scale(cairo, size, size);
        cairo_move_to(cairo, 0, 0);
        pango_cairo_show_glyph_item(cairo, text, word.get());
        cairo_set_matrix(cairo, &matrix);
        if (!right_to_left) at += wide;
        odd = !odd;
      }
      left += width;
    }
  });
  cairo_new_path(cairo);
}

void line_path(const Typesetter& typesetter, cairo_t* cairo, const Line& line, double x, double y) {
  place(typesetter, cairo, line, x, y,
        [&](PangoLayoutLine* set) { pango_cairo_layout_line_path(cairo, set); });
}

}  // namespace platewright::text
