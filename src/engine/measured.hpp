// Labels measured once at a reference size; hinting is off, so boxes scale.
#pragma once

#include <string>
#include <vector>

#include "engine/load.hpp"
#include "place/place.hpp"
#include "text/text.hpp"

namespace platewright {

// One way to set one wording of a label. Sizes are in ems of the type size.
struct LabelWay {
  std::vector<std::string> lines;
  std::string text;      // the wording, whole
  double width = 0;
  double extent = 0;     // ascent of the first plus descent of the last line
  double penalty = 0;    // in the placement cost
};

struct MeasuredLabel {
  const SetLabel* label = nullptr;
  std::vector<LabelWay> ways;  // fewest lines of the first wording first; at least one
  double number_width = 0;     // ems
  double number_height = 0;
};

std::vector<MeasuredLabel> measure_labels(const std::vector<SetLabel>& labels,
                                          const std::string& language, const Style& style,
                                          const text::Typesetter& typesetter);

// Height in mm of a way at a type size.
double way_height(const LabelWay& way, double size_mm, double leading);

// Least room that blanks or rulings need in a label's place, mm.
struct LeastBox {
  double width = 0;
  double height = 0;
};

// Labels as the fit wants them. `kept[label][variant]` is the way behind each variant.
std::vector<place::FitLabel> fit_labels(const std::vector<MeasuredLabel>& measured,
                                        const Figure& figure, const Style& style,
                                        const std::vector<double>& steps_pt, LeastBox least,
                                        std::vector<std::vector<int>>& kept);

}  // namespace platewright
