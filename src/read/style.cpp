#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/nearest.hpp"
#include "base/quote.hpp"
#include "read/encoding.hpp"
#include "read/read.hpp"
#include "read/style_values.hpp"

namespace platewright::read {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_style_bytes = 1u << 20;
constexpr std::string_view ending = ".yaml";

bool is_path(std::string_view name) {
  return name.find('/') != std::string_view::npos || name.ends_with(ending) ||
         name.ends_with(".yml");
}

std::optional<std::string> path_of(const std::string& name,
                                   const std::vector<std::string>& folders) {
  for (const std::string& folder : folders) {
    const fs::path path = fs::path(folder) / (name + std::string(ending));
    std::error_code ignored;
    if (fs::is_regular_file(path, ignored)) return path.string();
  }
  return std::nullopt;
}

Finding unknown_style(const std::string& name, const std::vector<std::string>& folders,
                      SourcePosition at) {
  const std::vector<std::string> names = style_names(folders);
  const std::vector<std::string_view> known(names.begin(), names.end());
  return error("style-unknown", std::move(at), "there is no style " + in_quotes(name),
               did_you_mean(name, known,
                            known.empty() ? "name a style file"
                                          : "use " + listed(known) + ", or name a style file"));
}

// What the parts of a style that are not in the table say.
struct Beginning {
  std::string extends;
  Place extends_place;
};

Beginning beginning_of(const YamlNode& root, Reading& reading) {
  Beginning out;
  for (const YamlEntry& entry : root.entries) {
    if (entry.key.text != "extends" || !out.extends.empty()) continue;
    out.extends = trimmed(read_text(entry.value, "extends", reading));
    out.extends_place = entry.value.place;
    if (is_path(out.extends)) {
      reading.error(out.extends_place, "style-extends",
                    "extends names a file: " + in_quotes(out.extends),
                    "write the bare name of a style beside this file or of a shipped one");
      out.extends.clear();
    }
  }
  return out;
}

// Reads the file and, first, what it extends. `chain` are the files on the way.
std::optional<Style> load(const std::string& path, const std::vector<std::string>& folders,
                          std::vector<std::string>& chain, Findings& findings) {
  const auto keep = [&](const Findings& more) {
    findings.insert(findings.end(), more.begin(), more.end());
  };
  const Result<std::string> bytes = file_bytes(path, most_style_bytes);
  if (!bytes) return keep(bytes.findings()), std::nullopt;
  const Result<std::string> text = text_from(*bytes, path);
  if (!text) return keep(text.findings()), std::nullopt;
  Reading reading{path, {}};
  const YamlNode root = parse_yaml(*text, reading);
  if (!has_error(reading.findings) && !root.is_map())
    reading.error(root.place, "style-value",
                  root.is_null() ? "the style is empty" : "the style is not a map",
                  "write extends: classroom and what differs");
  if (has_error(reading.findings)) return keep(reading.findings), std::nullopt;

  Style style;
  chain.push_back(path);
  if (const Beginning beginning = beginning_of(root, reading); !beginning.extends.empty()) {
    std::vector<std::string> places = {fs::path(path).parent_path().string()};
    if (places.front().empty()) places.front() = ".";
    places.insert(places.end(), folders.begin(), folders.end());
    std::optional<std::string> base, itself;
    // "extends: classroom" in a file classroom.yaml means the shipped one.
    for (const std::string& place : places) {
      base = path_of(beginning.extends, {place});
      std::error_code ignored;
      if (base && !fs::equivalent(*base, path, ignored)) break;
      if (base) itself = std::exchange(base, std::nullopt);
    }
    if (!base) base = itself;
    if (!base) {
      reading.add(unknown_style(beginning.extends, places, reading.at(beginning.extends_place)));
    } else if (std::any_of(chain.begin(), chain.end(), [&](const std::string& seen) {
                 std::error_code ignored;
                 return fs::equivalent(seen, *base, ignored);
               })) {
      std::string ring;
      for (const std::string& seen : chain) ring += fs::path(seen).stem().string() + " extends ";
      reading.error(beginning.extends_place, "style-cycle",
                    "styles extend each other in a ring: " + ring + beginning.extends,
                    "remove one extends");
    } else if (auto read = load(*base, folders, chain, findings)) {
      style = *std::move(read);
    }
  }
  style.description.clear();  // never inherited
  style.name = fs::path(path).stem().string();
  apply_style(root, style, reading);
  keep(reading.findings);
  return style;
}

std::optional<std::string> file_of(const std::string& name_or_path,
                                   const std::vector<std::string>& folders) {
  return is_path(name_or_path) ? name_or_path : path_of(name_or_path, folders);
}

}  // namespace

std::vector<std::string> style_files(const std::string& name_or_path,
                                     const std::vector<std::string>& folders) {
  std::vector<std::string> chain;
  Findings ignored;
  if (const auto path = file_of(name_or_path, folders)) load(*path, folders, chain, ignored);
  return chain;
}

Result<Style> style(const std::string& name_or_path, const std::vector<std::string>& folders) {
  const auto path = file_of(name_or_path, folders);
  if (!path) return unknown_style(name_or_path, folders, {});
  Findings findings;
  std::vector<std::string> chain;
  auto read = load(*path, folders, chain, findings);
  findings = sorted(std::move(findings));
  if (has_error(findings)) return findings;
  return {*std::move(read), std::move(findings)};
}

std::vector<std::string> style_names(const std::vector<std::string>& folders) {
  std::set<std::string> names;
  for (const std::string& folder : folders) {
    std::error_code fault;
    for (fs::directory_iterator it(folder, fault), end; !fault && it != end; it.increment(fault)) {
      const fs::path& path = it->path();
      const std::string name = path.stem().string();
      if (path.extension() == ending && !name.starts_with("words.") &&
          !name.starts_with("letters.")) names.insert(name);
    }
  }
  return {names.begin(), names.end()};
}

}  // namespace platewright::read
