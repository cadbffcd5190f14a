// Seeded placement problems for the oracles. Same seed, same problem. Written
// without sight of the solver.
#pragma once

#include <string>

#include "place/problem.hpp"
#include "random.hpp"

namespace platewright::oracle {

enum class Scatter { uniform, clustered, midline, collinear, coincident };

struct Shape {
  int labels = 4;
  bool left = true, right = true;
  bool row = false;         // a top row too
  bool staggered = false;   // a second left column outside the first
  Scatter scatter = Scatter::uniform;
  double slot = 5;
  double height = 50;       // of the columns, mm
  double tallest = 8;       // of the labels, mm
  bool rich = true;         // variants, targets, forks, preferred sides, groups, detail, obstacles
  bool pairs = true;        // gap, group and balance weights other than 0
  double apart = 2.1;       // least distance of targets of two labels, mm (except coincident)
};

place::Problem make_problem(Random& random, const Shape& shape);

// Anchor names that sort as the numbers do.
std::string name_of(int number);

}  // namespace platewright::oracle
