// Figures whose lines stay as thick as a printer can show, however small they are drawn.
#pragma once

#include <span>

#include "compose/page.hpp"
#include "emit/emit.hpp"
#include "platewright/length.hpp"

namespace platewright {

// Painted figures on these pages that would have thinner lines than `least` show a document of
// `art` made for it, one for each quarter by which sizes differ. Pages of documents without such
// lines stay as they are.
void thicken_lines(std::span<compose::Page* const> pages, Length least, emit::ArtSource& art);
void thicken_lines(compose::Document& document, Length least, emit::ArtSource& art);

}  // namespace platewright
