// What a cached sheet depends on: digests of bytes, and the image files beside a figure.
#include <glib.h>

#include <filesystem>
#include <memory>
#include <set>

#include "base/quote.hpp"
#include "read/image_bytes.hpp"
#include "read/read.hpp"
#include "read/svg_document.hpp"
#include "read/svg_ids.hpp"

namespace platewright::read {

std::string sha256(std::string_view bytes) {
  const std::unique_ptr<gchar, decltype(&g_free)> hex(
      g_compute_checksum_for_data(G_CHECKSUM_SHA256, reinterpret_cast<const guchar*>(bytes.data()),
                                  bytes.size()),
      g_free);
  return hex.get();
}

std::vector<std::string> image_files(std::string_view figure_bytes, const std::string& path) {
  namespace fs = std::filesystem;
  Findings unused;
  SvgDocument document;
  Result<SvgSource> source = decode_svg(figure_bytes, path);
  if (!source) return {};
  document.source = std::move(source).value();
  if (!parse_svg(document, Limits{}, unused)) return {};
  std::set<std::string> files;
  each_element(document.root(), [&](pugi::xml_node node) {
    for (const pugi::xml_attribute attribute : node.attributes()) {
      if (!std::string_view(attribute.name()).ends_with("href")) continue;
      const std::string_view href = trimmed(attribute.value());
      if (href.empty() || href.starts_with('#') || href.starts_with("data:")) continue;
      const auto name = percent_decoded(href);
      std::error_code ignored;
      if (name && name->find('\0') == std::string::npos)
        if (const fs::path file = fs::path(path).parent_path() / *name;
            fs::is_regular_file(file, ignored))
          files.insert(file.string());
    }
  });
  return {files.begin(), files.end()};
}

}  // namespace platewright::read
