// What a pack's manifest says: figures, the matrix of sheets, sections, pages.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "platewright/figure_version.hpp"
#include "platewright/sheet.hpp"
#include "platewright/terms.hpp"

namespace platewright {

struct PackFigure {
  std::string name;    // "heart"
  std::string terms;   // path, joined with the manifest's folder
  std::string figure;  // likewise; empty: the one that the terms file names
  TextBySet title;     // instead of the terms file's; may be empty
  std::vector<NamedAt> versions;                // none: as drawn
  std::vector<NamedAt> measures;                // anchors that only lengths are taken between
  std::optional<std::vector<SheetKind>> kinds;  // instead of the pack's
  std::optional<std::vector<NamedAt>> sets;     // likewise
  std::optional<bool> one_layout;               // likewise
  SourcePosition declared;
};

// What is left out: every sheet that all lists which are not empty have.
struct PackException {
  std::vector<NamedAt> figures, versions, sets, papers;
  std::vector<SheetKind> kinds;
  SourcePosition declared;
};

// A page of the writer's own: a text file, or one for each language or set.
struct PackPage {
  std::string name;
  TextBySet file;  // paths, joined with the manifest's folder
  SourcePosition declared;
};

struct PackSection {
  TextBySet title;
  bool contents = false;           // begins with a contents page of its own
  std::vector<NamedAt> before;     // pages before the figures
  std::vector<NamedAt> figures;
  std::vector<NamedAt> after;      // pages after them
  SourcePosition declared;
};

// Name of the version that is none.
inline constexpr const char* as_drawn = "as-drawn";

enum class KeyPlace { section, file };

struct Manifest {
  std::string file;
  std::string name;  // stem of the finished files
  TextBySet title;
  TextBySet subtitle;
  TextBySet credit;
  TextBySet licence;
  std::string cover;  // name of the figure on the cover; empty: the first
  std::vector<NamedAt> papers;
  TextBySet style;    // name or path, by set
  std::vector<NamedAt> sets;  // empty: every set of every figure
  std::vector<SheetKind> kinds;
  KeyPlace keys = KeyPlace::section;
  bool word_bank = false;
  bool one_layout = false;    // labels where all sets of a table have them
  std::uint64_t seed = 1;     // of what is shuffled
  std::vector<PackFigure> figures;
  std::vector<FigureVersion> versions;
  std::vector<PackPage> pages;
  std::vector<PackSection> sections;
  std::vector<PackException> exceptions;
};

}  // namespace platewright
