// A pack's manifest: what is in it, and which names fit together.
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <set>

#include "base/nearest.hpp"
#include "base/number.hpp"
#include "base/quote.hpp"
#include "platewright/paper.hpp"
#include "read/encoding.hpp"
#include "read/manifest_parts.hpp"

namespace platewright::read {
namespace {

std::vector<std::string_view> views(const auto& named) {
  std::vector<std::string_view> out;
  for (const auto& one : named) out.push_back(one.name);
  return out;
}

bool has(const std::vector<std::string_view>& known, std::string_view name) {
  return std::find(known.begin(), known.end(), name) != known.end();
}

void check_known(const std::vector<NamedAt>& used, const std::vector<std::string_view>& known,
                 const char* code, const char* what, const char* declare, Reading& reading) {
  for (const NamedAt& name : used)
    if (!has(known, name.name))
      reading.add(error(code, name.at, std::string("there is no ") + what + ' ' +
                                           in_quotes(name.name),
                        did_you_mean(name.name, known,
                                     known.empty() ? declare : "known: " + listed(known))));
}

void check_papers(const Manifest& manifest, Reading& reading) {
  constexpr double same = 0.1;  // mm
  std::vector<std::pair<Paper, const NamedAt*>> known;
  for (const NamedAt& name : manifest.papers) {
    auto paper = find_paper(name.name);
    if (paper.ok()) {
      const Paper upright = oriented(*paper, Orientation::portrait);
      const auto twin = std::find_if(known.begin(), known.end(), [&](const auto& other) {
        return std::abs(other.first.width.mm() - upright.width.mm()) < same &&
               std::abs(other.first.height.mm() - upright.height.mm()) < same;
      });
      if (twin != known.end())
        reading.add(
            error("paper-twice", name.at,
                  in_quotes(name.name) + " is the same paper as " + in_quotes(twin->second->name),
                  "remove one of the two"));
      known.emplace_back(upright, &name);
      continue;
    }
    for (Finding f : paper.findings()) {
      f.at = name.at;
      reading.add(std::move(f));
    }
  }
}

}  // namespace

void check_names(const Manifest& manifest, Reading& reading) {
  auto versions = views(manifest.versions);
  versions.emplace_back(as_drawn);
  const auto figures = views(manifest.figures), pages = views(manifest.pages), sets = views(manifest.sets),
             papers = views(manifest.papers);
  const auto check_sets = [&](const std::vector<NamedAt>& used) {
    // Without a list of its own, the pack has the sets that its figures have.
    if (!sets.empty())
      check_known(used, sets, "set-unknown", "label set", "name it under sets", reading);
  };
  std::set<std::string> used_figures, used_versions, used_pages;
  for (const PackFigure& figure : manifest.figures) {
    check_known(figure.versions, versions, "version-unknown", "version",
                "declare it under versions", reading);
    if (figure.sets) check_sets(*figure.sets);
    for (const NamedAt& name : figure.versions) used_versions.insert(name.name);
  }
  for (const PackSection& section : manifest.sections) {
    check_known(section.figures, figures, "figure-unknown", "figure", "declare it under figures",
                reading);
    for (const NamedAt& name : section.figures)
      if (!used_figures.insert(name.name).second)
        reading.add(error("figure-twice", name.at,
                          "figure " + in_quotes(name.name) + " is in two sections",
                          "leave it in one"));
    for (const auto* list : {&section.before, &section.after}) {
      check_known(*list, pages, "page-unknown", "page", "declare it under pages", reading);
      for (const NamedAt& name : *list) used_pages.insert(name.name);
    }
  }
  for (const PackException& exception : manifest.exceptions) {
    check_known(exception.figures, figures, "figure-unknown", "figure", "declare it under figures",
                reading);
    check_known(exception.versions, versions, "version-unknown", "version",
                "declare it under versions", reading);
    check_known(exception.papers, papers, "paper-unknown", "paper of this pack",
                "name it under papers", reading);
    check_sets(exception.sets);
  }
  if (!manifest.cover.empty() && !has(figures, manifest.cover))
    reading.add(error("figure-unknown", {manifest.file, 0, 0},
                      "the cover shows " + in_quotes(manifest.cover) + ", which is no figure",
                      did_you_mean(manifest.cover, figures, "declare it under figures")));
  check_papers(manifest, reading);

  if (!manifest.sections.empty())
    for (const PackFigure& figure : manifest.figures)
      if (!used_figures.contains(figure.name))
        reading.add(warning("figure-unused", figure.declared,
                            "figure " + in_quotes(figure.name) + " is in no section",
                            "add it to one or remove it"));
  for (const PackPage& page : manifest.pages)
    if (!used_pages.contains(page.name))
      reading.add(warning("page-unused", page.declared,
                          "page " + in_quotes(page.name) + " is in no section",
                          "name it under before or after in a section"));
  for (const FigureVersion& version : manifest.versions)
    if (!used_versions.contains(version.name))
      reading.add(warning("version-unused", version.declared,
                          "version " + in_quotes(version.name) + " is of no figure",
                          "name it under versions of a figure or remove it"));
}

Result<Manifest> manifest(std::string_view bytes, const std::string& path) {
  const Result<std::string> text = text_from(bytes, path);
  if (!text) return text.findings();
  Reading reading{path, {}};
  const YamlNode root = parse_yaml(*text, reading);
  if (has_error(reading.findings)) return sorted(std::move(reading.findings));
  if (!root.is_map())
    return error("manifest-shape", reading.at(root.place),
                 root.is_null() ? "the file is empty" : "the file is not a pack's manifest",
                 "write title:, papers:, kinds: and figures:");

  Manifest m;
  m.file = path;
  const std::filesystem::path file(path);
  m.name = file.stem().string();
  ManifestReading from{reading, {}, {}, file.parent_path().string()};
  // Sets first, wherever they stand: texts are keyed by them.
  for (const YamlEntry& entry : root.entries)
    if (entry.key.text == "sets" && m.sets.empty()) {
      m.sets = read_names(entry.value, "sets", from);
      for (const NamedAt& name : m.sets) from.set_names.push_back({name.name, 0, 0, {}, name.at});
    }
  const auto by_set = [&](std::string_view what, TextBySet Manifest::*member) {
    return YamlField{
        what, [&, what, member](const YamlNode& n) { m.*member = from.text(n, what); }};
  };
  const auto each = [&](const YamlNode& node, std::string_view what, const auto& read) {
    if (node.is_null()) return;
    if (!node.is_list()) {
      reading.error(node.place, "not-a-list", std::string(what) + " is not a list",
                    "begin each entry with a dash");
      return;
    }
    for (const YamlNode& item : node.items) read(item);
  };
  const auto named = [&](const YamlNode& node, std::string_view what, const auto& read) {
    if (!node.is_null()) read_named(node, what, "name-twice", read, reading);
  };
  const std::vector<YamlField> fields = {
      {"name",
       [&](const YamlNode& n) {
         m.name = trimmed(read_text(n, "name", reading));
         if (m.name.empty() || m.name.find('/') != std::string::npos || m.name.front() == '.')
           reading.error(n.place, "name-invalid",
                         in_quotes(m.name) + " can't be the beginning of file names",
                         "use letters, digits and -");
       }},
      by_set("title", &Manifest::title),
      by_set("subtitle", &Manifest::subtitle),
      by_set("credit", &Manifest::credit),
      by_set("licence", &Manifest::licence),
      {"cover",
       [&](const YamlNode& n) { m.cover = trimmed(read_text(n, "cover", reading)); }},
      {"papers", [&](const YamlNode& n) { m.papers = read_names(n, "papers", from); }},
      {"style",
       [&](const YamlNode& n) {
         m.style = from.text(n, "style");
         // A style's own name stays as it is.
         const auto place = [&](std::string& style) {
           if (style.ends_with(".yaml") || style.ends_with(".yml")) style = from.joined(style);
         };
         place(m.style.everywhere);
         for (auto& [where, style] : m.style.by) place(style);
       }},
      {"sets", [](const YamlNode&) {}},
      {"kinds", [&](const YamlNode& n) { m.kinds = read_kinds(n, from); }},
      {"keys",
       [&](const YamlNode& n) {
         const std::string place(trimmed(read_text(n, "keys", reading)));
         if (place == "file")
           m.keys = KeyPlace::file;
         else if (place != "section")
           reading.error(n.place, "keys-unknown",
                         in_quotes(place) + " is no place for the keys", "write section or file");
       }},
      {"word-bank",
       [&](const YamlNode& n) { m.word_bank = read_yes(n, "word-bank", from); }},
      {"one-layout",
       [&](const YamlNode& n) { m.one_layout = read_yes(n, "one-layout", from); }},
      {"seed",
       [&](const YamlNode& n) {
         const auto seed = parse_integer(trimmed(read_text(n, "seed", reading)));
         if (seed && *seed >= 0)
           m.seed = static_cast<std::uint64_t>(*seed);
         else
           reading.error(n.place, "seed-invalid",
                         in_quotes(n.text) + " is not a whole number from 0", "write seed: 1");
       }},
      {"figures",
       [&](const YamlNode& n) {
         named(n, "figures", [&](const YamlNode& key, const YamlNode& value) {
           m.figures.push_back(read_figure_entry(key, value, from));
         });
       }},
      {"versions",
       [&](const YamlNode& n) {
         named(n, "versions", [&](const YamlNode& key, const YamlNode& value) {
           m.versions.push_back(read_version(key, value, from));
         });
       }},
      {"pages",
       [&](const YamlNode& n) {
         named(n, "pages", [&](const YamlNode& key, const YamlNode& value) {
           PackPage page{key.text, from.text(value, "page " + in_quotes(key.text)), from.at(key)};
           page.file.everywhere = from.joined(page.file.everywhere);
           for (auto& [where, file_path] : page.file.by) file_path = from.joined(file_path);
           m.pages.push_back(std::move(page));
         });
       }},
      {"sections",
       [&](const YamlNode& n) {
         each(n, "sections",
              [&](const YamlNode& item) { m.sections.push_back(read_section(item, from)); });
       }},
      {"except",
       [&](const YamlNode& n) {
         each(n, "except",
              [&](const YamlNode& item) { m.exceptions.push_back(read_exception(item, from)); });
       }},
  };
  read_map(root, "the manifest", fields, reading);
  if (m.figures.empty())
    reading.error(root.place, "figures-missing", "the pack has no figures",
                  "add figures: {heart: heart.terms.yaml}");
  if (m.kinds.empty())
    reading.error(root.place, "kind-missing", "the pack has no kinds of sheet",
                  "add kinds: [poster, worksheet, key]");
  if (m.papers.empty())
    reading.error(root.place, "paper-missing", "the pack has no paper", "add papers: [a4, letter]");
  if (m.style.empty()) m.style.everywhere = "classroom";
  check_names(m, reading);
  Findings findings = sorted(std::move(reading.findings));
  if (has_error(findings)) return findings;
  return {std::move(m), std::move(findings)};
}

}  // namespace platewright::read
