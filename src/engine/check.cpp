// check_files: every fault in what people wrote, each file for what it is.
#include <algorithm>
#include <filesystem>

#include "base/quote.hpp"
#include "engine/check_pack.hpp"
#include "engine/figure_file.hpp"
#include "engine/load.hpp"
#include "platewright/engine.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

void append(Findings& to, const Findings& from) { to.insert(to.end(), from.begin(), from.end()); }

bool ends_in(const std::string& path, std::string_view ending) {
  if (path.size() < ending.size()) return false;
  for (std::size_t i = 0; i < ending.size(); ++i) {
    const char c = path[path.size() - ending.size() + i];
    if ((c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c) != ending[i]) return false;
  }
  return true;
}

bool has_key(const std::string& bytes, std::string_view key) {
  for (std::size_t at = bytes.find(key); at != std::string::npos; at = bytes.find(key, at + 1))
    if (at == 0 || bytes[at - 1] == '\n') return true;
  return false;
}

// So is it a pack's manifest, which alone has a list of figures.
bool looks_like_manifest(const std::string& path, const std::string& bytes) {
  const bool yaml = ends_in(path, ".yaml") || ends_in(path, ".yml");
  return yaml && !ends_in(path, ".terms.yaml") && !ends_in(path, ".terms.yml") &&
         (has_key(bytes, "figures:") || fs::path(path).stem() == "pack");
}

// A YAML file is a terms file when a line at its outermost level says so.
bool looks_like_terms(const std::string& path, const std::string& bytes) {
  if (ends_in(path, ".csv") || ends_in(path, ".terms.yaml") || ends_in(path, ".terms.yml"))
    return true;
  for (const std::string_view key : {"terms:", "figure:", "anchors:"})
    if (has_key(bytes, key)) return true;
  return false;
}

// "words.de.yaml" holds the program's own words in German, "letters.de.yaml" the letters
// of German puzzles.
std::string language_of(const std::string& path, std::string_view start) {
  const std::string name = fs::path(path).filename().string();
  constexpr std::string_view end = ".yaml";
  if (!name.starts_with(start) || !name.ends_with(end) || name.size() <= start.size() + end.size())
    return {};
  return name.substr(start.size(), name.size() - start.size() - end.size());
}

void check_terms(const std::string& path, const std::string& bytes,
                 const std::vector<std::string>& figures, Findings& findings) {
  auto terms = read::terms(bytes, path);
  append(findings, terms.findings());
  if (!terms.ok()) return;
  std::string figure_path;
  if (!terms->figure.empty())
    figure_path = (fs::path(path).parent_path() / terms->figure).lexically_normal().string();
  else if (figures.size() == 1)
    figure_path = figures.front();
  if (figure_path.empty()) return;
  auto figure = figure_file(figure_path, terms->added);
  append(findings, figure.findings());
  if (!figure.ok()) return;
  // A row whose anchor is missing is at fault once, whatever the number of sets.
  for (const LabelSet& set : terms->sets) {
    std::vector<SetLabel> labels;
    append(findings, labels_of(*terms, set, *figure, labels));
  }
}

}  // namespace

Findings check_files(const std::vector<std::string>& paths, const Environment& environment) {
  Findings findings;
  std::vector<std::string> figures;
  for (const std::string& path : paths)
    if (ends_in(path, ".svg")) figures.push_back(path);
  for (const std::string& path : paths) {
    if (ends_in(path, ".svg")) {
      append(findings, figure_file(path, {}).findings());
      continue;
    }
    auto bytes = read::file_bytes(path, read::Limits{}.file_bytes);
    if (!bytes.ok()) {
      append(findings, bytes.findings());
      continue;
    }
    if (looks_like_manifest(path, *bytes)) {
      append(findings, check_pack(path, environment));
    } else if (looks_like_terms(path, *bytes)) {
      check_terms(path, *bytes, figures, findings);
    } else if (const std::string spoken = language_of(path, "words."); !spoken.empty()) {
      append(findings, read::words(spoken, {fs::path(path).parent_path().string()}).findings());
    } else if (const std::string spelt = language_of(path, "letters."); !spelt.empty()) {
      append(findings, read::letters(spelt, {fs::path(path).parent_path().string()}).findings());
    } else if (ends_in(path, ".yaml") || ends_in(path, ".yml")) {
      std::vector<std::string> folders = environment.style_folders;
      folders.insert(folders.begin(), fs::path(path).parent_path().string());
      append(findings, read::style(path, folders).findings());
    } else {
      findings.push_back(error("file-unknown", {path, 0, 0}, "this ending is not known",
                               "figures end in .svg, terms in .yaml or .csv, styles and manifests in .yaml"));
    }
  }
  return sorted(std::move(findings));
}

Result<Style> read_style(const std::string& name_or_path, const Environment& environment) {
  return read::style(name_or_path, environment.style_folders);
}

std::vector<std::string> style_names(const Environment& environment) {
  return read::style_names(environment.style_folders);
}

}  // namespace platewright
