// The three steps to a PDF: Cairo draws the pages with a placeholder for each
// art, each art is drawn once as a PDF of its own, qpdf joins and finishes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "emit/emit.hpp"
#include "emit/pdf_artifacts.hpp"

namespace platewright::emit {

inline constexpr double points_per_mm = 72 / 25.4;

// One distinct art of a document (its document and tint), drawn as a one-page
// PDF of whole points.
struct SharedArt {
  compose::FigureItem item;  // the first that shows it
  const std::string* svg = nullptr;
  FigureBox box;  // what the page shows
  double points_per_unit = 1;
  int columns = 1, rows = 1;  // size of its page, points
};

// Cairo writes coordinates in steps of 1/256 point. Art whose view box starts on
// such a step, in its own drawing and on every page, has the coordinates that a
// drawing on the page itself would have, to the last one.
double on_coordinate_step(double points);

// Resolution that filters and masks, which librsvg draws as pixels, are given.
inline constexpr double filter_dpi = 300;

// Every distinct art in drawing order; findings `art-missing` in `findings`.
std::vector<SharedArt> shared_art(const compose::Document& document, const ArtSource& source,
                                  Findings& findings);
// Size and steps of one at its largest scale, points to the figure unit.
void lay_out(SharedArt& art, double scale, const ArtSource& source);
std::optional<std::size_t> find_art(const std::vector<SharedArt>& arts,
                                    const compose::FigureItem& item, const ArtSource& source);

// The art alone, as a PDF.
Result<std::string> art_pdf(const SharedArt& art, const ArtSource& source);

// The colour that fills the placeholder of art `index` and nothing else, as the
// three operands of `rg`.
struct PlaceholderColour {
  double red = 0.123, green = 0.456, blue = 0;
};
PlaceholderColour placeholder_colour(std::size_t index);

// All pages, art as placeholders, structure tags, bookmarks and page labels; what
// is in `marks`, one a page, tells labels and leaders in them.
Result<std::string> drawn_pdf(const compose::Document& document, const EmitContext& context,
                              const std::vector<SharedArt>& arts, std::vector<PageMarks>& marks);

// Puts `art_pdfs` in the places of their placeholders; boxes, language, title,
// viewer preferences, alternative texts; no clock, no random numbers.
Result<std::string> finished_pdf(const std::string& drawn, const std::vector<SharedArt>& arts,
                                 const std::vector<std::string>& art_pdfs,
                                 const std::vector<PageMarks>& marks,
                                 const compose::Document& document, const EmitContext& context);

}  // namespace platewright::emit
