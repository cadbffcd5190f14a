// Figures that nobody drew, from a seed, with their tables of terms: for what
// the demo's six cannot show.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace support {

enum class Outline { round, wide, tall, clustered };  // clustered: anchors crowd in three places

struct FigureWish {
  int anchors = 12;
  Outline outline = Outline::round;
  unsigned seed = 1;
  bool regions_only = false;    // else regions, points and forks take turns
  std::size_t least_bytes = 0;  // detail strokes are added until the SVG is so large
};

struct MadeFigure {
  std::string svg;
  std::string terms;                         // YAML, one set "made", English
  std::map<std::string, std::string> words;  // text by anchor
  int youngest = 7;
};

MadeFigure made_figure(const FigureWish& wish);

}  // namespace support
