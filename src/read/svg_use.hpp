// <use>: guarded against cycles and explosions, and expanded where an anchor
// stands inside what is reused (SVG 2, section 5.6).
#pragma once

#include <string_view>

#include "read/svg_document.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

// False, with findings, when drawing the figure would visit more elements than
// the limit, counting each reuse by <use>, patterns, masks, clips, markers and
// filters anew. Errors: `use-cycle`, `use-deep`, `use-explosion`; warning `use-missing`.
bool check_references(const SvgDocument& document, const IdMap& ids, const Limits& limits,
                      Findings& findings);

// Attributes that a collected anchor carries until the figure is finished;
// copies made by expand_uses carry them too.
inline constexpr const char* origin_attribute = "pw-origin";  // index of the anchor's declaration
inline constexpr const char* marker_attribute = "pw-marker";  // there on markers only

// Replaces each <use> whose content holds an element with `origin_attribute`,
// also through further <use>, by a copy of that content, without ids. What is
// reused by a marker stays as it is. Call only after check_references.
void expand_uses(pugi::xml_node root, const IdMap& ids);
// The same for every <use>.
void expand_all_uses(pugi::xml_node root, const IdMap& ids);

// Whether an element's content is only drawn where something refers to it.
bool is_definition(std::string_view name);

}  // namespace platewright::read
