// The stage "emit": composed pages to the bytes of SVG, PDF and PNG.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "compose/page.hpp"
#include "platewright/figure.hpp"
#include "platewright/result.hpp"
#include "text/text.hpp"

namespace platewright::emit {

// The figure's documents that FigureItems refer to.
struct ArtSource {
  const Figure* figure = nullptr;  // its `svg` is the painted art
  // SVG of the outline version for a stroke of `width` figure units: white
  // shapes, ink outlines. Made by read::outline_art; keyed by exact width.
  std::vector<std::pair<double, std::string>> outlines;
  // Documents of parts of the figure, in its view box, that FigureItem::part
  // counts; drawn as they are, whatever the item's art.
  std::vector<std::string> parts = {};
};

// Gives what `draw` would, or what it gave before for the same `from`: all that a drawing of
// art in a PDF follows from, its document first.
using KeepArt = std::function<Result<std::string>(
    const std::string& from, const std::function<Result<std::string>()>& draw)>;

// Drawing the painted figure for a PDF whose pages show it at most at `scale` mm a figure unit:
// as KeepArt's two arguments, so that it may be done before there is a page. `source` must outlive
// it.
struct DrawnAhead {
  std::string from;
  std::function<Result<std::string>()> draw;
};
DrawnAhead painted_ahead(const ArtSource& source, double scale);

struct EmitContext {
  const text::Typesetter* typesetter = nullptr;
  ArtSource art;
  double png_dpi = 150;
  long long source_date = -1;  // SOURCE_DATE_EPOCH; < 0: no dates are written
  std::string producer = "platewright";
  KeepArt keep_art = {};  // empty: art is always drawn
};

// One page as a stand-alone SVG file.
Result<std::string> svg(const compose::Document& document, std::size_t page,
                        const EmitContext& context);
// All pages as one PDF.
Result<std::string> pdf(const compose::Document& document, const EmitContext& context);
// One page as PNG (white paper).
Result<std::string> png(const compose::Document& document, std::size_t page,
                        const EmitContext& context);

// The drawing libraries in use, whose output depends on their versions.
std::string library_versions();

}  // namespace platewright::emit
