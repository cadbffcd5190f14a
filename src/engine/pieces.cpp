// make_pieces: regions to parts, parts to cut shapes, shapes to pages.
#include "compose/pieces.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "compose/guides.hpp"
#include "compose/true_size.hpp"
#include "engine/outputs.hpp"
#include "engine/piece_regions.hpp"
#include "engine/piece_shapes.hpp"
#include "engine/pieces_report.hpp"
#include "engine/real_setup.hpp"
#include "engine/real_tiling.hpp"
#include "engine/thick_art.hpp"
#include "engine/write.hpp"
#include "platewright/true_size.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

// 16 CFR 1501.4: the small-parts cylinder, mm.
constexpr double cylinder_across = 31.7, cylinder_deep = 57.1;
constexpr double map_points = 0.7;  // mm, of the outline on maps

// Whether a flat piece passes into the cylinder in some turn.
bool fits_cylinder(const std::vector<place::Polygon>& cut) {
  for (double turn = 0; turn < 180; turn += 2) {
    double left = 1e30, right = -1e30, top = 1e30, bottom = -1e30;
    for (const place::Polygon& polygon : cut)
      for (const PagePoint& p : place::turned(polygon, turn)) {
        left = std::min(left, p.x), right = std::max(right, p.x);
        top = std::min(top, p.y), bottom = std::max(bottom, p.y);
      }
    if (right - left <= cylinder_across && bottom - top <= cylinder_deep) return true;
  }
  return false;
}

std::string name_of(const Loaded& loaded, const std::string& anchor) {
  for (const SetLabel& label : loaded.labels)
    if (label.anchor == anchor) {
      std::string text;
      for (const char c : label.wording->text) text += c == '\n' ? ' ' : c;
      for (std::size_t at; (at = text.find("\u00AD")) != std::string::npos;) text.erase(at, 2);
      return text;
    }
  return {};
}

}  // namespace

