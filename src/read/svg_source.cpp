#include "read/svg_source.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "base/quote.hpp"
#include "base/utf8.hpp"

namespace platewright::read {
namespace {

// What bytes 0x80..0x9f mean in Windows-1252 (WHATWG Encoding Standard); 0 has no meaning.
constexpr std::array<char32_t, 32> windows_1252 = {
    0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017d, 0,      0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022,
    0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178};

char32_t unit(std::string_view bytes, std::size_t at, bool big) {
  const auto a = static_cast<unsigned char>(bytes[at]);
  const auto b = static_cast<unsigned char>(bytes[at + 1]);
  return static_cast<char32_t>(big ? a << 8 | b : b << 8 | a);
}

// Nothing when a surrogate stands alone or a byte is left over.
std::optional<std::string> from_utf16(std::string_view bytes, bool big) {
  if (bytes.size() % 2 != 0) return std::nullopt;
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size(); i += 2) {
    char32_t code = unit(bytes, i, big);
    if (code >= 0xd800 && code < 0xe000) {
      if (code >= 0xdc00 || i + 4 > bytes.size()) return std::nullopt;
      const char32_t low = unit(bytes, i + 2, big);
      if (low < 0xdc00 || low >= 0xe000) return std::nullopt;
      code = 0x10000 + ((code - 0xd800) << 10) + (low - 0xdc00);
      i += 2;
    }
    append_utf8(text, code);
  }
  return text;
}

std::string from_single_bytes(std::string_view bytes, bool windows) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    char32_t code = static_cast<unsigned char>(c);
    if (windows && code >= 0x80 && code < 0xa0 && windows_1252[code - 0x80] != 0)
      code = windows_1252[code - 0x80];
    append_utf8(text, code);
  }
  return text;
}

// The name in `<?xml ... encoding="NAME"?>`, in small letters; empty when there is none.
std::string declared_encoding(std::string_view text) {
  if (!text.starts_with("<?xml")) return {};
  const std::string_view declaration = text.substr(0, std::min(text.find("?>"), text.size()));
  const std::size_t key = declaration.find("encoding");
  if (key == std::string_view::npos) return {};
  const std::size_t open = declaration.find_first_of("\"'", key);
  if (open == std::string_view::npos) return {};
  const std::size_t close = declaration.find(declaration[open], open + 1);
  if (close == std::string_view::npos) return {};
  std::string name(declaration.substr(open + 1, close - open - 1));
  for (char& c : name)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return name;
}

// XML 1.0, production 2: of the control characters only tab and line ends.
std::optional<std::size_t> first_forbidden(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c < 0x20 && c != '\t' && c != '\n' && c != '\r') return i;
  }
  return std::nullopt;
}

// Characters that begin in a part of valid UTF-8.
std::size_t begun(std::string_view part) {
  return static_cast<std::size_t>(
      std::count_if(part.begin(), part.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

void index_lines(SvgSource& source) {
  source.line_starts.push_back(0);
  for (std::size_t i = 0; i < source.text.size(); ++i)
    if (source.text[i] == '\n' ||
        (source.text[i] == '\r' && (i + 1 == source.text.size() || source.text[i + 1] != '\n')))
      source.line_starts.push_back(i + 1);
  for (std::size_t i = SvgSource::block; i < source.text.size(); i += SvgSource::block)
    source.characters_before.push_back(
        source.characters_before.back() +
        begun(std::string_view(source.text).substr(i - SvgSource::block, SvgSource::block)));
}

}  // namespace

SourcePosition SvgSource::at(std::size_t offset) const {
  offset = std::min(offset, text.size());
  const auto after = std::upper_bound(line_starts.begin(), line_starts.end(), offset);
  const auto characters_to = [&](std::size_t end) {
    const std::size_t k = std::min(end / block, characters_before.size() - 1);
    return characters_before[k] + begun(std::string_view(text).substr(k * block, end - k * block));
  };
  return {path, static_cast<int>(after - line_starts.begin()),
          static_cast<int>(characters_to(offset) - characters_to(*(after - 1))) + 1};
}

Result<SvgSource> decode_svg(std::string_view bytes, const std::string& path) {
  const SourcePosition start{path, 0, 0};
  if (bytes.empty()) return error("svg-empty", start, "the file is empty");
  if (bytes.starts_with("\x1f\x8b"))
    return error("svg-compressed", start, "the figure is compressed (svgz)",
                 "save it as plain SVG, or unpack it with gunzip");

  SvgSource source;
  source.path = path;
  using namespace std::string_view_literals;
  const bool big = bytes.starts_with("\xfe\xff"sv) || bytes.starts_with("\0<"sv);
  const bool little = bytes.starts_with("\xff\xfe"sv) || bytes.starts_with("<\0"sv);
  if (big || little) {
    std::optional<std::string> text = from_utf16(bytes, big);
    if (!text)
      return error("encoding-invalid", start, "the file begins as UTF-16 but is not valid UTF-16",
                   "save it as UTF-8");
    if (text->starts_with("\xef\xbb\xbf")) text->erase(0, 3);
    source.text = std::move(*text);
  } else {
    if (bytes.starts_with("\xef\xbb\xbf")) bytes.remove_prefix(3);
    const std::string name = declared_encoding(bytes);
    if (name == "iso-8859-1" || name == "latin1" || name == "windows-1252" || name == "cp1252") {
      source.text = from_single_bytes(bytes, name == "windows-1252" || name == "cp1252");
    } else if (name.empty() || name == "utf-8" || name == "utf8" || name == "us-ascii" ||
               name == "ascii" || name.starts_with("utf-16")) {
      source.text = std::string(bytes);
    } else {
      return error("encoding-unknown", {path, 1, 1},
                   "the encoding " + in_quotes(name) + " is not read", "save the file as UTF-8");
    }
  }
  index_lines(source);
  Findings findings;
  if (const auto at = first_invalid_utf8(source.text))
    findings.push_back(
        error("encoding-invalid", source.at(*at),
              "these bytes are not UTF-8, which the file says or implies it is",
              "save the file as UTF-8, or name its encoding in the XML declaration"));
  if (const auto at = first_forbidden(source.text))
    findings.push_back(error("xml-malformed", source.at(*at),
                             "a control character, which XML forbids", "remove it"));
  if (!findings.empty()) return findings;
  return source;
}

}  // namespace platewright::read
