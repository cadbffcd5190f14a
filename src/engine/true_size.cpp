// make_true_size: read, scale, tile, compose, emit, write.
#include "platewright/true_size.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "compose/true_size.hpp"
#include "engine/figure_file.hpp"
#include "engine/load.hpp"
#include "engine/page_files.hpp"
#include "engine/real_paper.hpp"
#include "engine/real_scale.hpp"
#include "engine/true_report.hpp"
#include "engine/write.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

constexpr double finest_cell = 0.25;    // mm
constexpr double most_cells = 1.5e6;    // of the grid on which offsets are tried
constexpr double map_cells = 70;        // across the longer side of the maps' silhouette

struct Tiled {
  place::Tiling tiling;
  bool landscape = false;
};

Result<Tiled> tiled(const place::Cells& cells, const RealPaper& paper, double overlap, const Style& style) {
  const double w = paper.width - 2 * paper.margin, h = paper.height - 2 * paper.margin;
  const PageBox room = compose::ruler_room(compose::Way::across);
  if (w < 3 * overlap || std::max(w, h) < room.w || std::min(w, h) < 2 * room.h)
    return error("paper-small", {"--paper", 0, 0},
                 "the paper leaves " + format_mm(Length::mm(w)) + " by " + format_mm(Length::mm(h)) +
                     " to print on, too little for an overlap of " + format_mm(Length::mm(overlap)) +
                     " and a ruler of 10 cm",
                 "take larger paper or a smaller --overlap");
  const place::Occupancy occupancy(cells);
  const PageBox box = occupancy.box();
  if (box.w <= 0)
    return error("figure-empty", {}, "the figure paints nothing", "draw something");
  const int most = style.true_size.most_sheets;
  const auto boxed = [&](double a, double b) {
    return static_cast<double>(place::tiles_for_length(box.w, a, overlap)) * place::tiles_for_length(box.h, b, overlap);
  };
  const auto too_many = [&](double sheets, const std::string& about) {
    return error("sheets-too-many", {"--stature", 0, 0},
                 "the figure is " + compose::said_length(Length::mm(box.w)) + " by " +
                     compose::said_length(Length::mm(box.h)) + " and takes " + about + format_number(sheets, 0) +
                     " sheets, more than " + std::to_string(most),
                 "make it smaller, take larger paper, or raise most-sheets in the style");
  };
  // An outline may need far fewer than its box, but not a tenth.
  if (const double least = std::min(boxed(w, h), boxed(h, w)); least > 10.0 * most) return too_many(least, "up to ");
  std::optional<Tiled> best;
  for (const bool landscape : {false, true}) {
    auto tiling = place::fewest_tiles(cells, landscape ? h : w, landscape ? w : h, overlap);
    if (tiling && (!best || tiling->printed.size() < best->tiling.printed.size()))
      best = Tiled{std::move(*tiling), landscape};
  }
  if (static_cast<int>(best->tiling.printed.size()) > most)
    return too_many(static_cast<double>(best->tiling.printed.size()), "");
  return *best;
}

std::string shown_name(const Loaded& loaded, const std::string& anchor) {
  for (const SetLabel& label : loaded.labels)
    if (label.anchor == anchor) return label.wording->text;
  return anchor;
}

}  // namespace

SheetRequest sheet_request(const TrueSizeRequest& r) {
  SheetRequest s;
  s.figure = r.figure;
  s.terms = r.terms;
  s.sets = r.sets;
  s.set = r.set;
  s.style = r.style;
  s.title = r.title;
  return s;  // its paper is not used
}

