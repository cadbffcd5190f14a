// Figures from files, within the time that one figure may take.
#pragma once

#include <string>
#include <vector>

#include "platewright/figure.hpp"
#include "platewright/figure_version.hpp"
#include "platewright/result.hpp"
#include "platewright/terms.hpp"

namespace platewright {

// Seconds that reading one figure may take, and making its outlines: together less than ten.
constexpr double figure_seconds = 6, outline_seconds = 3.5;

// read::figure of the file's bytes. Error `figure-slow` past the limit.
Result<Figure> figure_file(const std::string& path, const std::vector<AddedAnchor>& added,
                           const FigureVersion* version = nullptr);

// read::outline_art, likewise.
Result<std::string> outlines_of(const Figure& figure, double width, const std::string& path);

}  // namespace platewright
