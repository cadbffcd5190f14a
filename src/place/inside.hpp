// Labels that stand inside their regions: where, and the problem that is left for all
// others, to which they are obstacles.
#pragma once

#include <optional>
#include <vector>

#include "place/place.hpp"

namespace platewright::place {

std::shared_ptr<const Room> on_page(const FigureRoom& room, const FigureToPage& to_page);

// A label in mm on the page, with these variants and no room yet.
Label on_page(const FitLabel& from, const std::vector<Variant>& variants,
              const FigureToPage& to_page);
// The same for one that has a room, at a text step.
Label inside_on_page(const FitLabel& from, int text_step, const FigureToPage& to_page);

// True when all cells that the box touches are free.
bool holds(const Room& room, const PageBox& box);

// The place in the room nearest to the label's best target: label_gap of free cells
// around the box, off `taken` by label_gap, off the first targets of `others` by
// anchor_gap, and off the obstacles that do not hold its target. The first variant that fits.
std::optional<Placement> place_inside(const Label& label, const std::vector<Label>& others,
                                      const std::vector<PageBox>& taken,
                                      const std::vector<PageBox>& obstacles, const Rules& rules);

// A request's obstacles and its figure's insets.
std::vector<PageBox> obstacles_on_page(const FitRequest& request, const FigureToPage& to_page);

// What keeps labels and leaders off a label that stands inside.
PageBox kept_free(const PageBox& inside, const Rules& rules);

bool any_inside(const std::vector<Placement>& placements);

// The problem without the labels that stand inside; their boxes are obstacles.
struct Beside {
  Problem problem;
  std::vector<std::size_t> labels;    // which of the whole problem's they are
  std::vector<Placement> placements;  // theirs
};
Beside beside(const Problem& problem, const std::vector<Placement>& placements);

// The request without some labels, which go to `inside`.
FitRequest beside(const FitRequest& request, const std::vector<bool>& inside);
// A fit of that as one of the whole request; nothing when a label has no place inside at
// the fit's scale: `homeless` tells which.
std::optional<Fit> whole_fit(const FitRequest& request, const std::vector<bool>& inside, Fit fit,
                             std::vector<bool>& homeless);

}  // namespace platewright::place
