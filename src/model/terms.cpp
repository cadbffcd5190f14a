#include "platewright/terms.hpp"

#include <algorithm>

namespace platewright {

std::string_view TextBySet::text_for(const LabelSet& set) const {
  if (const auto named = by.find(set.name); named != by.end()) return named->second;
  // RFC 4647, section 3.4 (lookup): drop subtags from the right until one fits.
  std::string tag = set.language;
  while (!tag.empty()) {
    if (const auto spoken = by.find(tag); spoken != by.end()) return spoken->second;
    const std::size_t cut = tag.rfind('-');
    tag.erase(cut == std::string::npos ? 0 : cut);
  }
  return everywhere;
}

const LabelSet* Terms::find_set(std::string_view name) const {
  const auto found =
      std::find_if(sets.begin(), sets.end(), [&](const LabelSet& s) { return s.name == name; });
  return found == sets.end() ? nullptr : &*found;
}

}  // namespace platewright
