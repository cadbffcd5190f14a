// A terms file with every anchor of a figure, ready to fill in.
#include <filesystem>

#include "engine/figure_file.hpp"
#include "platewright/engine.hpp"

namespace platewright {
namespace {

// A first wording to overwrite: "left-ventricle" to "Left ventricle".
std::string wording_of(const std::string& anchor) {
  std::string text = anchor;
  for (char& c : text)
    if (c == '-' || c == '_') c = ' ';
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

// In double quotes, for YAML.
std::string quoted_yaml(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

}  // namespace

Result<Figure> read_figure(const std::string& path) { return figure_file(path, {}); }

std::string starter_terms(const Figure& figure, const std::string& figure_path) {
  std::string out;
  out += "# Terms of " + std::filesystem::path(figure_path).filename().string() +
         ": one row for each anchor, one column for each label set.\n"
         "# Leave a cell out where a set does not label that part.\n";
  out += "figure: " +
         quoted_yaml(std::filesystem::path(figure_path).filename().string()) + "\n";
  if (!figure.title.empty()) out += "title: " + quoted_yaml(figure.title) + "\n";
  out +=
      "sets:\n"
      "  little: {ages: 4-6, language: en}\n"
      "  middle: {ages: 7-10, language: en}\n"
      "  upper: {ages: 11-14, language: en}\n"
      "terms:\n";
  if (figure.anchors.empty()) {
    out +=
        "  {}\n"
        "# The figure has no anchors yet. Mark places in it, or add them here in its units:\n"
        "# anchors:\n"
        "#   apex: {at: [100, 200]}\n";
    return out;
  }
  for (const Anchor& anchor : figure.anchors) {
    const std::string word = quoted_yaml(wording_of(anchor.name));
    out += "  " + quoted_yaml(anchor.name) + ": {little: \"\", middle: " + word +
           ", upper: " + word + ", clue: \"\", group: \"\"}\n";
  }
  return out;
}

Findings write_starter(const Figure& figure, const std::string& figure_path,
                       const std::string& path) {
  std::error_code ec;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, ec)))
    return {error("starter-exists", {path, 0, 0},
                  "is there already, and a starter would take the place of what it says",
                  "name another file, or delete this one first")};
  return write_whole(path, starter_terms(figure, figure_path));
}

}  // namespace platewright
