// Parts of a pack from where they are kept, or made and kept there.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "engine/family.hpp"
#include "engine/layout_store.hpp"
#include "engine/part.hpp"
#include "engine/part_store.hpp"

namespace platewright {

struct SourcedPart {
  std::optional<PartRecord> record;  // nothing: see the findings
  std::string key;                   // that it is kept by
  Findings findings;
  bool made = false;                 // or tried
};

// May be used by several threads at once, each with its own typesetter.
class PartSource {
 public:
  PartSource(const PackPlan& plan, const Environment& environment, PartStore& store);

  // Error `part-missing` where it is not kept and none is to be made.
  SourcedPart part(const PackPart& part, const text::Typesetter& typesetter, bool kept_only);

  // The figure of the cover, read once for all editions; null: none.
  std::shared_ptr<const Figure> cover();
  std::string cover_digest() const;

 private:
  // Of sets that share a layout: by what all of them say the key by which the part is kept,
  // which only a change of where labels stand or of its own words changes.
  std::string kept_key(const PackPart& part) const;
  std::optional<PartRecord> kept(const std::string& key, const PackPart& part) const;

  const PackPlan& plan_;
  const Environment& environment_;
  PartStore& store_;
  LayoutStore layouts_{store_};
  Families families_{plan_, environment_};
  std::optional<text::StrokeFont> strokes_;
  std::mutex cover_guard_;
  std::shared_ptr<const Figure> cover_;
};

}  // namespace platewright
