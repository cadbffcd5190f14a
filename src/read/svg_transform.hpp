// How much a transform enlarges: what a stroke's width must be divided by to
// come out as wished.
#pragma once

#include <pugixml.hpp>
#include <string_view>

namespace platewright::read {

// sqrt|det| of a list of transform functions (CSS Transforms 1, section 8, both
// as an attribute and as a property); 1 for an empty one or one that is not
// understood.
double transform_scale(std::string_view transform);

// The same of all transforms and viewBoxes from below the root to the element.
// Strokes drawn under unequal scales differ by direction; this is their mean.
double accumulated_scale(pugi::xml_node node);

}  // namespace platewright::read
