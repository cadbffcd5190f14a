// A version of a figure: the same drawing with parts hidden, shown or tinted.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "platewright/colour.hpp"
#include "platewright/finding.hpp"
#include "platewright/terms.hpp"

namespace platewright {

// A name and where it was written.
struct NamedAt {
  std::string name;
  SourcePosition at;
};

// How a figure is shown: parts hidden or shown by the ids of their elements,
// classes filled with another colour. The figure's file stays as it is.
struct FigureVersion {
  std::string name;  // "as drawn" has none
  TextBySet title;   // added to the figure's title; may be empty
  std::vector<NamedAt> show;
  std::vector<NamedAt> hide;
  std::vector<std::pair<NamedAt, Colour>> tints;  // by class
  bool ink_saving = false;                        // outlines instead of paint
  SourcePosition declared;
};

}  // namespace platewright
