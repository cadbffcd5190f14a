// Which cells of a figure are painted at all, however faintly: what a tiling
// must cover.
#include <algorithm>
#include <cmath>

#include "read/read.hpp"
#include "read/region_pixels.hpp"
#include "read/svg_drawing.hpp"

namespace platewright::read {
namespace {

constexpr std::uint32_t quarter_alpha = 64;  // of 255: a quarter of a pixel counts as painted
constexpr double most_side = 16'000;       // pixels

}  // namespace

Result<FigureGrid> painted_cells(const PaintedRequest& request) {
  std::string why;
  const FigureBox& view = request.view;
  const auto drawing = Drawing::load(*request.svg, {}, why);
  if (!drawing)
    return error("figure-undrawable", {request.name, 0, 0}, "the figure cannot be drawn: " + why,
                 "open it in a drawing program and save it anew");
  const FigureBox asked = request.window.w > 0 ? request.window : view;
  RasterFrame frame;
  frame.view = view;
  frame.scale = std::min(1 / request.cell, most_side / std::max(asked.w, asked.h));
  frame.width = std::max(1, static_cast<int>(std::ceil(view.w * frame.scale - 1e-6)));
  frame.height = std::max(1, static_cast<int>(std::ceil(view.h * frame.scale - 1e-6)));
  const PixelBox window = request.window.w > 0 ? frame.pixels(request.window, 1)
                                               : PixelBox{0, 0, frame.width, frame.height};
  Pixels pixels;
  if (!drawing->render(frame, window, "", {}, pixels))
    return error("figure-undrawable", {request.name, 0, 0},
                 "the figure cannot be drawn: it passes the limits of the drawing library",
                 "make it simpler");

  FigureGrid grid;
  grid.cell = 1 / frame.scale;
  grid.box = {view.x + window.x * grid.cell, view.y + window.y * grid.cell, window.w * grid.cell,
              window.h * grid.cell};
  grid.columns = window.w;
  grid.rows = window.h;
  const int w = window.w, h = window.h;
  grid.values.assign(pixels.argb.size(), 255);
  if (!request.paper_is_blank) {
    for (std::size_t i = 0; i < pixels.argb.size(); ++i)
      if (pixels.argb[i] >> 24 < quarter_alpha) grid.values[i] = 0;
    return grid;
  }
  // Paper spreads from the border through what prints as nothing; white parts
  // within the drawing belong to it.
  std::vector<std::uint32_t> front;
  const auto visit = [&](int x, int y) {
    if (x < 0 || y < 0 || x >= w || y >= h) return;
    const std::size_t i =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(w) + static_cast<std::size_t>(x);
    if (grid.values[i] == 0 || !prints_nothing(pixels.argb[i])) return;
    grid.values[i] = 0;
    front.push_back(static_cast<std::uint32_t>(i));
  };
  for (int x = 0; x < w; ++x) {
    visit(x, 0);
    visit(x, h - 1);
  }
  for (int y = 0; y < h; ++y) {
    visit(0, y);
    visit(w - 1, y);
  }
  while (!front.empty()) {
    const auto at = static_cast<int>(front.back());
    front.pop_back();
    visit(at % w - 1, at / w);
    visit(at % w + 1, at / w);
    visit(at % w, at / w - 1);
    visit(at % w, at / w + 1);
  }
  return grid;
}

}  // namespace platewright::read
