// Every fault of a pack: its manifest, its tables and figures, and what only
// shows when they stand side by side.
#pragma once

#include <string>

#include "platewright/engine.hpp"

namespace platewright {

// Errors of everything read. Warnings besides theirs: `set-missing` (a figure
// without one of the pack's sets), `term-unused` (in none of them),
// `term-untranslated` (a set lacks what a set of the same ages in another language
// has), `anchor-unlabelled` (no term), `spelling-differs` (one term spelt in two
// ways by two tables), `page-language` (no text for an edition).
Findings check_pack(const std::string& path, const Environment& environment);

// A word as it is compared: small letters, no spaces, hyphens and soft hyphens,
// "ae" and "oe" as "e".
std::string spelling_key(std::string_view text);

}  // namespace platewright