Result<MadeSheets> make_pieces(const PiecesRequest& request, const Environment& environment) {
  auto setup = real_setup(sheet_request(request), request.size, request.paper, request.overlap,
                          request.out, "-pieces", environment);
  Findings findings = setup.findings();
  const auto collect = [&](const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
  };
  if (!(request.factor >= 0.05 && request.factor <= 50))
    findings.push_back(
        error("factor-range", {"--factor", 0, 0},
              "a factor of " +
                  (std::isfinite(request.factor) ? format_number(request.factor, 3) : "that") +
                  " is not between 0.05 and 50",
              "1 is true size"));
  if (request.for_age && (*request.for_age < 0 || *request.for_age > 99))
    findings.push_back(error("age-invalid", {"--for-age", 0, 0},
                             std::to_string(*request.for_age) + " is not an age between 0 and 99",
                             "write it as 6"));
  if (!setup.ok() || has_error(findings)) return findings;
  const Loaded& loaded = setup->loaded;
  const Style& style = loaded.style;
  const Figure& figure = loaded.figure;
  const double k = setup->scale.mm_per_unit * request.factor;

  const std::vector<std::string> regions = wanted_regions(request, loaded, findings);
  if (has_error(findings)) return findings;
  auto parts = read::region_parts(figure, regions);
  collect(parts.findings());
  if (!parts.ok()) return findings;
  std::stable_sort(
      parts->begin(), parts->end(),
      [](const read::RegionPart& a, const read::RegionPart& b) { return a.order < b.order; });

  std::optional<int> age = request.for_age;
  if (!age && !request.terms.empty()) age = loaded.set.youngest;
  if (!age && setup->scale.age) age = static_cast<int>(std::floor(*setup->scale.age));
  CutRule rule;
  rule.smooth = age && *age < style.true_size.young;
  rule.offset = (rule.smooth ? style.true_size.young_cut : style.true_size.cut).mm();
  rule.flap = request.flap ? style.true_size.flap.mm() : 0;

  emit::EmitContext context;
  context.art.figure = &figure;
  context.png_dpi = style.png_dpi;
  context.source_date = environment.source_date;
  compose::PiecesInput input;
  std::vector<place::Cells> cells;
  const double line = style.for_age(age.value_or(loaded.matter.youngest)).colouring_line.mm();
  for (std::size_t i = 0; i < parts->size(); ++i) {
    read::RegionPart& part = (*parts)[i];
    if (request.outlines || style.outline_art) {
      Figure alone = figure;
      alone.svg = part.svg;
      auto art = read::outline_art(alone, line / k);
      collect(art.findings());
      if (!art.ok()) return findings;
      part.svg = std::move(*art);
    }
    auto shaped = shaped_piece(figure, part.anchor, part.bare, k, rule);
    collect(shaped.findings());
    if (!shaped.ok()) continue;
    shaped->piece.number = static_cast<int>(i) + 1;
    shaped->piece.name = name_of(loaded, part.anchor);
    shaped->piece.part = static_cast<int>(i);
    if (age && *age < 3 && fits_cylinder(shaped->piece.cut))
      findings.push_back(error(
          "piece-small", {"--for-age", 0, 0},
          "the piece " + in_quotes(part.anchor) +
              " fits the small-parts cylinder (31.7 mm across, 57.1 mm deep; 16 CFR 1501.4)",
          "under-threes do not get it: leave it out of --regions, or take a larger --factor"));
    input.pieces.push_back(std::move(shaped->piece));
    cells.push_back(std::move(shaped->cut_cells));
    context.art.parts.push_back(std::move(part.svg));
  }
  if (has_error(findings)) return findings;

  const text::Typesetter typesetter;
  context.typesetter = &typesetter;
  const RealPaper& paper = setup->paper;
  input.figure = &figure;
  input.style = &style;
  input.words = &loaded.words;
  input.typesetter = &typesetter;
  input.matter = loaded.matter;
  if (age) input.matter.youngest = *age;
  input.page_width = paper.width;
  input.page_height = paper.height;
  input.margin = paper.margin;
  input.scale = k;
  input.length_text = setup->length_text;
  if (request.factor != 1)
    input.length_text += " × " + compose::written(format_number(request.factor, 2), loaded.words);
  input.folds = request.flap;
  input.caution =
      compose::scissors_words(loaded.words, age) + " " + loaded.words.at("no-under-threes");
  const PageBox area = compose::pieces_area(input);
  if (area.w < compose::ruler_room(compose::Way::across).w || area.h < 40)
    return error("paper-small", {"--paper", 0, 0},
                 "the paper leaves " + format_mm(Length::mm(area.w)) + " by " +
                     format_mm(Length::mm(area.h)) + " for pieces",
                 "take larger paper");

  place::NestRequest nest_request;
  nest_request.width = area.w;
  nest_request.height = area.h;
  nest_request.gap = style.true_size.piece_gap.mm();
  std::vector<compose::PieceWords> words;
  std::vector<place::NestShape> shapes;
  for (const compose::Piece& piece : input.pieces) {
    words.push_back(compose::piece_words(input, piece));
    place::NestShape shape;
    shape.name = piece.anchor;
    shape.outline = piece.cut;
    if (!words.back().inside) {
      shape.tag_width = words.back().line.advance + 1;
      shape.tag_height = words.back().line.ascent + words.back().line.descent;
    }
    shapes.push_back(std::move(shape));
  }
  place::Nest nest = place::nested(shapes, nest_request);

  // Pieces larger than a page are tiled.
  std::vector<std::size_t> nested, large;
  for (std::size_t i = 0; i < shapes.size(); ++i)
    (nest.places[i].page >= 0 ? nested : large).push_back(i);
  struct TiledPiece {
    std::size_t piece;
    compose::TrueSizeInput input;
    place::Occupancy occupancy;
  };
  std::vector<TiledPiece> tiled;
  tiled.reserve(large.size());
  std::size_t all_pages = static_cast<std::size_t>(nest.pages);
  for (const std::size_t i : large) {
    // Coarser cells do for counting sheets.
    const place::Cells coarse = place::coarser(
        cells[i], std::max(1, static_cast<int>(
                                  std::sqrt(static_cast<double>(cells[i].values.size()) / 6e5))));
    auto tiling = fewest_sheets(coarse, paper, setup->overlap.mm(), style);
    collect(tiling.findings());
    if (!tiling.ok()) continue;
    const compose::Piece& piece = input.pieces[i];
    tiled.push_back({i, {}, place::Occupancy(coarse)});
    compose::TrueSizeInput& t = tiled.back().input;
    t.figure = &figure;
    t.style = &style;
    t.words = &loaded.words;
    t.typesetter = &typesetter;
    for (const place::Polygon& polygon : piece.cut)
      t.shape.push_back(place::simplified(
          polygon, map_points * std::max(1.0, coarse.columns * coarse.cell / 150)));
    t.matter = loaded.matter;
    t.page_width = tiling->landscape ? paper.height : paper.width;
    t.page_height = tiling->landscape ? paper.width : paper.height;
    t.margin = paper.margin;
    t.scale = k;
    t.corner = piece.corner;
    t.part = piece.part;
    t.cut = piece.cut;
    t.clip = piece.clip;
    t.heading =
        std::to_string(piece.number) + "  " + (piece.name.empty() ? piece.anchor : piece.name);
    t.tiling = tiling->tiling;
    t.order = place::assembly_order(tiling->tiling);
    t.age = age;
    all_pages += tiling->tiling.printed.size();
  }
  if (static_cast<int>(all_pages) > style.true_size.most_sheets)
    findings.push_back(
        error("sheets-too-many", {"--factor", 0, 0},
              "the pieces take " + std::to_string(all_pages) + " sheets, more than " +
                  std::to_string(style.true_size.most_sheets),
              "make them smaller, take larger paper, or raise most-sheets in the style"));
  if (has_error(findings)) return findings;
  for (TiledPiece& t : tiled) t.input.occupancy = &t.occupancy;

  place::Nest laid = nest;
  laid.places.clear();
  std::vector<compose::PieceWords> laid_words;
  for (const std::size_t i : nested) {
    laid.places.push_back(nest.places[i]);
    laid_words.push_back(words[i]);
  }
  const std::vector<compose::PiecePage> pages =
      compose::piece_pages(input, nested, laid, laid_words, all_pages);

  compose::Document document;
  document.language = loaded.matter.language;
  document.author = loaded.matter.credit;
  document.direction = loaded.matter.direction;
  document.print_scaling_off = true;
  for (const compose::PiecePage& page : pages) document.pages.push_back(page.page);
  std::vector<TiledPieceReport> tiled_report;
  for (const TiledPiece& t : tiled) {
    TiledPieceReport report{t.piece, document.pages.size(), compose::tile_sheets(t.input)};
    for (compose::TileSheet& s : report.sheets) {
      s.page.label = std::to_string(input.pieces[t.piece].number) + "-" + s.page.label;
      s.page.title = t.input.heading + " – " + place::tile_name(s.tile);
      s.page.description = s.page.title;
      document.pages.push_back(s.page);
    }
    tiled_report.push_back(std::move(report));
  }
  document.title =
      (loaded.matter.title.empty() ? "" : loaded.matter.title + " – ") + loaded.words.at("pieces");
  thicken_lines(document, style.art_least_line, context.art);

  auto files = page_files(setup->target, document, context);
  collect(files.findings());
  if (!files.ok()) return findings;
  MadeSheets made;
  for (const OutputFile& file : *files) made.files.push_back(file.path);
  std::vector<OutputFile> all = std::move(*files);
  if (!request.report.empty()) {
    all.push_back(
        {request.report, pieces_report({request.figure, made.files, &input,
                                        nest_request.width * nest_request.height, request.factor,
                                        paper.name, nested, &laid, &pages, &tiled_report})});
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
