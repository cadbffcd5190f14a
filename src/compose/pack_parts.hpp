// What the pages of a pack share: an empty page of its style and type on it.
#pragma once

#include <string>

#include "compose/flow.hpp"
#include "compose/pack.hpp"
#include "compose/parts.hpp"

namespace platewright::compose {

// An empty page with the pack's footer and, unless it is empty, a title; and the
// room that it leaves.
struct Blankpage {
  Plan plan;
  SheetInput input;     // refers to `plan`
  std::string note;     // at the footer's far end
  PageBox room;         // below the title, above the footer

  Blankpage(const PackInput& from, const std::string& title, std::string note = {});
  Blankpage(const Blankpage&) = delete;
  Blankpage& operator=(const Blankpage&) = delete;
  LinkedPage start(const std::string& page_title) const;
};

bool reads_right(const PackInput& input);  // left to right

// A line of type at the reading side of a column, or at its far side.
TextItem line_in(const PackInput& input, const text::Line& line, double x, double y, double width,
                 bool far_side, Colour colour);

}  // namespace platewright::compose
