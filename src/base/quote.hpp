// Text of a reader's own files made fit to be shown in a message.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace platewright {

// Without white space (space, tab, CR, LF) at both ends.
std::string_view trimmed(std::string_view text);

// Control characters as \n, \t, \u00XX, invalid UTF-8 as U+FFFD: safe on a terminal.
std::string escaped(std::string_view text);

// In double quotes, escaped, and cut to `most` characters with an ellipsis.
std::string in_quotes(std::string_view text, std::size_t most = 60);

// The names in quotes, separated by commas, the last two by "or"; of more than
// 12 the first ones and how many there are besides.
std::string listed(std::span<const std::string_view> names);

}  // namespace platewright
