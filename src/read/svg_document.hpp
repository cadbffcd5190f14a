// An SVG file as a tree, with the place in the file of each element.
#pragma once

#include <pugixml.hpp>

#include "read/read.hpp"
#include "read/svg_source.hpp"

namespace platewright::read {

struct SvgDocument {
  SvgSource source;
  pugi::xml_document tree;
  // Where an element's tag begins; the file alone for elements that were made here.
  SourcePosition at(const pugi::xml_node& node) const;
  pugi::xml_node root() const { return tree.document_element(); }
};

// Parses, checks size, depth and number of elements against the limits, and
// expands entities. Leaves comments out and turns CDATA into text.
// Adds to `findings` and returns false when there is no usable tree. Errors:
// `xml-malformed`, `xml-deep`, `xml-elements`, `entity-unknown`,
// `entity-external`, `entity-markup`, `entity-bomb`.
bool parse_svg(SvgDocument& document, const Limits& limits, Findings& findings);

// The root element as text, without an XML declaration.
std::string to_text(const pugi::xml_node& root);

// The same without the root's width and height: librsvg then draws and measures
// at the size it is asked for, and is as exact at one unit a page as at a thousand.
std::string to_text_without_size(pugi::xml_node root);

}  // namespace platewright::read
