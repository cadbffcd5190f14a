// Everything a sheet needs, read and checked against each other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compose/frame.hpp"
#include "engine/layout_store.hpp"
#include "platewright/engine.hpp"
#include "platewright/letters.hpp"
#include "platewright/words.hpp"
#include "read/kept.hpp"

namespace platewright {

// A label of the asked set, ready to be placed.
struct SetLabel {
  std::string anchor;
  const Wording* wording = nullptr;  // into Loaded::terms
  std::string group;
  std::string clue;
  PreferredSide side = PreferredSide::any;
  InsideWish inside = InsideWish::as_style;
};

// Another set of the table whose sheets have their labels in the same places.
struct Sibling {
  LabelSet set;
  Words words;
  std::vector<SetLabel> labels;  // sorted by anchor
  compose::Matter matter;
};

struct Loaded {
  Figure figure;
  Terms terms;
  LabelSet set;
  Style style;
  Words words;
  Letters letters;
  Paper paper;
  std::vector<SetLabel> labels;  // sorted by anchor
  compose::Matter matter;
  SolveEffort effort = SolveEffort::usual;
  bool off_grid = true;                 // somebody is told what no placement can fall below
  std::optional<read::KeptSheet> kept;  // a layout to change as little as can be
  LayoutStore* layouts = nullptr;  // where solved layouts are kept; null: nowhere
  // Told the size of the figure, mm a unit, before its labels are placed in earnest; may be empty.
  std::function<void(const Figure&, double)> sized;
  std::vector<Sibling> siblings;  // where one layout is asked for: the table's other sets
};

// Where a build keeps what it read and solved on the way to its sheets.
struct Keeping {
  PartStore& figures;
  LayoutStore& layouts;
  std::string figure_digest;
};

// Reads figure, terms, style, words; finds the set and its labels. All faults
// of all of them at once.
Result<Loaded> load(const SheetRequest& request, const Environment& environment,
                    const Keeping* keeping = nullptr);

// Labels of `set` whose anchors the figure lacks, as findings; the others go to
// `labels`.
Findings labels_of(const Terms& terms, const LabelSet& set, const Figure& figure,
                   std::vector<SetLabel>& labels);

// Written from right to left, by its primary subtag.
bool is_right_to_left(std::string_view language);

}  // namespace platewright
