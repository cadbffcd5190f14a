// The best ports off the grid for a given order, sides, targets and variants,
// as a convex program solved by a logarithmic barrier with Newton steps in Eigen
// (Boyd and Vandenberghe, Convex Optimization, 2004, section 11.3). The barrier
// comes with its own certificate: the true optimum lies within `slackness` below
// `cost` (11.2.2). Knows box order, gaps and columns, not leaders. Written
// without sight of the solver.
#pragma once

#include <optional>
#include <vector>

#include "place/problem.hpp"

namespace platewright::oracle {

struct ConvexBest {
  double cost = 0;       // total cost of the placement below, mm and all
  double slackness = 0;  // the optimum is at least cost - slackness
  std::vector<place::Placement> placements;
};

// Leader length only, or length and the (unclipped) gap cost. The problem's
// other weights for ports must be 0, and there are columns only. Nothing when a
// column is so full that no port can move.
std::optional<ConvexBest> convex_best(const place::Problem& problem,
                                      const std::vector<place::Placement>& start);

}  // namespace platewright::oracle
