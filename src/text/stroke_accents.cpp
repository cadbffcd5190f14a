#include "text/stroke_accents.hpp"

namespace platewright::text {
namespace {

using Place = Accent::Place;

Strokes dot(double x, double y) {
  return {{{x, y - 1}, {x + 1, y}, {x, y + 1}, {x - 1, y}, {x, y - 1}}};
}

Strokes ring(double y, double r) {
  const double d = r * 0.7;
  return {{{0, y - r},
           {d, y - d},
           {r, y},
           {d, y + d},
           {0, y + r},
           {-d, y + d},
           {-r, y},
           {-d, y - d},
           {0, y - r}}};
}

Strokes both(Strokes a, const Strokes& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

}  // namespace

std::optional<Accent> accent_of(char32_t combining, char32_t base) {
  switch (combining) {
    case 0x0300:
      return Accent{Place::above, {{{-3, -5}, {2, 0}}}};
    case 0x0301:
      return Accent{Place::above, {{{3, -5}, {-2, 0}}}};
    case 0x0302:
      return Accent{Place::above, {{{-4, 0}, {0, -5}, {4, 0}}}};
    case 0x0303:
      return Accent{Place::above,
                    {{{-5, 0}, {-4, -2}, {-2, -3}, {0, -2}, {2, -1}, {4, -2}, {5, -4}}}};
    case 0x0304:
      return Accent{Place::above, {{{-4, -2}, {4, -2}}}};
    case 0x0306:
      return Accent{Place::above, {{{-4, -4}, {-3, -2}, {-1, -1}, {1, -1}, {3, -2}, {4, -4}}}};
    case 0x0307:
      return Accent{Place::above, dot(0, -2)};
    case 0x0308:
      return Accent{Place::above, both(dot(-4, -2), dot(4, -2))};
    case 0x030A:
      return Accent{Place::above, ring(-3, 3)};
    case 0x030B:
      return Accent{Place::above, {{{0, -5}, {-4, 0}}, {{5, -5}, {1, 0}}}};
    case 0x030C:
      if (base == U'd' || base == U'l' || base == U't' || base == U'L')
        return Accent{Place::right, {{{3, 0}, {3, 2}, {1, 6}}}};
      return Accent{Place::above, {{{-4, -5}, {0, 0}, {4, -5}}}};
    case 0x0323:
      return Accent{Place::below, dot(0, 2)};
    case 0x0326:
      return Accent{Place::below, {{{1, 1}, {1, 3}, {-1, 6}}}};
    case 0x0327:
      if (base == U'k' || base == U'l' || base == U'n' || base == U'r' || base == U'K' ||
          base == U'L' || base == U'N' || base == U'R')
        return accent_of(0x0326, base);
      if (base == U'g') return Accent{Place::above, {{{1, -6}, {-1, -3}, {-1, -1}}}};
      return Accent{Place::below, {{{0, -2}, {-1, 1}, {2, 2}, {2, 4}, {0, 5}, {-3, 5}}}};
    case 0x0328:
      return Accent{Place::below, {{{4, -2}, {1, 1}, {0, 3}, {1, 5}, {4, 5}}}};
    default:
      return std::nullopt;
  }
}

std::optional<WholeLetter> whole_letter(char32_t character) {
  switch (character) {
    case U'ß':
      return WholeLetter{-9,
                         9,
                         {{{-6, 9},
                           {-6, -7},
                           {-5, -10},
                           {-3, -12},
                           {0, -12},
                           {3, -11},
                           {4, -9},
                           {4, -7},
                           {3, -5},
                           {0, -3},
                           {3, -2},
                           {5, 0},
                           {6, 3},
                           {5, 6},
                           {3, 8},
                           {0, 9},
                           {-2, 8}}}};
    case U'Æ':
      return WholeLetter{-13,
                         12,
                         {{{-11, 9}, {0, -12}},
                          {{0, -12}, {0, 9}},
                          {{0, -12}, {10, -12}},
                          {{0, -2}, {7, -2}},
                          {{0, 9}, {10, 9}},
                          {{-7, 2}, {0, 2}}}};
    case U'°':
      return WholeLetter{-6, 6, ring(-9, 3)};
    case U'×':
      return WholeLetter{-10, 10, {{{-6, -6}, {6, 6}}, {{6, -6}, {-6, 6}}}};
    default:
      return std::nullopt;
  }
}

}  // namespace platewright::text