Result<MadeSheets> make_true_size(const TrueSizeRequest& request, const Environment& environment) {
  Findings findings = check_real_size(request.size);
  const auto collect = [&](const Findings& more) { findings.insert(findings.end(), more.begin(), more.end()); };
  auto loaded = load(sheet_request(request), environment);
  collect(loaded.findings());
  auto target = page_target(request.out, loaded.ok() ? loaded->figure.name + "-true-size" : "true-size");
  if (!target.ok()) collect(target.findings());
  if (request.blanks && request.terms.empty())
    findings.push_back(error("terms-missing", {"--blanks", 0, 0}, "blanks need a table of terms",
                             "give --terms FILE, which says what has a blank"));
  const Style style = loaded.ok() ? loaded->style : Style{};
  auto paper = real_paper(request.paper, style);
  if (!paper.ok()) collect(paper.findings());
  Length overlap = style.true_size.overlap;
  if (!request.overlap.empty()) {
    auto asked = parse_length(request.overlap);
    if (!asked.ok()) {
      Findings faults = asked.findings();
      for (Finding& f : faults) f.at.file = "--overlap";
      collect(faults);
    } else if (asked->mm() < 5 || asked->mm() > 40) {
      findings.push_back(error("overlap-range", {"--overlap", 0, 0},
                               "an overlap of " + format_mm(*asked) + " is not between 5 mm and 40 mm",
                               "10 to 15 mm hold glue well"));
    } else {
      overlap = *asked;
    }
  }
  if (has_error(findings)) return findings;

  auto scale = real_scale(request.size, loaded->figure);
  collect(scale.findings());
  if (!scale.ok()) return findings;
  const double k = scale->mm_per_unit;
  const Figure& figure = loaded->figure;

  // What is drawn, as it is drawn.
  const bool outlines = request.outlines || style.outline_art;
  const double line = style.for_age(loaded->matter.youngest).colouring_line.mm();
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
  const double cell = std::max(finest_cell, std::sqrt(wide * high / most_cells));
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
  const place::Cells cells{painted->columns, painted->rows, painted->cell * k, std::move(painted->values)};
  auto tiles = tiled(cells, *paper, overlap.mm(), style);
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
  input.words = &loaded->words;
  input.typesetter = &typesetter;
  input.occupancy = &occupancy;
  const int block = std::max(1, static_cast<int>(std::max(cells.columns, cells.rows) / map_cells));
  for (const place::Polygon& polygon : place::outlines(place::coarser(cells, block)))
    if (input.shape.empty() || place::area(polygon) > 0.01 * place::area(input.shape.front()))
      input.shape.push_back(place::simplified(polygon, block * cells.cell * 0.75));
  input.matter = loaded->matter;
  input.page_width = tiles->landscape ? paper->height : paper->width;
  input.page_height = tiles->landscape ? paper->width : paper->height;
  input.margin = paper->margin;
  input.scale = k;
  input.corner = {figure.view_box.x, figure.view_box.y};
  input.tiling = tiles->tiling;
  input.order = place::assembly_order(tiles->tiling);
  input.art = outlines ? compose::Art::outlines : compose::Art::painted;
  input.outline_width = line;
  const std::string said = compose::said_length(scale->length);
  const Words& words = loaded->words;
  if (scale->is_stature)
    input.length_text = fill(words.at("stature-length"), "length", said);
  else
    input.length_text = fill(fill(fill(words.at("between-length"), "from", shown_name(*loaded, scale->from)), "to",
                                  shown_name(*loaded, scale->to)),
                             "length", said);
  if (scale->age) input.length_note = fill(words.at("stature-of-age"), "age", format_number(*scale->age, 1));
  if (scale->age)
    input.age = static_cast<int>(std::floor(*scale->age));
  else if (!request.terms.empty())
    input.age = loaded->set.youngest;

  compose::Ruler cover_ruler;
  compose::Document document;
  document.language = loaded->matter.language;
  document.author = loaded->matter.credit;
  document.direction = loaded->matter.direction;
  document.print_scaling_off = true;
  document.pages.push_back(compose::cover(input, cover_ruler));
  document.pages.back().label = "0";
  document.title = document.pages.front().title;
  std::vector<compose::TileSheet> sheets = compose::tile_sheets(input);
  for (const compose::TileSheet& sheet : sheets) document.pages.push_back(sheet.page);

  auto files = page_files(*target, document, context);
  collect(files.findings());
  if (!files.ok()) return findings;
  MadeSheets made;
  for (const OutputFile& file : *files) made.files.push_back(file.path);
  std::vector<OutputFile> all = std::move(*files);
  if (!request.report.empty()) {
    const PageBox box = occupancy.box();
    const double w = paper->width - 2 * paper->margin, h = paper->height - 2 * paper->margin;
    const auto boxed = [&](double a, double b) {
      return place::tiles_for_length(box.w, a, overlap.mm()) * place::tiles_for_length(box.h, b, overlap.mm());
    };
    all.push_back({request.report, true_size_report({request.figure, made.files, &input, &*scale, paper->name,
                                                     tiles->landscape, std::min(boxed(w, h), boxed(h, w)), box,
                                                     cover_ruler, &sheets})});
    made.files.push_back(request.report);
  }
  collect(write_all(all));
  if (has_error(findings)) return findings;
  return {std::move(made), std::move(findings)};
}

}  // namespace platewright
