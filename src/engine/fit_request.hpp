// What the solver is told of a figure, a style and a page, all but the labels.
#pragma once

#include "place/place.hpp"
#include "platewright/figure.hpp"
#include "platewright/style.hpp"

namespace platewright {

// `area` in mm on the page: figure and labels stay inside.
place::FitRequest base_request(const Figure& figure, const Style& style, const PageBox& area);

}  // namespace platewright
