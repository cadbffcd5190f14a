// Figures as they were read: drawing one takes the library longer than all else that is
// read for a sheet.
#pragma once

#include <string>
#include <vector>

#include "emit/emit.hpp"
#include "engine/part_store.hpp"
#include "platewright/figure.hpp"
#include "platewright/figure_version.hpp"
#include "platewright/result.hpp"

namespace platewright {

// Of a figure's bytes and those of the images that it takes from beside it.
Result<std::string> figure_digest(const std::string& path);

// figure_file(), or what it gave before for the same bytes: `digest` is theirs. A figure with
// words is always read, as it looks by the faces that are installed.
Result<Figure> kept_figure(PartStore& store, const std::string& digest, const std::string& path,
                           const std::vector<AddedAnchor>& added,
                           const FigureVersion* version = nullptr);

// Drawings of art for PDFs, kept likewise.
emit::KeepArt kept_art(PartStore& store);

}  // namespace platewright
