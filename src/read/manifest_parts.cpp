#include "read/manifest_parts.hpp"

#include <algorithm>
#include <array>
#include <filesystem>

#include "base/quote.hpp"
#include "platewright/colour.hpp"
#include "read/terms_table.hpp"

namespace platewright::read {

std::string ManifestReading::joined(const std::string& path) const {
  if (path.empty()) return path;
  return (std::filesystem::path(folder) / path).lexically_normal().string();
}

TextBySet ManifestReading::text(const YamlNode& node, std::string_view what) const {
  return text_by_set(node, what, set_names, reading, limits);
}

std::vector<NamedAt> read_names(const YamlNode& node, std::string_view what,
                                const ManifestReading& from) {
  std::vector<NamedAt> names;
  const auto add = [&](const YamlNode& n) {
    std::string name(trimmed(read_text(n, what, from.reading)));
    if (name.empty()) return;
    const auto known = std::find_if(names.begin(), names.end(),
                                    [&](const NamedAt& other) { return other.name == name; });
    if (known != names.end()) {
      from.reading.error(n.place, "name-twice",
                         std::string(what) + " names " + in_quotes(name) + " twice",
                         "remove one of the two");
      return;
    }
    names.push_back({std::move(name), from.at(n)});
  };
  if (node.is_list())
    for (const YamlNode& item : node.items) add(item);
  else if (!node.is_null())
    add(node);
  return names;
}

std::vector<SheetKind> read_kinds(const YamlNode& node, const ManifestReading& from) {
  std::vector<SheetKind> kinds;
  for (const NamedAt& name : read_names(node, "kinds", from)) {
    auto kind = find_sheet_kind(name.name);
    if (kind.ok()) {
      kinds.push_back(*kind);
      continue;
    }
    for (Finding f : kind.findings()) {
      f.at = name.at;
      from.reading.add(std::move(f));
    }
  }
  return kinds;
}

bool read_yes(const YamlNode& node, std::string_view what, const ManifestReading& from) {
  const std::string text(trimmed(read_text(node, what, from.reading)));
  if (text == "yes" || text == "true") return true;
  if (text != "no" && text != "false" && !node.is_list() && !node.is_map())
    from.reading.error(node.place, "not-yes-or-no",
                       std::string(what) + " is " + in_quotes(text) + ", neither yes nor no",
                       "write yes or no");
  return false;
}

PackFigure read_figure_entry(const YamlNode& key, const YamlNode& node,
                             const ManifestReading& from) {
  PackFigure figure;
  figure.name = key.text;
  figure.declared = from.at(key);
  const std::string what = "figure " + in_quotes(key.text);
  const auto path = [&](const YamlNode& n) {
    return from.joined(std::string(trimmed(read_text(n, what, from.reading))));
  };
  if (node.is_map()) {
    const std::array<YamlField, 8> fields = {{
        {"terms", [&](const YamlNode& n) { figure.terms = path(n); }},
        {"figure", [&](const YamlNode& n) { figure.figure = path(n); }},
        {"title", [&](const YamlNode& n) { figure.title = from.text(n, "title"); }},
        {"versions", [&](const YamlNode& n) { figure.versions = read_names(n, "versions", from); }},
        {"measures", [&](const YamlNode& n) { figure.measures = read_names(n, "measures", from); }},
        {"kinds", [&](const YamlNode& n) { figure.kinds = read_kinds(n, from); }},
        {"sets", [&](const YamlNode& n) { figure.sets = read_names(n, "sets", from); }},
        {"one-layout",
         [&](const YamlNode& n) { figure.one_layout = read_yes(n, "one-layout", from); }},
    }};
    read_map(node, what, fields, from.reading);
  } else {
    figure.terms = path(node);
  }
  if (figure.terms.empty())
    from.reading.error(node.place.line > 0 ? node.place : key.place, "terms-missing",
                       what + " has no table of terms",
                       "write " + key.text + ": " + key.text + ".terms.yaml");
  return figure;
}

FigureVersion read_version(const YamlNode& key, const YamlNode& node,
                           const ManifestReading& from) {
  FigureVersion version;
  version.name = key.text;
  version.declared = from.at(key);
  const std::string what = "version " + in_quotes(key.text);
  const auto tints = [&](const YamlNode& n) {
    read_named(
        n, "tints", "key-duplicate",
        [&](const YamlNode& name, const YamlNode& value) {
          const std::string text(trimmed(read_text(value, "a tint", from.reading)));
          auto colour = parse_colour(text);
          if (colour.ok()) {
            version.tints.push_back({{name.text, from.at(name)}, *colour});
            return;
          }
          for (Finding f : colour.findings()) {
            f.at = from.at(value);
            from.reading.add(std::move(f));
          }
        },
        from.reading);
  };
  const std::array<YamlField, 5> fields = {{
      {"title", [&](const YamlNode& n) { version.title = from.text(n, "title"); }},
      {"show", [&](const YamlNode& n) { version.show = read_names(n, "show", from); }},
      {"hide", [&](const YamlNode& n) { version.hide = read_names(n, "hide", from); }},
      {"tints", tints},
      {"ink-saving",
       [&](const YamlNode& n) { version.ink_saving = read_yes(n, "ink-saving", from); }},
  }};
  read_map(node, what, fields, from.reading);
  return version;
}

PackSection read_section(const YamlNode& node, const ManifestReading& from) {
  PackSection section;
  section.declared = from.at(node);
  const std::array<YamlField, 5> fields = {{
      {"title", [&](const YamlNode& n) { section.title = from.text(n, "title"); }},
      {"contents", [&](const YamlNode& n) { section.contents = read_yes(n, "contents", from); }},
      {"before", [&](const YamlNode& n) { section.before = read_names(n, "before", from); }},
      {"figures", [&](const YamlNode& n) { section.figures = read_names(n, "figures", from); }},
      {"after", [&](const YamlNode& n) { section.after = read_names(n, "after", from); }},
  }};
  read_map(node, "a section", fields, from.reading);
  return section;
}

PackException read_exception(const YamlNode& node, const ManifestReading& from) {
  PackException exception;
  exception.declared = from.at(node);
  const auto names = [&](std::string_view what, std::vector<NamedAt> PackException::*member) {
    return YamlField{what, [&, what, member](const YamlNode& n) {
                       exception.*member = read_names(n, what, from);
                     }};
  };
  const std::array<YamlField, 5> fields = {{
      names("figures", &PackException::figures),
      names("versions", &PackException::versions),
      names("sets", &PackException::sets),
      names("papers", &PackException::papers),
      {"kinds", [&](const YamlNode& n) { exception.kinds = read_kinds(n, from); }},
  }};
  read_map(node, "an exception", fields, from.reading);
  if (node.is_map() && node.entries.empty())
    from.reading.error(node.place, "exception-empty", "an exception names nothing",
                       "write {figures: ..., kinds: ...}, else all would be left out");
  return exception;
}

}  // namespace platewright::read
