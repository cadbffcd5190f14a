// The text of an SVG file as UTF-8, and where each byte of it lies in the file.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/result.hpp"

namespace platewright::read {

struct SvgSource {
  std::string path;
  std::string text;  // valid UTF-8 without a byte order mark
  std::vector<std::size_t> line_starts;
  // Characters before each block of so many bytes: a file may be one line of megabytes.
  static constexpr std::size_t block = 1024;
  std::vector<std::size_t> characters_before = {0};
  // Line and column count from 1; the column counts characters, not bytes.
  SourcePosition at(std::size_t offset) const;
};

// Decodes UTF-8, UTF-16 (by byte order mark or by its first characters) and,
// when the XML declaration names it, ISO-8859-1, Windows-1252 or US-ASCII.
// Errors: `svg-compressed`, `svg-empty`, `encoding-unknown`, `encoding-invalid`.
Result<SvgSource> decode_svg(std::string_view bytes, const std::string& path);

}  // namespace platewright::read
