// Lines along clips: where a clip cuts a shape off, the outline version draws
// the cut, or the area to colour stays open.
#pragma once

#include <functional>
#include <pugixml.hpp>
#include <string>
#include <vector>

#include "read/svg_ids.hpp"

namespace platewright::read {

// After each of the `filled` shapes the edges of the clips that cut it (its own and those of the
// groups around it, CSS Masking 1, section 3), as far as they run inside it. `line_of` gives what
// styles a line of the outline's width on an element. Clips measured by the box of what they cut,
// clips of clips and groups moved within a clip are left out.
void outline_clips(const std::vector<pugi::xml_node>& filled, IdMap& ids,
                   const std::function<std::string(pugi::xml_node)>& line_of);

}  // namespace platewright::read
