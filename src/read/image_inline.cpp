#include "read/image_inline.hpp"

#include <algorithm>
#include <filesystem>

#include "base/quote.hpp"
#include "read/image_bytes.hpp"

namespace platewright::read {
namespace {

namespace fs = std::filesystem;

// "http" of "http://host"; empty for a plain path. One letter is a drive's name.
std::string scheme_of(std::string_view href) {
  const std::size_t colon = href.find(':');
  if (colon == std::string_view::npos || colon == 0) return {};
  std::string scheme;
  for (char c : href.substr(0, colon)) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (!((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '.'))
      return {};
    scheme += c;
  }
  return scheme;
}

// Whether a path as written climbs out of its folder or starts elsewhere.
bool strays(const std::string& path) {
  if (path.starts_with('/') || path.find('\\') != std::string::npos ||
      path.find('\0') != std::string::npos)
    return true;
  return std::ranges::any_of(fs::path(path), [](const fs::path& part) { return part == ".."; });
}

bool inside(const fs::path& file, const fs::path& folder) {
  const auto [end, rest] = std::mismatch(folder.begin(), folder.end(), file.begin(), file.end());
  return end == folder.end() && rest != file.end();
}

Finding outside(std::string_view href, const SourcePosition& at) {
  return error(
      "image-outside", at,
      "the image " + in_quotes(href) + " lies outside the figure's folder, where nothing is read",
      "put it beside the figure and name it without a path");
}

// The data: URI for the bytes of an image within the limits; empty otherwise.
std::string checked(const std::string& bytes, std::string_view name, const SourcePosition& at,
                    const Limits& limits, ImageBudget& budget, DropCount& dropped,
                    Findings& findings) {
  const auto header = image_header(bytes);
  if (!header || header->width == 0 || header->height == 0) {
    dropped.add(Dropped::broken_image, at);
    return {};
  }
  const std::size_t room = limits.image_pixels - std::min(limits.image_pixels, budget.pixels);
  if (header->width > room || header->height > room / header->width) {
    findings.push_back(
        error("image-large", at,
              "the image " + in_quotes(name, 30) + " of " + std::to_string(header->width) + " x " +
                  std::to_string(header->height) + " pixels passes the limit of " +
                  std::to_string(limits.image_pixels / 1'000'000) + " million pixels in a figure",
              "make it smaller"));
    return {};
  }
  budget.pixels += static_cast<std::size_t>(header->width * header->height);
  budget.bytes += bytes.size();
  if (budget.bytes > limits.file_bytes) {
    findings.push_back(error(
        "image-large", at,
        "the figure's images hold more than " + std::to_string(limits.file_bytes >> 20) + " MB",
        "make them smaller"));
    return {};
  }
  return data_uri(header->media_type, bytes);
}

std::string embedded(std::string_view href, const SourcePosition& at, const Limits& limits,
                     ImageBudget& budget, DropCount& dropped, Findings& findings) {
  const auto data = parse_data_uri(href);
  if (data && data->media_type.find("svg") != std::string::npos) {
    dropped.add(Dropped::nested_svg_image, at);
    return {};
  }
  if (!data) {
    dropped.add(Dropped::broken_image, at);
    return {};
  }
  return checked(data->bytes, "embedded here", at, limits, budget, dropped, findings);
}

}  // namespace

std::string inlined_image(std::string_view href, const std::string& figure_path,
                          const SourcePosition& at, const Limits& limits, ImageBudget& budget,
                          DropCount& dropped, Findings& findings) {
  href = trimmed(href);
  if (href.empty() || href.starts_with('#')) return {};
  const std::string scheme = scheme_of(href);
  if (scheme == "data") return embedded(href, at, limits, budget, dropped, findings);
  if (scheme == "file" || scheme.size() == 1) {
    findings.push_back(outside(href, at));
    return {};
  }
  if (!scheme.empty() || href.starts_with("//")) {
    findings.push_back(warning("image-remote", at,
                               "the image " + in_quotes(href) + " is not fetched and is left out",
                               "put it beside the figure and name it without a path"));
    return {};
  }
  const auto name = percent_decoded(href);
  if (!name || strays(*name)) {
    findings.push_back(outside(href, at));
    return {};
  }
  if (const auto known = budget.read.find(*name); known != budget.read.end()) {
    // Each use grows the document anew.
    budget.bytes += known->second.size();
    if (budget.bytes <= limits.file_bytes) return known->second;
    findings.push_back(error(
        "image-large", at,
        "the figure's images hold more than " + std::to_string(limits.file_bytes >> 20) + " MB",
        "place a large image once and reuse it with <use>"));
    return {};
  }
  std::error_code code;
  fs::path folder = fs::path(figure_path).parent_path();
  if (folder.empty()) folder = ".";
  folder = fs::weakly_canonical(folder, code);
  const fs::path file = code ? fs::path() : fs::weakly_canonical(folder / *name, code);
  if (code || !inside(file, folder)) {
    findings.push_back(outside(href, at));
    return {};
  }
  const Result<std::string> bytes = file_bytes(file.string(), limits.file_bytes);
  if (!bytes) {
    const Finding& why = bytes.findings().front();
    if (why.code == "file-large") {
      findings.push_back(error("image-large", at, "the image " + in_quotes(href) + " is too large",
                               "make it smaller"));
    } else {
      findings.push_back(warning("image-missing", at,
                                 "the image " + in_quotes(href) + " is left out: " + why.message,
                                 "put it beside the figure"));
    }
    return {};
  }
  std::string uri = checked(*bytes, href, at, limits, budget, dropped, findings);
  budget.read.emplace(*name, uri);
  return uri;
}

}  // namespace platewright::read
