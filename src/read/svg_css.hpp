// CSS of a figure made harmless: nothing in it reaches outside the figure, runs
// anything, or changes with time or screen.
//
// A reader of CSS's tokens only (CSS Syntax Level 3, sections 4 and 5): comments
// go, escaped letters become plain ones so that no word can hide, all at-rules
// go (librsvg knows none, a browser would, and both must draw the same).
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "read/svg_dropped.hpp"

namespace platewright::read {

// Called for each thing dropped.
using OnDrop = std::function<void(Dropped)>;

// A style sheet.
std::string clean_style_sheet(std::string_view css, const OnDrop& on_drop);
// What a style attribute holds.
std::string clean_declarations(std::string_view css, const OnDrop& on_drop);
// Whether one value, of a property or a presentation attribute, is harmless.
bool harmless_value(std::string_view value);

// "fill" -> the ids that `url(#id)` names in a text, in order.
void ids_in_urls(std::string_view text, const std::function<void(std::string_view)>& each);

}  // namespace platewright::read
