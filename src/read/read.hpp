// The stage "read": files to model values, or findings with places.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "platewright/figure.hpp"
#include "platewright/letters.hpp"
#include "platewright/figure_version.hpp"
#include "platewright/manifest.hpp"
#include "platewright/page_text.hpp"
#include "platewright/result.hpp"
#include "platewright/style.hpp"
#include "platewright/terms.hpp"
#include "platewright/words.hpp"

namespace platewright::read {

// Limits for hostile input; each is a finding when met.
struct Limits {
  std::size_t file_bytes = 64u << 20;
  std::size_t elements = 100'000;  // more take the drawing library over a GiB, in copies
  int depth = 200;
  std::size_t image_pixels = 100'000'000;
  std::size_t text_length = 2'000;   // of one label, in bytes
  std::size_t terms = 2'000;
};

// The bytes of a file, at most `limit`. Errors `file-missing`, `file-unreadable`, `file-large`.
Result<std::string> file_bytes(const std::string& path, std::size_t limit);

// A figure from its bytes. `path` names it in findings and tells the folder that
// raster images may come from. `added` are the anchors of the terms file
// (`added_file` names it in findings).
// `version`, where given, hides, shows and tints parts by a stylesheet added to
// the document; anchors inside hidden parts are in `Figure::hidden` instead.
// Errors `version-id-unknown`, `version-class-unknown` besides the figure's own.
Result<Figure> figure(std::string_view bytes, const std::string& path,
                      const std::vector<AddedAnchor>& added, const Limits& limits = {},
                      const FigureVersion* version = nullptr);

// A figure's document with the tints of a version that hides and shows nothing.
// Error `version-class-unknown`.
Result<std::string> tinted_art(const Figure& figure, const FigureVersion& version,
                               const std::string& path);

// The colouring version of a figure: every painted shape white with an ink
// outline of `width` figure units, lines without fill kept as lines, shading
// (class shade, light, texture) left out.
Result<std::string> outline_art(const Figure& figure, double width);

// YAML, or CSV when `path` ends in .csv or .tsv; CSV columns are anchor, clue,
// group, pronunciation, side (the middle three also as "clue:de"), and one for
// each set, where " | " stands between alternatives. `sets` gives set
// properties for a CSV (or overrides); one without a name counts for every
// column of a CSV that has none of its own.
Result<Terms> terms(std::string_view bytes, const std::string& path,
                    const std::vector<LabelSet>& sets = {}, const Limits& limits = {});

// Where a document prints.
struct PaintedRequest {
  const std::string* svg = nullptr;
  FigureBox view;          // its view box
  FigureBox window;        // of it; zero-sized: all
  double cell = 1;         // figure units; coarser beyond 16,000 cells a side
  std::string name;        // the figure's, in findings
  // White that joins the border is paper; else all that is painted counts.
  bool paper_is_blank = true;
};
// 255 in each cell where it prints anything, or encloses white; 0 elsewhere.
Result<FigureGrid> painted_cells(const PaintedRequest& request);

// A region as a document of its own.
struct RegionPart {
  std::string anchor;
  std::string svg;         // the figure's view box; only the region and what lies on it
  std::string bare;        // the region alone
  std::size_t order = 0;   // in which the figure draws its regions, those beneath first
};
// Errors `region-missing`, `figure-undrawable`.
Result<std::vector<RegionPart>> region_parts(const Figure& figure,
                                             const std::vector<std::string>& anchors);

// A style; `extends` is looked up in `folders`.
Result<Style> style(const std::string& name_or_path, const std::vector<std::string>& folders);
// The files that a style is read from: its own first, then what it extends, as far as they are
// there.
std::vector<std::string> style_files(const std::string& name_or_path,
                                     const std::vector<std::string>& folders);
// Every value of a style as text: the same for two styles that print alike.
std::string style_text(const Style& style);
std::vector<std::string> style_names(const std::vector<std::string>& folders);

// The program's own words in a language: `words.LANG.yaml` in `folders`;
// regional tags fall back ("de-AT" to "de"), then to English with a warning.
Result<Words> words(std::string_view language, const std::vector<std::string>& folders);

// The letters of a language's puzzles: `letters.LANG.yaml` in `folders`, with the same
// fallback; nothing, without a finding, where no file is. Errors `letters-share`,
// `letters-unwanted`.
Result<Letters> letters(std::string_view language, const std::vector<std::string>& folders);

// A pack's manifest; paths of figures, terms and pages are joined with its folder.
Result<Manifest> manifest(std::string_view bytes, const std::string& path);

// A page of plain text: "# Title", "## Heading", paragraphs, "- " and "1. "
// items, "___" for each line to write on, "! " cautions, "[text](https://…)"
// links, "---" for a new page. Errors: `page-title`, `page-line`, `page-link`.
Result<PageText> page_text(std::string_view bytes, const std::string& path);

// SHA-256 (FIPS 180-4) in hexadecimal.
std::string sha256(std::string_view bytes);

// Files that a figure's images come from: as written in it, those that are there.
std::vector<std::string> image_files(std::string_view figure_bytes, const std::string& path);

}  // namespace platewright::read
