// What the sections of a pack's manifest share: lists of names, of kinds, texts.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/manifest.hpp"
#include "read/read.hpp"
#include "read/reading.hpp"
#include "read/yaml.hpp"

namespace platewright::read {

// A manifest while it is read. `set_names` are those that `sets:` lists, which
// texts may be keyed by.
struct ManifestReading {
  Reading& reading;
  Limits limits;
  std::vector<LabelSet> set_names;
  std::string folder;  // of the manifest

  SourcePosition at(const YamlNode& node) const { return reading.at(node.place); }
  // A path as written, joined with the manifest's folder.
  std::string joined(const std::string& path) const;
  TextBySet text(const YamlNode& node, std::string_view what) const;
};

// One name or a list of them. Errors `not-a-text`, `name-twice`.
std::vector<NamedAt> read_names(const YamlNode& node, std::string_view what,
                                const ManifestReading& from);
// Error `kind-unknown` for each that is no kind of sheet.
std::vector<SheetKind> read_kinds(const YamlNode& node, const ManifestReading& from);
// yes, no, true, false. Error `not-yes-or-no`.
bool read_yes(const YamlNode& node, std::string_view what, const ManifestReading& from);

PackFigure read_figure_entry(const YamlNode& key, const YamlNode& node,
                             const ManifestReading& from);
FigureVersion read_version(const YamlNode& key, const YamlNode& node, const ManifestReading& from);
PackSection read_section(const YamlNode& node, const ManifestReading& from);
PackException read_exception(const YamlNode& node, const ManifestReading& from);

// Names used in one place and declared in another. Errors `figure-unknown`,
// `version-unknown`, `page-unknown`, `set-unknown`, `paper-unknown`,
// `figure-twice` (in two sections); warnings `figure-unused`, `page-unused`,
// `version-unused`.
void check_names(const Manifest& manifest, Reading& reading);

}  // namespace platewright::read
