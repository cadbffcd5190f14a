// A figure's document as a nested svg of a page: ids made unique, styles kept
// to itself, nothing in it that runs or fetches.
#pragma once

#include <pugixml.hpp>
#include <string>

#include "platewright/geometry.hpp"

namespace platewright::emit {

// Appends <svg id="ID"> to `parent` with the figure's `view_box` laid on `at`.
// Returns what is wrong with the document, or "" when all is well.
std::string append_figure(pugi::xml_node parent, const std::string& svg, const std::string& id,
                          const FigureBox& view_box, const PageBox& at);

}  // namespace platewright::emit
