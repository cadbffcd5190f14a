// The published cost of a placement; what the solver minimises.
#pragma once

#include "place/problem.hpp"

namespace platewright::place {

// Sum over labels of
//   length * L / unit          L: leader length, mm (all branches of a fork)
// + slope * s + steep * max(0, s - steep_from)
//                              s: sin^2(angle from the horizontal; from the vertical for rows),
//                              the mean of a fork's branches
// + detail * D / unit          D: detail crossed, mm
// + wrong_side                 when on the side not preferred
// + variant penalty + target penalty
// plus over consecutive labels of one column (or row)
//   gap * (free gap - fair gap)^2 / fair gap^2 clipped to 1,  fair gap: see cost.cpp
// + group_break                when one of the two has a group, the other differs
// plus balance * |L - R| / (L + R) by label count.
// Labels that stand inside their regions cost nothing and are neighbours of none.
struct CostParts {
  double length = 0, slope = 0, detail = 0, side = 0, penalties = 0, gap = 0, group = 0, balance = 0;
  double total() const {
    return length + slope + detail + side + penalties + gap + group + balance;
  }
};
CostParts cost(const Problem& problem, const std::vector<Placement>& placements);

}  // namespace platewright::place
