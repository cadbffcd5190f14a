#include "read/image_bytes.hpp"

#include <array>

#include "base/quote.hpp"

namespace platewright::read {
namespace {

using namespace std::string_view_literals;

std::uint64_t byte(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::uint64_t big(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint64_t value = 0;
  for (std::size_t i = 0; i < count; ++i) value = value << 8 | byte(bytes, at + i);
  return value;
}

std::uint64_t little(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint64_t value = 0;
  for (std::size_t i = count; i-- > 0;) value = value << 8 | byte(bytes, at + i);
  return value;
}

std::optional<ImageHeader> jpeg(std::string_view bytes) {
  std::size_t at = 2;
  while (at + 9 <= bytes.size()) {
    if (byte(bytes, at) != 0xff) return std::nullopt;
    const std::uint64_t marker = byte(bytes, at + 1);
    if (marker == 0xff) {
      ++at;
      continue;
    }
    if (marker == 0x01 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += 2;
      continue;
    }
    // SOF0..SOF15 apart from DHT (c4), JPG (c8) and DAC (cc) begin a frame.
    if (marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc)
      return ImageHeader{"image/jpeg", big(bytes, at + 7, 2), big(bytes, at + 5, 2)};
    if (marker == 0xd9 || marker == 0xda) return std::nullopt;
    const std::uint64_t length = big(bytes, at + 2, 2);
    if (length < 2) return std::nullopt;
    at += 2 + length;
  }
  return std::nullopt;
}

std::optional<ImageHeader> webp(std::string_view bytes) {
  const std::string_view kind = bytes.substr(12, 4);
  if (kind == "VP8 " && bytes.size() >= 30 && bytes.substr(23, 3) == "\x9d\x01\x2a"sv)
    return ImageHeader{"image/webp", little(bytes, 26, 2) & 0x3fff, little(bytes, 28, 2) & 0x3fff};
  if (kind == "VP8L" && bytes.size() >= 25 && byte(bytes, 20) == 0x2f) {
    const std::uint64_t bits = little(bytes, 21, 4);
    return ImageHeader{"image/webp", (bits & 0x3fff) + 1, (bits >> 14 & 0x3fff) + 1};
  }
  if (kind == "VP8X" && bytes.size() >= 30)
    return ImageHeader{"image/webp", little(bytes, 24, 3) + 1, little(bytes, 27, 3) + 1};
  return std::nullopt;
}

constexpr std::string_view alphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

std::optional<std::string> base64_decoded(std::string_view text) {
  static constexpr auto values = [] {
    std::array<std::uint8_t, 256> table{};
    table.fill(255);
    for (std::size_t i = 0; i < alphabet.size(); ++i)
      table[static_cast<unsigned char>(alphabet[i])] = static_cast<std::uint8_t>(i);
    return table;
  }();
  std::string out;
  out.reserve(text.size() / 4 * 3 + 3);
  std::uint32_t bits = 0;
  int held = 0;
  for (const char c : text) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') continue;
    if (c == '=') break;
    const std::uint8_t value = values[static_cast<unsigned char>(c)];
    if (value == 255) return std::nullopt;
    bits = bits << 6 | value;
    held += 6;
    if (held >= 8) {
      held -= 8;
      out += static_cast<char>(bits >> held & 0xff);
    }
  }
  return out;
}

}  // namespace

std::optional<ImageHeader> image_header(std::string_view bytes) {
  if (bytes.starts_with("\x89PNG\r\n\x1a\n"sv) && bytes.size() >= 24 &&
      bytes.substr(12, 4) == "IHDR")
    return ImageHeader{"image/png", big(bytes, 16, 4), big(bytes, 20, 4)};
  if ((bytes.starts_with("GIF87a") || bytes.starts_with("GIF89a")) && bytes.size() >= 10)
    return ImageHeader{"image/gif", little(bytes, 6, 2), little(bytes, 8, 2)};
  if (bytes.starts_with("\xff\xd8\xff"sv)) return jpeg(bytes);
  if (bytes.starts_with("RIFF") && bytes.size() >= 16 && bytes.substr(8, 4) == "WEBP")
    return webp(bytes);
  return std::nullopt;
}

std::optional<std::string> percent_decoded(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  const auto digit = [](char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      out += text[i];
      continue;
    }
    if (i + 2 >= text.size()) return std::nullopt;
    const int high = digit(text[i + 1]), low = digit(text[i + 2]);
    if (high < 0 || low < 0) return std::nullopt;
    out += static_cast<char>(high * 16 + low);
    i += 2;
  }
  return out;
}

std::optional<DataUri> parse_data_uri(std::string_view uri) {
  uri = trimmed(uri);
  if (uri.size() < 5) return std::nullopt;
  const auto small = [](std::string_view text) {
    std::string out(text);
    for (char& c : out)
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
  };
  if (small(uri.substr(0, 5)) != "data:") return std::nullopt;
  const std::size_t comma = uri.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const std::string head = small(uri.substr(5, comma - 5));
  const std::string_view body = uri.substr(comma + 1);
  DataUri data;
  data.media_type = std::string(trimmed(std::string_view(head).substr(0, head.find(';'))));
  auto decoded = percent_decoded(body);
  if (decoded && head.ends_with(";base64")) decoded = base64_decoded(*decoded);
  if (!decoded) return std::nullopt;
  data.bytes = std::move(*decoded);
  return data;
}

std::string data_uri(std::string_view media_type, std::string_view bytes) {
  std::string out = "data:" + std::string(media_type) + ";base64,";
  out.reserve(out.size() + bytes.size() / 3 * 4 + 4);
  std::size_t i = 0;
  for (; i + 3 <= bytes.size(); i += 3) {
    const std::uint64_t group = big(bytes, i, 3);
    for (int shift = 18; shift >= 0; shift -= 6) out += alphabet[group >> shift & 63];
  }
  if (i < bytes.size()) {
    const bool two = i + 2 == bytes.size();
    const std::uint64_t group = big(bytes, i, two ? 2 : 1) << (two ? 8 : 16);
    out += alphabet[group >> 18 & 63];
    out += alphabet[group >> 12 & 63];
    out += two ? alphabet[group >> 6 & 63] : '=';
    out += '=';
  }
  return out;
}

}  // namespace platewright::read
