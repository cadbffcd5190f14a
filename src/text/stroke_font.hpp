// Single-stroke letters (Hershey faces, .jhf) for tracing: pen paths, not
// outlines. Data: Debian's hershey-fonts-data; any use, with acknowledgement.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/geometry.hpp"
#include "platewright/result.hpp"

namespace platewright::text {

struct StrokeText {
  // Polylines in mm from the left end of the baseline, y down.
  std::vector<std::vector<PagePoint>> strokes;
  double advance = 0;
};

class StrokeFont {
 public:
  // Reads a .jhf file (plain Latin order from U+0020). Error `stroke-font`.
  static Result<StrokeFont> read(const std::string& path);
  // Letters so tall that a capital H is `cap_height` mm; nothing when a character
  // is not covered (accented letters are built from base and mark where the face has both parts).
  std::optional<StrokeText> set(std::string_view text, double cap_height) const;

 private:
  struct Glyph {
    double left = 0, right = 0;
    std::vector<std::vector<PagePoint>> strokes;
  };
  std::vector<Glyph> glyphs_;
  double cap_top_ = -12, baseline_ = 9;
};

}  // namespace platewright::text
