// The figure's art on a Cairo context, drawn by librsvg.
#pragma once

#include <librsvg/rsvg.h>

#include <map>
#include <optional>
#include <string>

#include "emit/emit.hpp"
#include "text/handle.hpp"

namespace platewright::emit {

// The document that an item shows; nothing when the context lacks it.
// Whether anything in the document mixes its colours with what lies beneath.
bool mixes(const std::string& svg);
const std::string* document_of(const compose::FigureItem& item, const ArtSource& source);
// Error `art-missing` for an item whose document the context lacks.
Finding art_missing(const compose::FigureItem& item, const ArtSource& source);

// What the art may paint: its viewBox and what lies beyond it (a root svg does
// not clip).
FigureBox extent_of(const Figure& figure);

// Documents read once for all pages of one call.
class ArtLibrary {
 public:
  // `keep_images`: JPEG data stay compressed, for PDF.
  ArtLibrary(const ArtSource& source, bool keep_images)
      : source_(source), keep_images_(keep_images) {}

  // Draws the item's whole art; the context's unit is the page's millimetre.
  // Errors `art-missing`, `art-unreadable`, `art-undrawable`.
  std::optional<Finding> draw(cairo_t* cairo, const compose::FigureItem& item);
  // The same art with its viewBox laid on `viewport` of the context, unclipped.
  std::optional<Finding> draw(cairo_t* cairo, const compose::FigureItem& item,
                              const RsvgRectangle& viewport);

 private:
  using Document = text::Handle<RsvgHandle, g_object_unref>;
  const ArtSource& source_;
  bool keep_images_;
  std::map<const std::string*, Document> documents_;
};

}  // namespace platewright::emit
