// The bytes of a text file as UTF-8.
#pragma once

#include <string>
#include <string_view>

#include "platewright/result.hpp"

namespace platewright::read {

// `bytes` without its byte order mark; UTF-16 that has one is converted.
// Errors: `not-utf8` (with the place of the first byte that does not fit),
// `control-character` (all but tab and line ends; one finding for each line at
// most, ten in all).
Result<std::string> text_from(std::string_view bytes, const std::string& file);

}  // namespace platewright::read
