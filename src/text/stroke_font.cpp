#include "text/stroke_font.hpp"

#include <glib.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <fstream>
#include <iterator>

#include "text/handle.hpp"
#include "text/stroke_accents.hpp"
#include "text/unicode.hpp"

namespace platewright::text {
namespace {

constexpr std::size_t most_bytes = 1u << 20;
constexpr std::size_t latin = 95;  // U+0020 .. U+007E

Finding fault(const std::string& path, int line, std::string message) {
  return error("stroke-font", {path, line, 1}, std::move(message),
               "give a single-stroke face in .jhf form, Latin order from the space on");
}

struct Extent {
  double left = 0, right = 0, top = 0, bottom = 0;
};

std::optional<Extent> extent_of(const Strokes& strokes) {
  std::optional<Extent> extent;
  for (const auto& stroke : strokes)
    for (const PagePoint& p : stroke) {
      if (!extent) extent = Extent{p.x, p.x, p.y, p.y};
      extent->left = std::min(extent->left, p.x);
      extent->right = std::max(extent->right, p.x);
      extent->top = std::min(extent->top, p.y);
      extent->bottom = std::max(extent->bottom, p.y);
    }
  return extent;
}

void add(Strokes& to, const Strokes& strokes, double dx, double dy) {
  for (std::vector<PagePoint> stroke : strokes) {
    for (PagePoint& p : stroke) p = {p.x + dx, p.y + dy};
    to.push_back(std::move(stroke));
  }
}

struct Letter {
  double left = 0, right = 0;
  Strokes strokes;
};

// Two letters joined so that the first one's right edge is the second one's left.
Letter joined(const Letter& a, const Letter& b) {
  const auto ea = extent_of(a.strokes), eb = extent_of(b.strokes);
  if (!ea || !eb) return a;
  Letter result = a;
  const double shift = ea->right - eb->left;
  add(result.strokes, b.strokes, shift, 0);
  result.right = b.right + shift;
  return result;
}

Letter barred(Letter letter, double x1, double y1, double x2, double y2) {
  letter.strokes.push_back({{x1, y1}, {x2, y2}});
  return letter;
}

std::u32string decomposed(std::string_view text) {
  const std::string clean = cleaned(text);
  const Handle<char, g_free> nfd(g_utf8_normalize(clean.c_str(), -1, G_NORMALIZE_NFD));
  const std::vector<char32_t> c = characters(nfd ? std::string_view(nfd.get()) : clean);
  return {c.begin(), c.end()};
}

// Reads the digits of a fixed-width field, spaces before them allowed.
std::optional<int> field(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  int value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

}  // namespace

Result<StrokeFont> StrokeFont::read(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return fault(path, 0, "the stroke face can't be read");
  std::string bytes;
  for (char c = 0; bytes.size() <= most_bytes && file.get(c);) bytes += c;
  if (bytes.size() > most_bytes) return fault(path, 0, "the file is larger than 1 MiB");

  StrokeFont font;
  int line = 1;
  std::size_t at = 0;
  const auto take = [&]() -> char {  // glyphs may run over several lines
    while (at < bytes.size() && (bytes[at] == '\n' || bytes[at] == '\r'))
      line += bytes[at++] == '\n' ? 1 : 0;
    return at < bytes.size() ? bytes[at++] : '\0';
  };
  while (true) {
    while (at < bytes.size() && (bytes[at] == '\n' || bytes[at] == '\r'))
      line += bytes[at++] == '\n' ? 1 : 0;
    if (at >= bytes.size()) break;
    if (at + 8 > bytes.size()) return fault(path, line, "a glyph is cut short");
    // Columns 1 to 5: the glyph's number; 6 to 8: how many pairs of letters follow.
    const std::optional<int> count = field(std::string_view(bytes).substr(at + 5, 3));
    if (!field(std::string_view(bytes).substr(at, 5)) || !count || *count < 1)
      return fault(path, line, "columns 1 to 8 are not a glyph's number and its count of pairs");
    at += 8;
    Glyph glyph;
    std::vector<PagePoint> stroke;
    for (int i = 0; i < *count; ++i) {
      const char x = take(), y = take();
      if (x == '\0' || y == '\0') return fault(path, line, "a glyph is cut short");
      if (x < ' ' || y < ' ') return fault(path, line, "a coordinate is not a printable character");
      if (i == 0) {
        glyph.left = x - 'R';
        glyph.right = y - 'R';
      } else if (x == ' ' && y == 'R') {
        if (stroke.size() > 1) glyph.strokes.push_back(stroke);
        stroke.clear();
      } else {
        stroke.push_back({static_cast<double>(x - 'R'), static_cast<double>(y - 'R')});
      }
    }
    if (stroke.size() > 1) glyph.strokes.push_back(stroke);
    font.glyphs_.push_back(std::move(glyph));
  }
  if (font.glyphs_.size() < latin)
    return fault(path, line,
                 "the face has " + std::to_string(font.glyphs_.size()) + " glyphs, not 95 or more");
  const auto capital = extent_of(font.glyphs_['H' - ' '].strokes);
  if (!capital || capital->bottom - capital->top < 1)
    return fault(path, line, "the face draws nothing for the letter H");
  font.cap_top_ = capital->top;
  font.baseline_ = capital->bottom;
  return font;
}

std::optional<StrokeText> StrokeFont::set(std::string_view text, double cap_height) const {
  const double scale = cap_height / (baseline_ - cap_top_);
  const auto glyph = [&](char32_t c) {
    const Glyph& g = glyphs_[c - U' '];
    return Letter{g.left, g.right, g.strokes};
  };
  const auto x_extent = extent_of(glyph(U'x').strokes);
  const double x_top = x_extent ? x_extent->top : (cap_top_ + 2 * baseline_) / 3;

  const auto without_dot = [&](Letter letter) {
    std::erase_if(letter.strokes, [&](const std::vector<PagePoint>& stroke) {
      return std::all_of(stroke.begin(), stroke.end(),
                         [&](const PagePoint& p) { return p.y < x_top - 1; });
    });
    return letter;
  };
  const auto turned = [&](Letter letter) {
    for (auto& stroke : letter.strokes)
      for (PagePoint& p : stroke)
        p = {letter.left + letter.right - p.x, cap_top_ + baseline_ - p.y};
    return letter;
  };
  // A line across the upper half of a letter's stem.
  const auto crossed = [&](char32_t c, double at_share, bool slanted) {
    Letter letter = glyph(c);
    const auto e = extent_of(letter.strokes);
    if (!e) return letter;
    const bool stem_right = c == U'd';
    const double x = stem_right ? e->right : e->left;
    const double y = cap_top_ + at_share * (baseline_ - cap_top_);
    return slanted ? barred(letter, x - 4, y + 3, x + 5, y - 3)
                   : barred(letter, x - 4, y, x + 4, y);
  };

  const auto letter_of = [&](char32_t c) -> std::optional<Letter> {
    if (c >= U' ' && c <= U'~') return glyph(c);
    switch (c) {
      case 0x00A0:
      case 0x2009:
      case 0x202F:
        return glyph(U' ');
      case U'‘':
      case U'’':
      case U'ʼ':
        return glyph(U'\'');
      case U'“':
      case U'”':
      case U'„':
        return glyph(U'"');
      case U'‐':
      case U'‑':
      case U'–':
      case U'—':
        return glyph(U'-');
      case U'ı':
        return without_dot(glyph(U'i'));
      case U'¿':
        return turned(glyph(U'?'));
      case U'¡':
        return turned(glyph(U'!'));
      case U'æ':
        return joined(glyph(U'a'), glyph(U'e'));
      case U'œ':
        return joined(glyph(U'o'), glyph(U'e'));
      case U'Œ':
        return joined(glyph(U'O'), glyph(U'E'));
      case U'đ':
        return crossed(U'd', 0.2, false);
      case U'Đ':
      case U'Ð':
        return crossed(U'D', 0.5, false);
      case U'ħ':
        return crossed(U'h', 0.2, false);
      case U'ł':
        return crossed(U'l', 0.5, true);
      case U'Ł':
        return crossed(U'L', 0.5, true);
      case U'ø':
      case U'Ø': {
        const Letter o = glyph(c == U'ø' ? U'o' : U'O');
        const auto e = extent_of(o.strokes);
        if (!e) return std::nullopt;
        return barred(o, e->left - 1, e->bottom + 1, e->right + 1, e->top - 1);
      }
      default:
        break;
    }
    const std::optional<WholeLetter> whole = whole_letter(c);
    if (!whole) return std::nullopt;
    return Letter{whole->left, whole->right, whole->strokes};
  };

  StrokeText result;
  const auto put = [&](const Letter& letter) {
    for (const auto& stroke : letter.strokes) {
      std::vector<PagePoint> placed;
      for (const PagePoint& p : stroke)
        placed.push_back({result.advance + (p.x - letter.left) * scale, (p.y - baseline_) * scale});
      result.strokes.push_back(std::move(placed));
    }
    result.advance += (letter.right - letter.left) * scale;
  };

  const std::u32string all = decomposed(text);
  for (std::size_t i = 0; i < all.size();) {
    const char32_t base = all[i++];
    if (base == 0xAD) continue;
    if (base == U'…') {
      for (int dots = 0; dots < 3; ++dots) put(glyph(U'.'));
      continue;
    }
    std::optional<Letter> letter = letter_of(base);
    if (!letter) return std::nullopt;
    for (; i < all.size() && g_unichar_ismark(all[i]); ++i) {
      const std::optional<Accent> accent = accent_of(all[i], base);
      if (!accent) return std::nullopt;
      if (accent->place == Accent::Place::above && (base == U'i' || base == U'j'))
        *letter = without_dot(*letter);
      const auto e = extent_of(letter->strokes);
      if (!e) return std::nullopt;
      const double middle = (e->left + e->right) / 2;
      switch (accent->place) {
        case Accent::Place::above:
          add(letter->strokes, accent->strokes, middle, e->top - 3);
          break;
        case Accent::Place::below:
          add(letter->strokes, accent->strokes, middle, std::max(e->bottom, baseline_) + 2);
          break;
        case Accent::Place::right:
          add(letter->strokes, accent->strokes, e->right, cap_top_);
          letter->right += 4;
          break;
      }
    }
    put(*letter);
  }
  return result;
}

}  // namespace platewright::text
