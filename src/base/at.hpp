// Indices kept as int, where -1 means none, to index a container with.
#pragma once

#include <cstddef>

namespace platewright {

constexpr std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace platewright
