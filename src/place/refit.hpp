// A placement made anew with as little moved as can be: for a sheet that gains or
// loses a label after it was printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "place/place.hpp"

namespace platewright::place {

// Where a label stood, mm on the page. Its box is that of the solver (with the
// gap to the leader).
struct KeptLabel {
  std::string anchor;
  Side side = Side::left;
  PagePoint port;
  PagePoint target;   // first end of its leader
  PageBox box;
  bool as_number = false;
};

struct KeptLayout {
  FigureToPage figure_to_page;
  int text_step = 0;
  std::vector<KeptLabel> labels;
};

// The request solved with the figure where it was and the labels where they
// stood; new labels come in where they cost least, neighbours giving way by as
// little as can be. Nothing when that would move more than `most_moved` of the
// labels that stay, or break a rule.
std::optional<Fit> refit(const FitRequest& request, const KeptLayout& kept, std::size_t most_moved);

}  // namespace platewright::place
