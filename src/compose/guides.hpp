// What people cut, fold, measure and put together by: rulers, crosses, scissors.
#pragma once

#include <string>

#include "compose/parts.hpp"

namespace platewright::compose {

enum class Way { across, down };

// A ruler as drawn: the ends of its two scales, mm on the page.
struct Ruler {
  PagePoint cm_from, cm_to;  // 10 cm
  PagePoint in_from, in_to;  // 4 in
};

struct RulerLook {
  text::Font font;  // of its figures
  std::string language;
  Colour ink;
  double line = 0.25;
  bool paper = false;  // white beneath it
};

// Room that a ruler takes: 10 cm on one side of its line, 4 in on the other.
PageBox ruler_room(Way way);
// Draws it with the corner of its room at `corner`.
Ruler add_ruler(Group& group, const text::Typesetter& typesetter, const RulerLook& look, Way way,
                PagePoint corner);

// A registration cross: arms of these half lengths.
void add_cross(Group& group, PagePoint at, double half_across, double half_down, const Pen& pen);

// Open scissors, their points on `at`, cutting to the right or downwards.
void add_scissors(Group& group, PagePoint at, Way way, const Pen& pen);

// A length as people say it: "118 cm", "1.2 m", "45 mm".
std::string said_length(Length length);

// A number, or text with one, as it is written in the language of the sheet: "158,8 cm".
std::string written(std::string number, const Words& words);

}  // namespace platewright::compose
