// Raster images inside a figure: what kind of file the bytes are, how many
// pixels they hold, and data: URIs (RFC 2397) in and out.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace platewright::read {

struct ImageHeader {
  std::string_view media_type;  // "image/png"
  std::uint64_t width = 0;      // pixels
  std::uint64_t height = 0;
};

// Read from the first bytes: PNG (W3C PNG, 11.2.2), JPEG (ITU T.81, B.2.2),
// GIF (GIF89a, 18) and WebP (RFC 9649, 2.5-2.7). Nothing for anything else.
std::optional<ImageHeader> image_header(std::string_view bytes);

// The content of a data: URI. Nothing when it is none or is not valid.
struct DataUri {
  std::string media_type;  // in small letters
  std::string bytes;
};
std::optional<DataUri> parse_data_uri(std::string_view uri);

std::string data_uri(std::string_view media_type, std::string_view bytes);

// "%20" to a space; nothing when a sign does not belong.
std::optional<std::string> percent_decoded(std::string_view text);

}  // namespace platewright::read
