#include "engine/figure_file.hpp"

#include <optional>

#include "base/number.hpp"
#include "engine/deadline.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

// Sanitizers slow the drawing library some three to twenty times.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr double patience = 5;
#else
constexpr double patience = 1;
#endif

Finding slow(const std::string& path, const std::string& what, double seconds) {
  return error("figure-slow", {path, 0, 0},
               what + " takes more than " + format_number(seconds, 1) + " s",
               "make the figure simpler: fewer shapes, shorter paths");
}

}  // namespace

Result<Figure> figure_file(const std::string& path, const std::vector<AddedAnchor>& added,
                           const FigureVersion* version) {
  auto bytes = read::file_bytes(path, read::Limits{}.file_bytes);
  if (!bytes.ok()) return bytes.findings();
  // The thread may outlive this call: everything is its own.
  std::optional<FigureVersion> shown;
  if (version != nullptr) shown = *version;
  auto figure = within(figure_seconds * patience, [text = std::move(*bytes), path, added, shown] {
    return read::figure(text, path, added, {}, shown ? &*shown : nullptr);
  });
  if (!figure) return slow(path, "drawing it", figure_seconds);
  return std::move(*figure);
}

Result<std::string> outlines_of(const Figure& figure, double width, const std::string& path) {
  // The copy is the thread's own; without anchors and grids it is small.
  Figure art;
  art.name = figure.name;
  art.svg = figure.svg;
  art.view_box = figure.view_box;
  art.painted = figure.painted;
  auto outlines = within(outline_seconds * patience,
                         [art = std::move(art), width] { return read::outline_art(art, width); });
  if (!outlines) return slow(path, "outlining it", outline_seconds);
  return std::move(*outlines);
}

}  // namespace platewright
