// One edition put together: cover, contents, pages of text, sheets, keys.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "engine/pack_plan.hpp"
#include "engine/part.hpp"
#include "platewright/page_text.hpp"

namespace platewright {

// Texts of the pack's pages, read once: by path.
using PageTexts = std::map<std::string, PageText>;

// The texts that any edition of the plan prints. Errors of the reader, and
// `glyph-missing` where a face of the edition's style lacks a character of them.
Result<PageTexts> read_page_texts(const PackPlan& plan);

struct EditionInput {
  const PackPlan* plan = nullptr;
  const PackEdition* edition = nullptr;
  std::vector<const PartRecord*> parts;  // in the order of the edition's parts
  const PageTexts* texts = nullptr;
  const Figure* cover = nullptr;         // may be null
  const text::Typesetter* typesetter = nullptr;
};

struct BoundEdition {
  std::string book;    // PDF
  std::string keys;    // PDF; empty where the keys are in the book
  int sheets = 0;
  int pages = 0;
};

Result<BoundEdition> bind_edition(const EditionInput& input, const Environment& environment);

// The key of a bound edition: of its parts, of the manifest, of its texts.
std::string edition_key(const EditionInput& input, const std::string& cover_digest,
                        const Environment& environment);

// Paths of the page that an edition prints for a name; empty: none in its language.
std::string page_path(const PackPlan& plan, const std::string& name, const LabelSet& set);

}  // namespace platewright
