// make_true_size: read, scale, tile, compose, emit, write.
#include "platewright/true_size.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "compose/guides.hpp"
#include "compose/true_size.hpp"
#include "engine/body_words.hpp"
#include "engine/figure_file.hpp"
#include "engine/outputs.hpp"
#include "engine/real_setup.hpp"
#include "engine/real_tiling.hpp"
#include "engine/thick_art.hpp"
#include "engine/true_report.hpp"
#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

constexpr double finest_offset_cell = 0.25;  // mm
constexpr double least_size = 5;      // mm: less is a slip of the unit
constexpr double fewest_cells = 200;  // along its longer side, however small the figure
constexpr double most_offset_cells = 8e5;  // of the grid on which offsets are tried
constexpr double map_cells = 120;     // across the longer side of the maps' silhouette

}  // namespace

Result<MadeSheets> make_true_size(const TrueSizeRequest& request, const Environment& environment) {
  auto setup = real_setup(sheet_request(request), request.size, request.paper, request.overlap,
                          request.out, "-true-size", environment);
  Findings findings = setup.findings();
  const auto collect = [&](const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
  };
  if (request.blanks && request.terms.empty())
    findings.push_back(error("terms-missing", {"--blanks", 0, 0}, "blanks need a table of terms",
                             "give --terms FILE, which says what has a blank"));
  if (has_error(findings)) return findings;
  const Loaded& loaded = setup->loaded;
  const RealPaper& paper = setup->paper;
  const RealScale& scale = setup->scale;
  const Length overlap = setup->overlap;
  const Style& style = loaded.style;
  const double k = scale.mm_per_unit;
  const Figure& figure = loaded.figure;

  // What is drawn, as it is drawn.
  const bool outlines = request.outlines || style.outline_art;
  const double line = style.for_age(loaded.matter.youngest).colouring_line.mm();
  emit::EmitContext context;
  context.art.figure = &figure;
  context.png_dpi = style.png_dpi;
  context.source_date = environment.source_date;
  if (outlines) {
    auto art = outlines_of(figure, line / k, request.figure);
    collect(art.findings());
    if (!art.ok()) return findings;
    context.art.outlines.emplace_back(line / k, std::move(*art));
  }
  const double wide = k * figure.view_box.w, high = k * figure.view_box.h;
  if (const double longest = k * std::max(figure.painted.w, figure.painted.h);
      longest < least_size) {
    findings.push_back(error("figure-tiny", {"--stature", 0, 0},
                             "the figure would be " + format_mm(Length::mm(longest), 3) + " long",
                             "make it larger"));
    return findings;
  }
  const double cell =
      std::min(std::max(finest_offset_cell, std::sqrt(wide * high / most_offset_cells)),
               std::max(wide, high) / fewest_cells);
  read::PaintedRequest ask;
  ask.svg = outlines ? &context.art.outlines.front().second : &figure.svg;
  ask.view = figure.view_box;
  ask.cell = cell / k;
  ask.name = request.figure;
  auto painted = read::painted_cells(ask);
  if (!painted.ok()) {
    collect(painted.findings());
    return findings;
  }
  const place::Cells cells{painted->columns, painted->rows, painted->cell * k,
                           std::move(painted->values)};
  auto tiles = fewest_sheets(cells, paper, overlap.mm(), style);
  if (!tiles.ok()) {
    collect(tiles.findings());
    return findings;
  }

  const text::Typesetter typesetter;
  context.typesetter = &typesetter;
  const place::Occupancy occupancy(cells);
  compose::TrueSizeInput input;
  input.figure = &figure;
  input.style = &style;
  input.words = &loaded.words;
  input.typesetter = &typesetter;
  input.occupancy = &occupancy;
  const int block = std::max(1, static_cast<int>(std::max(cells.columns, cells.rows) / map_cells));
  for (const place::Polygon& polygon : place::outlines(place::coarser(cells, block)))
    if (input.shape.empty() || place::area(polygon) > 0.01 * place::area(input.shape.front()))
      input.shape.push_back(place::simplified(polygon, block * cells.cell * 0.7));
  input.matter = loaded.matter;
  input.page_width = tiles->landscape ? paper.height : paper.width;
  input.page_height = tiles->landscape ? paper.width : paper.height;
  input.margin = paper.margin;
  input.scale = k;
  input.corner = {figure.view_box.x, figure.view_box.y};
  input.tiling = tiles->tiling;
  input.order = place::assembly_order(tiles->tiling);
  input.art = outlines ? compose::Art::outlines : compose::Art::painted;
  input.outline_width = line;
  const Words& words = loaded.words;
  input.length_text = setup->length_text;
  if (scale.age) {
    const auto said = [&](double value) {
      return compose::written(format_number(value, 1), words);
    };
    const bool average = scale.percentile == 50;
    input.length_note = fill(words.at(average ? "stature-of-age" : "stature-of-percentile"), "age",
                             said(*scale.age));
    input.length_note = fill(input.length_note, "percentile", said(scale.percentile));
  }
  if (scale.age)
    input.age = static_cast<int>(std::floor(*scale.age));
  else if (!request.terms.empty())
    input.age = loaded.set.youngest;

  if (!loaded.labels.empty()) {
    collect(place_body_labels(loaded, request.blanks, request.terms, input));
    if (has_error(findings)) return findings;
  }

  compose::Ruler cover_ruler;
  compose::Document document;
  document.language = loaded.matter.language;
  document.author = loaded.matter.credit;
  document.direction = loaded.matter.direction;
  document.print_scaling_off = true;
  document.pages.push_back(compose::cover(input, cover_ruler));
  document.pages.back().label = "0";
  document.title = document.pages.front().title;
  std::vector<compose::TileSheet> sheets = compose::tile_sheets(input);
  for (const compose::TileSheet& sheet : sheets) document.pages.push_back(sheet.page);
  thicken_lines(document, style.art_least_line, context.art);

  auto files = page_files(setup->target, document, context);
  collect(files.findings());
  if (!files.ok()) return findings;
  MadeSheets made;
  for (const OutputFile& file : *files) made.files.push_back(file.path);
  std::vector<OutputFile> all = std::move(*files);
  if (!request.report.empty()) {
    const PageBox box = occupancy.box();
    all.push_back(
        {request.report,
         true_size_report({request.figure, made.files, &input, &scale, paper.name, tiles->landscape,
                           sheets_for_box(box, paper, overlap.mm()), box, cover_ruler, &sheets})});
    made.files.push_back(request.report);
  }
  collect(
      misdirected(paths_of(all), [&] { return inputs_of(sheet_request(request), environment); }));
  if (has_error(findings)) return findings;
  collect(write_all(all));
  if (has_error(findings)) return findings;
  return {std::move(made), std::move(findings)};
}

}  // namespace platewright
