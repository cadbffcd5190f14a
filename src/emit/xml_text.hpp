// Text that may stand in an XML 1.0 document.
#pragma once

#include <string>
#include <string_view>

namespace platewright::emit {

// Without the characters that XML 1.0 does not allow (production 2, Char);
// bytes that are not UTF-8 become U+FFFD. Escaping is the writer's.
std::string xml_text(std::string_view text);

}  // namespace platewright::emit
