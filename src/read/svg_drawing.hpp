// librsvg behind values: a loaded drawing, what it says of an element's
// geometry, and its pixels. The document is given no address, so librsvg can
// load nothing beside it.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/geometry.hpp"

namespace platewright::read {

// Premultiplied ARGB (cairo's ARGB32), row by row from the top.
struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<std::uint32_t> argb;
  std::uint32_t at(int x, int y) const {
    return argb[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                static_cast<std::size_t>(x)];
  }
};

// A piece of the raster, in pixels.
struct PixelBox {
  int x = 0, y = 0, w = 0, h = 0;
  friend bool operator==(const PixelBox&, const PixelBox&) = default;
};

// How the figure's units lie on the raster: pixel = (unit - view corner) * scale.
struct RasterFrame {
  FigureBox view;
  double scale = 1.0;  // pixels for one unit
  int width = 0;
  int height = 0;
  FigurePoint to_figure(double px, double py) const {
    return {view.x + px / scale, view.y + py / scale};
  }
  // The pixels that a box touches, grown by `margin` pixels, inside the raster.
  PixelBox pixels(const FigureBox& box, int margin) const;
};
// The larger side becomes `side` pixels.
RasterFrame raster_frame(const FigureBox& view, int side);

struct Geometry {
  FigureBox ink;      // with strokes
  FigureBox logical;  // without; both without clips and masks
};

class Drawing {
 public:
  // `rules` come after the document's own; those that say !important win over
  // all but the document's own !important. Nothing, with `why` told, when
  // librsvg refuses the document.
  static std::optional<Drawing> load(const std::string& svg, const std::string& rules,
                                     std::string& why);

  // Sets rules for what is asked from now on. One drawing, one set of rules: librsvg 2.54
  // keeps what earlier rules with !important set.
  void restyle(const std::string& rules);

  // Geometry of an element through all its transforms, in figure units.
  // Nothing when there is no such element or it has no extent.
  std::optional<Geometry> geometry(const std::string& id, const FigureBox& view) const;

  // What is painted when the document has neither viewBox nor size.
  std::optional<FigureBox> ink_without_view() const;

  // The window of the raster, with all of the figure or one element of it.
  // `only`, when not empty, are the only places that need to be right.
  // False when librsvg fails half-way (its own limits); what was drawn stays.
  bool render(const RasterFrame& frame, const PixelBox& window, const std::string& id,
              const std::vector<PixelBox>& only, Pixels& pixels) const;

  // All of it as the one page of a PDF, with lines and letters as such, and only
  // what librsvg itself turns into pixels (filters) as images. Sides in points.
  // Nothing when librsvg or Cairo fails.
  std::optional<std::string> pdf(double width, double height) const;

  // Whether an element paints anything at all with the rules now set.
  bool paints(const std::string& id, const FigureBox& view) const;

 private:
  struct Unref {
    void operator()(void* object) const;
  };
  std::string svg_;  // librsvg may read it later
  std::unique_ptr<void, Unref> handle_;
};

}  // namespace platewright::read
