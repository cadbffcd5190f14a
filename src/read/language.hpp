// Language tags by their shape, RFC 5646 (BCP 47); no registry is consulted.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace platewright::read {

// The tag in its usual letter case ("EN-latn-us" gives "en-Latn-US"), or nothing
// when it is not well formed. Language subtags of 4 to 8 letters are refused:
// none is registered, and "german" is a slip for "de".
std::optional<std::string> language_tag(std::string_view text);

}  // namespace platewright::read
