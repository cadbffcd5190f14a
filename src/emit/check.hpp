// What every output needs of a page before it is written.
#pragma once

#include "compose/page.hpp"
#include "platewright/finding.hpp"

namespace platewright::emit {

// Errors `page-missing` (no such page), `page-size`, `page-not-finite`.
Findings check(const compose::Document& document, std::size_t page);

// Bleed and slug together: how far the sheet reaches beyond the trim, mm.
double surround(const compose::Page& page);

}  // namespace platewright::emit
