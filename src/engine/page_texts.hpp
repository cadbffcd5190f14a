// Pages of the writer's own in a pack's editions.
#pragma once

#include <map>
#include <string>

#include "engine/pack_plan.hpp"
#include "platewright/page_text.hpp"

namespace platewright {

// Texts of the pack's pages, read once: by path.
using PageTexts = std::map<std::string, PageText>;

// The texts that any edition of the plan prints. Errors of the reader, and
// `glyph-missing` where a face of the edition's style lacks a character of them.
Result<PageTexts> read_page_texts(const PackPlan& plan);

// Paths of the page that an edition prints for a name; empty: none in its language.
std::string page_path(const PackPlan& plan, const std::string& name, const LabelSet& set);

}  // namespace platewright
