// Bound editions as they are kept.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/edition.hpp"
#include "engine/part_store.hpp"

namespace platewright {

// The key of a bound edition: of its parts (their own keys, in the order of the edition's
// parts), of the manifest, of its texts.
std::string edition_key(const EditionInput& input, const std::vector<std::string>& part_keys,
                        const std::string& cover_digest, const Environment& environment);

std::optional<BoundEdition> kept_edition(const PartStore& store, const std::string& key);
void keep_edition(PartStore& store, const std::string& key, const BoundEdition& bound);

}  // namespace platewright
