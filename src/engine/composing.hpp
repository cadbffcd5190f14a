// All sheets of one figure, label set and paper, composed and not yet written:
// what `sheet` writes and a pack is put together from.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compose/page.hpp"
#include "emit/emit.hpp"
#include "engine/load.hpp"
#include "engine/planning.hpp"

namespace platewright {

struct ComposedSheet {
  SheetKind kind;
  std::shared_ptr<const Planned> planned;  // shared by the sheets that lie on each other
  std::vector<compose::Page> pages;
  std::vector<compose::Page> keys;
  std::string check_code;
  std::vector<std::pair<std::string, double>> facts;  // for the report
};

using Plans = std::map<Placing, std::shared_ptr<const Planned>>;

struct ComposedFigure {
  std::shared_ptr<const Loaded> loaded;
  std::vector<ComposedSheet> sheets;                      // in the order of the request's kinds
  std::vector<std::pair<double, std::string>> outlines;  // art that their pages ask for, by width
  Plans plans;                                            // of the placements that they stand in
};

// Single-stroke letters, where they are installed.
std::optional<text::StrokeFont> stroke_font(const Environment& environment);

// Everything that the request's sheets need; all faults of the request and of
// its files at once, those of type (`face-missing`, `glyph-missing`) included.
// `loaded`: by `load`.
Result<std::shared_ptr<const Loaded>> ready_to_compose(const SheetRequest& request,
                                                       Result<Loaded> loaded,
                                                       const text::Typesetter& typesetter);
Result<std::shared_ptr<const Loaded>> load_to_compose(const SheetRequest& request,
                                                     const Environment& environment,
                                                     const text::Typesetter& typesetter,
                                                     const Keeping* keeping = nullptr);

// `known` are plans made before of the same figure, set and paper.
Result<ComposedFigure> compose_figure(std::shared_ptr<const Loaded> loaded,
                                      const SheetRequest& request,
                                      const text::Typesetter& typesetter,
                                      const text::StrokeFont* strokes, Plans known = {});

// What emitting these sheets takes; refers to `composed` and `typesetter`.
emit::EmitContext context_of(const ComposedFigure& composed, const Environment& environment,
                             const text::Typesetter& typesetter);

}  // namespace platewright
