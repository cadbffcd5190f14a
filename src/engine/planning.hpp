// From what was read to a plan for one paper: measured labels, the fit, blanks.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "compose/plan.hpp"
#include "engine/load.hpp"
#include "place/place.hpp"
#include "platewright/sheet.hpp"
#include "text/text.hpp"

namespace platewright {

// What the solver was asked and answered, for reports and pictures of a solve.
struct Planned {
  compose::Plan plan;
  double seconds = 0;       // spent on placement
  std::shared_ptr<const place::Fit> fit = {};  // null where nothing was placed
};

// The plan that poster, worksheet, copywork and key share.
Result<Planned> shared_plan(const Loaded& loaded, Orientation orientation,
                            const text::Typesetter& typesetter,
                            const text::StrokeFont* strokes);

// Numbers at the leaders' ends, and room for their list below.
Result<Planned> numbered_plan(const Loaded& loaded, Orientation orientation,
                              const text::Typesetter& typesetter);

// The figure alone, as large as it goes.
Result<Planned> bare_plan(const Loaded& loaded, Orientation orientation,
                          const text::Typesetter& typesetter);

// Plans by the name of the set, of all sets that share a layout: as each would be made for
// itself, solved once. `placing` is not none.
using MemberPlans = std::map<std::string, std::shared_ptr<const Planned>>;
Result<MemberPlans> member_plans(const Loaded& loaded, Placing placing, Orientation orientation,
                                 const text::Typesetter& typesetter,
                                 const text::StrokeFont* strokes);

// A page without a figure: nothing is placed. Upright unless asked otherwise.
Planned page_plan(const Loaded& loaded, Orientation orientation, const text::Typesetter& typesetter);

// Type sizes to try, wanted first, floor last, in points.
std::vector<double> text_steps(const AgeRow& age, const Style& style, double growth);

// Letters of an answer as a hand writes them: no combining marks, no soft hyphens.
int letter_count(std::string_view text);

}  // namespace platewright
