#include "read/encoding.hpp"

#include <algorithm>

#include "base/utf8.hpp"

namespace platewright::read {
namespace {

constexpr std::string_view utf8_mark = "\xef\xbb\xbf";
constexpr std::string_view utf16_big = "\xfe\xff";
constexpr std::string_view utf16_little = "\xff\xfe";
constexpr std::size_t most_faults = 10;

// A lone surrogate and an odd last byte become U+FFFD, as Unicode recommends.
std::string from_utf16(std::string_view bytes, bool little) {
  std::string out;
  out.reserve(bytes.size());
  const auto unit = [&](std::size_t i) {
    const auto first = static_cast<unsigned char>(bytes[i]);
    const auto second = static_cast<unsigned char>(bytes[i + 1]);
    return static_cast<char32_t>(little ? first | (second << 8) : (first << 8) | second);
  };
  std::size_t at = 0;
  for (; at + 1 < bytes.size(); at += 2) {
    char32_t code = unit(at);
    const bool high = code >= 0xd800 && code < 0xdc00;
    if (high && at + 3 < bytes.size() && unit(at + 2) >= 0xdc00 && unit(at + 2) < 0xe000) {
      code = 0x10000 + ((code - 0xd800) << 10U) + (unit(at + 2) - 0xdc00);
      at += 2;
    } else if (code >= 0xd800 && code < 0xe000) {
      code = 0xfffd;
    }
    append_utf8(out, code);
  }
  if (at < bytes.size()) append_utf8(out, 0xfffd);
  return out;
}

SourcePosition position_of(std::string_view text, std::size_t at, const std::string& file) {
  const std::string_view before = text.substr(0, at);
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  return {file, static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
          static_cast<int>(utf8_length(before.substr(line_start))) + 1};
}

}  // namespace

Result<std::string> text_from(std::string_view bytes, const std::string& file) {
  if (bytes.starts_with(utf8_mark)) bytes.remove_prefix(utf8_mark.size());
  std::string text;
  if (bytes.starts_with(utf16_little)) {
    text = from_utf16(bytes.substr(2), true);
  } else if (bytes.starts_with(utf16_big)) {
    text = from_utf16(bytes.substr(2), false);
  } else {
    if (const auto invalid = first_invalid_utf8(bytes))
      return error("not-utf8", position_of(bytes, *invalid, file),
                   "the file is not UTF-8 text from here on", "save it as UTF-8");
    text = bytes;
  }
  Findings faults;
  for (std::size_t at = 0; at < text.size() && faults.size() < most_faults;) {
    const auto character = utf8_at(text, at);
    const char32_t code = character ? character->code : 0xfffd;
    // U+0085 is a line end to YAML.
    if (is_control(code) && code != '\t' && code != '\n' && code != '\r' && code != 0x85) {
      faults.push_back(error(
          "control-character", position_of(text, at, file),
          "there is a control character (code " + std::to_string(static_cast<unsigned>(code)) + ")",
          "delete it, and check that this is a text file"));
      at = std::min(text.find('\n', at), text.size());
      continue;
    }
    at += character ? character->bytes : 1;
  }
  if (!faults.empty()) return faults;
  return text;
}

}  // namespace platewright::read
