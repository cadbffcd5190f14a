#include "engine/figure_store.hpp"

#include <filesystem>

#include "engine/figure_file.hpp"
#include "engine/figure_members.hpp"
#include "engine/part_key.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

bool has_words(const std::string& svg) {
  return svg.find("<text") != std::string::npos || svg.find(":text") != std::string::npos;
}

}  // namespace

Result<std::string> figure_digest(const std::string& path) {
  auto bytes = read::file_bytes(path, read::Limits{}.file_bytes);
  if (!bytes.ok()) return bytes.findings();
  KeyWriter key;
  key.add(*bytes);
  for (const std::string& image : read::image_files(*bytes, path)) {
    const auto content = read::file_bytes(image, read::Limits{}.file_bytes);
    key.add(fs::path(image).filename().string()).add(content.ok() ? *content : "");
  }
  return key.digest();
}

Result<Figure> kept_figure(PartStore& store, const std::string& digest, const std::string& path,
                           const std::vector<AddedAnchor>& added, const FigureVersion* version) {
  std::optional<FigureVersion> shown;
  if (version != nullptr) shown = *version;
  ExactWriter asked;
  asked.add(path).add(added).add(shown);
  const std::string key = KeyWriter()
                              .add("platewright figure 1")
                              .add(program_identity())
                              .add(digest)
                              .add(asked.bytes())
                              .digest();
  if (const auto kept = store.find(key)) {
    ExactReader in(*kept);
    auto figure = in.take<Figure>();
    auto warnings = in.take<Findings>();
    if (in.whole()) return {std::move(figure), std::move(warnings)};
  }
  auto figure = figure_file(path, added, version);
  if (!figure.ok() || has_words(figure->svg)) return figure;
  // A file that changed meanwhile is not the one that the digest speaks of.
  if (const auto now = figure_digest(path); now.ok() && *now == digest)
    store.keep(key, ExactWriter().add(*figure).add(figure.findings()).bytes());
  return figure;
}

emit::KeepArt kept_art(PartStore& store) {
  return [&store](const std::string& from, const auto& draw) -> Result<std::string> {
    if (has_words(from)) return draw();
    const std::string key =
        KeyWriter().add("platewright art 1").add(program_identity()).add(from).digest();
    if (auto kept = store.find(key)) return *std::move(kept);
    Result<std::string> drawn = draw();
    if (drawn.ok() && drawn.findings().empty()) store.keep(key, *drawn);
    return drawn;
  };
}

}  // namespace platewright
