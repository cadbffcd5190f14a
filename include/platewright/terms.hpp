// The table of terms: one row an anchor, one column a label set.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "platewright/finding.hpp"
#include "platewright/geometry.hpp"

namespace platewright {

// A column of the table: what readers of one age or language are shown.
struct LabelSet {
  std::string name;      // "middle"
  int youngest = 7;      // years, inclusive
  int oldest = 10;       // years, inclusive; >= youngest
  std::string language = "en";  // BCP 47
  SourcePosition declared;
};

// One text, or a text by set or language.
struct TextBySet {
  std::string everywhere;                 // used where no key fits
  std::map<std::string, std::string> by;  // key: set name or language
  // The text for a set: by set name, then by language ("de-AT" falls back to
  // "de"), then `everywhere`. Empty when there is none.
  std::string_view text_for(const LabelSet& set) const;
  bool empty() const { return everywhere.empty() && by.empty(); }
};

// What one cell says. '\n' in `text` is a line break asked for by the writer;
// U+00AD (soft hyphen) is where the writer allows hyphenation; `alternatives`
// are other wordings, longest wish first, that the engine may use where the
// first does not fit.
struct Wording {
  std::string text;
  std::vector<std::string> alternatives;
};

enum class PreferredSide { any, left, right };
// Whether a label may stand inside its region; as the style says unless the row does.
enum class InsideWish { as_style, yes, no };

struct Term {
  std::string anchor;
  std::map<std::string, Wording> cells;  // by set name; no entry: not labelled there
  TextBySet clue;
  TextBySet group;
  TextBySet pronunciation;
  PreferredSide side = PreferredSide::any;  // side of the page, as the reader sees it
  InsideWish inside = InsideWish::as_style;
  SourcePosition declared;
};

// An anchor that the terms file adds: points in viewBox units, or the id of a
// shape in the figure.
struct AddedAnchor {
  std::string name;
  std::vector<FigurePoint> at;
  std::string region;  // element id; empty when `at` is given
  SourcePosition declared;
};

struct Terms {
  std::string file;
  std::string figure;  // as written, relative to the terms file; may be empty
  TextBySet title;     // of the figure, by language; may be empty
  std::string credit;   // printed in the footer; may be empty
  std::string licence;
  TextBySet note;       // in the footer, instead of the usual one on learning; may be empty
  std::vector<LabelSet> sets;  // in the order written
  std::vector<Term> terms;     // in the order written
  std::vector<AddedAnchor> added;
  std::vector<std::string> route;  // anchors in the order that food, blood or light passes them
  const LabelSet* find_set(std::string_view name) const;
};

}  // namespace platewright
