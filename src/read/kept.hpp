// The layout in a report of an earlier run, for sheets that are to move as little
// as can be when a term is added or dropped.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/layout.hpp"

namespace platewright::read {

struct KeptSheet {
  std::string figure;  // as the report names it
  std::string set;
  std::string style;
  double width = 0;    // of the paper as it lay, mm
  double height = 0;
  FigureToPage figure_to_page;
  double text_pt = 0;
  bool blanks_beside = false;
  bool copy_beside = false;
  int blank_lines = 1;
  double list_height = 0;
  Certificate certificate;
  std::vector<Fallback> fallbacks;
  // Boxes without the gap to the leader; leaders are left out.
  std::vector<PlacedLabel> labels;
};

// Nothing where the bytes are no report with a layout to keep.
std::optional<KeptSheet> kept_sheet(std::string_view bytes);

}  // namespace platewright::read
