#include <cairo.h>
#include <librsvg/rsvg.h>

#include <qpdf/QPDF.hh>

#include "emit/art.hpp"
#include "emit/check.hpp"
#include "emit/pdf_parts.hpp"

namespace platewright::emit {

namespace {

// What the drawing of an art follows from, to the last bit.
std::string drawn_from(const SharedArt& art, const ArtSource& source) {
  std::string from = *art.svg;
  const FigureBox& view = source.figure->view_box;
  for (const double value : {view.x, view.y, view.w, view.h, art.box.x, art.box.y, art.box.w,
                             art.box.h, art.points_per_unit, art.item.tint,
                             static_cast<double>(art.columns), static_cast<double>(art.rows)})
    from.append(reinterpret_cast<const char*>(&value), sizeof value);
  return from;
}

}  // namespace

Result<std::string> pdf(const compose::Document& document, const EmitContext& context) {
  Findings findings;
  if (document.pages.empty()) return check(document, 0);
  for (std::size_t i = 0; i < document.pages.size(); ++i)
    for (Finding& f : check(document, i)) findings.push_back(std::move(f));
  if (has_error(findings)) return sorted(std::move(findings));

  const std::vector<SharedArt> arts = shared_art(document, context.art, findings);
  std::vector<std::string> art_pdfs;
  for (const SharedArt& art : arts) {
    const auto draw = [&] { return art_pdf(art, context.art); };
    Result<std::string> drawn =
        context.keep_art ? context.keep_art(drawn_from(art, context.art), draw) : draw();
    if (!drawn) {
      findings.insert(findings.end(), drawn.findings().begin(), drawn.findings().end());
      continue;
    }
    art_pdfs.push_back(std::move(drawn).value());
  }
  if (has_error(findings)) return sorted(std::move(findings));

  std::vector<PageMarks> marks;
  const Result<std::string> drawn = drawn_pdf(document, context, arts, marks);
  if (!drawn) return drawn.findings();
  return finished_pdf(*drawn, arts, art_pdfs, marks, document, context);
}

DrawnAhead painted_ahead(const ArtSource& source, double scale) {
  SharedArt art;
  art.item.transform.scale = scale;
  art.svg = &source.figure->svg;
  art.box = extent_of(*source.figure);
  lay_out(art, scale * points_per_mm, source);
  return {drawn_from(art, source), [art, &source] { return art_pdf(art, source); }};
}

std::string library_versions() {
  return std::string("cairo ") + cairo_version_string() + " librsvg " +
         std::to_string(rsvg_major_version) + '.' + std::to_string(rsvg_minor_version) + '.' +
         std::to_string(rsvg_micro_version) + " qpdf " + QPDF::QPDFVersion();
}

}  // namespace platewright::emit
