// What a pack is made of: its figures' tables, its parts (one figure, version,
// set and paper) and its editions (a set and a paper).
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "platewright/manifest.hpp"
#include "platewright/pack.hpp"
#include "platewright/words.hpp"

namespace platewright {

struct PackTable {
  std::size_t figure = 0;   // of the manifest
  Terms terms;
  std::string figure_path;
  std::string digest;       // of the figure's bytes and of the images beside it
};

// The sheets of one version of a part's figure. Versions that only tint share
// the layout, and so the part, of the figure as drawn.
struct PackLook {
  const FigureVersion* version = nullptr;  // of the manifest; null: as drawn
  std::vector<SheetKind> kinds;
};

struct PackPart {
  std::string id;           // "heart/middle/a4", "child:x-ray/middle/a4"
  std::size_t table = 0;
  SheetRequest request;     // but its kinds, which the looks have
  std::vector<PackLook> looks;
  LabelSet set;
  std::string key;  // of everything that its pages depend on, siblings' words among them
};

struct PackEdition {
  std::string name;         // "middle-a4"
  LabelSet set;
  Paper paper;
  std::string style;
  std::vector<std::size_t> parts;  // in the order of the figures
};

struct PackPlan {
  std::shared_ptr<const Manifest> whole;  // that looks point into
  const Manifest& manifest() const { return *whole; }
  std::string manifest_digest;
  std::vector<PackTable> tables;
  std::vector<PackPart> parts;
  std::vector<PackEdition> editions;
  std::map<std::string, Style> styles;   // by name or path
  std::map<std::string, Words> words;    // by language as asked
  std::map<std::string, std::string> letters;  // digests of the letters of puzzles, likewise
  std::string faces;                     // identity of type and libraries, by style joined
  Findings warnings;                     // of all that was read

  // Of the figure on the cover; null where there is none.
  const PackTable* cover_table() const;
  const Style& style_of(const PackEdition& edition) const { return styles.at(edition.style); }
  const Words& words_of(const LabelSet& set) const { return words.at(set.language); }
};

// Reads the manifest and every table that it names. All faults at once, besides
// the readers' own: `set-unknown`, `set-differs`, `terms-figure`, `edition-empty`.
Result<PackPlan> plan_pack(const std::string& manifest_path, const Environment& environment);

// True when the manifest leaves this sheet out.
bool left_out(const Manifest& manifest, const std::string& figure, const std::string& version,
              const std::string& set, const std::string& paper, SheetKind kind);

}  // namespace platewright
