// A paragraph in which some words lean or are heavy: lines of runs, each in one face.
#pragma once

#include <string>
#include <vector>

#include "platewright/page_text.hpp"
#include "text/text.hpp"

namespace platewright::compose {

struct FacedRun {
  text::Line line;
  double offset = 0;  // mm from where the line begins to where the run does, as one reads
};
struct PiecedLine {
  std::vector<FacedRun> runs;
  double advance = 0;  // mm
  double ascent = 0;
};

// Fills lines of `width` mm word by word, as Typesetter::paragraph does for text of one face (but
// never parts at a soft hyphen). A word wider than a line is broken.
std::vector<PiecedLine> emphasised(const std::string& text, const std::vector<Emphasis>& emphasis,
                                   const text::Font& font, const std::string& language,
                                   const text::Typesetter& typesetter, double width);

}  // namespace platewright::compose
