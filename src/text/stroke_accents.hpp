// Strokes that no Hershey face has: diacritics and a few Latin letters, drawn
// for the faces' own grid (capitals 21 units high from y = -12 to the baseline
// at 9, small letters 14).
#pragma once

#include <optional>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright::text {

using Strokes = std::vector<std::vector<PagePoint>>;

struct Accent {
  enum class Place { above, below, right } place = Place::above;
  // About the middle of the letter (x = 0) and its edge (y = 0, gap included);
  // `right`: about the letter's upper right corner.
  Strokes strokes;
};

// The mark of a combining character on a base letter, as languages draw it: the
// caron of d, l and t is an apostrophe, the cedilla of k, l, n and r a comma.
std::optional<Accent> accent_of(char32_t combining, char32_t base);

struct WholeLetter {
  double left = 0, right = 0;
  Strokes strokes;
};
// Letters that are no base with a mark: ß, Æ, °, ×.
std::optional<WholeLetter> whole_letter(char32_t character);

}  // namespace platewright::text
