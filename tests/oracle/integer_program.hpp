// The slot model as an integer program in GLPK; written without sight of the solver.
#pragma once

#include "place/problem.hpp"

namespace platewright::oracle {

struct IntegerAnswer {
  enum class Kind { optimal, infeasible, gave_up } kind = Kind::gave_up;
  double cost = 0;
  int binaries = 0;
};

// `successors`: with the costs of neighbouring pairs (gap, group). Without, the
// problem's gap and group_break weights must be 0.
IntegerAnswer integer_program(const place::Problem& problem, bool successors);

}  // namespace platewright::oracle
