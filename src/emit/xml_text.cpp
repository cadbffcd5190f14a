#include "emit/xml_text.hpp"

#include "base/utf8.hpp"

namespace platewright::emit {
namespace {

bool allowed(char32_t c) {
  return c == 0x9 || c == 0xA || c == 0xD || (c >= 0x20 && c < 0xFFFE) || c > 0xFFFF;
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string result;
  result.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const auto character = utf8_at(text, at);
    if (!character) {
      result += "\uFFFD";
      ++at;
      continue;
    }
    if (allowed(character->code)) result += text.substr(at, character->bytes);
    at += character->bytes;
  }
  return result;
}

}  // namespace platewright::emit
