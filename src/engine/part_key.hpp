// The keys of cached work: digests of everything that its bytes depend on.
#pragma once

#include <string>
#include <string_view>

#include "engine/pack_plan.hpp"

namespace platewright {

// Fields one after another, each with its length, so that no two lists of
// fields give the same key.
class KeyWriter {
 public:
  KeyWriter& add(std::string_view field);
  KeyWriter& add(const TextBySet& text, const LabelSet& set);
  std::string digest() const;

 private:
  std::string fields_;
};

// This build of the program and the libraries whose output it passes on.
std::string program_identity();

// Of a part: the figure's bytes, the terms of its set, style, words, paper,
// kinds, program. What other sets say is no part of it, unless they share one layout.
std::string part_key(const PackPlan& plan, const PackPart& part, const Environment& environment);
// Without what other sets say: of all that a part depends on but where its labels stand.
std::string own_key(const PackPlan& plan, const PackPart& part, const Environment& environment);

}  // namespace platewright
