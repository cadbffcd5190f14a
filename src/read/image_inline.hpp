// Raster images of a figure: those embedded are checked, those beside the
// figure become embedded, and everything else goes.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "read/read.hpp"
#include "read/svg_dropped.hpp"

namespace platewright::read {

// What all images of one figure have used up, and those read before.
struct ImageBudget {
  std::size_t bytes = 0;
  std::size_t pixels = 0;
  std::map<std::string, std::string> read;  // href -> data: URI
};

// The data: URI for an image's href; empty when the image is to be dropped,
// which is then told in `findings` or counted in `dropped`. `figure_path` tells
// the folder, which nothing read may lie outside of, symbolic links resolved.
// Errors: `image-outside`, `image-large`. Warnings: `image-missing`,
// `image-remote`, and `image-svg`, `image-broken` by count.
std::string inlined_image(std::string_view href, const std::string& figure_path,
                          const SourcePosition& at, const Limits& limits, ImageBudget& budget,
                          DropCount& dropped, Findings& findings);

}  // namespace platewright::read
