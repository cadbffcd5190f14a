// Which cells of a figure are painted at all, however faintly: what a tiling
// must cover.
#include <algorithm>
#include <cmath>

#include "read/read.hpp"
#include "read/svg_drawing.hpp"

namespace platewright::read {
namespace {

constexpr std::uint32_t near_white = 250;  // of 255, each channel on white paper: prints as nothing
constexpr double most_side = 16'000;       // pixels

bool prints_nothing(std::uint32_t argb) {
  const std::uint32_t white = 255 - (argb >> 24);
  for (const int shift : {0, 8, 16})
    if ((argb >> shift & 0xff) + white < near_white) return false;
  return true;
}

}  // namespace

Result<FigureGrid> painted_cells(const std::string& svg, const FigureBox& view, double cell,
                                 const std::string& name) {
  std::string why;
  const auto drawing = Drawing::load(svg, {}, why);
  if (!drawing)
    return error("figure-undrawable", {name, 0, 0}, "the figure cannot be drawn: " + why,
                 "open it in a drawing program and save it anew");
  RasterFrame frame;
  frame.view = view;
  frame.scale = std::min(1 / cell, most_side / std::max(view.w, view.h));
  frame.width = std::max(1, static_cast<int>(std::ceil(view.w * frame.scale - 1e-6)));
  frame.height = std::max(1, static_cast<int>(std::ceil(view.h * frame.scale - 1e-6)));
  Pixels pixels;
  if (!drawing->render(frame, {0, 0, frame.width, frame.height}, "", {}, pixels))
    return error("figure-undrawable", {name, 0, 0},
                 "the figure cannot be drawn: it passes the limits of the drawing library",
                 "make it simpler");

  FigureGrid grid;
  grid.box = view;
  grid.cell = 1 / frame.scale;
  grid.columns = frame.width;
  grid.rows = frame.height;
  const int w = frame.width, h = frame.height;
  grid.values.assign(pixels.argb.size(), 255);
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
