// What reading a terms file finds.
#pragma once

#include <string>
#include <string_view>

#include "read/read.hpp"

namespace platewright {

inline Findings findings_of(std::string_view text, const std::string& path = "t.yaml") {
  return read::terms(text, path).findings();
}

}  // namespace platewright
