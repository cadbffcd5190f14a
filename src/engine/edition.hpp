// One edition put together: cover, contents, pages of text, sheets, keys.
#pragma once

#include <string>
#include <vector>

#include "emit/emit.hpp"
#include "engine/pack_plan.hpp"
#include "engine/page_texts.hpp"
#include "engine/part.hpp"

namespace platewright {

struct EditionInput {
  const PackPlan* plan = nullptr;
  const PackEdition* edition = nullptr;
  std::vector<const PartRecord*> parts;  // in the order of the edition's parts
  const PageTexts* texts = nullptr;
  const Figure* cover = nullptr;         // may be null
  const text::Typesetter* typesetter = nullptr;
  emit::KeepArt keep_art = {};
};

struct BoundEdition {
  std::string book;    // PDF
  std::string keys;    // PDF; empty where the keys are in the book
  int sheets = 0;
  int pages = 0;
};

Result<BoundEdition> bind_edition(const EditionInput& input, const Environment& environment);

}  // namespace platewright
