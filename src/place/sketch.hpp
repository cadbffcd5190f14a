// What a solve looked at, to be drawn: slots, and the leaders that labels would
// rather have had.
#pragma once

#include <cstddef>
#include <vector>

#include "place/problem.hpp"

namespace platewright::place {

struct Sketch {
  std::vector<PagePoint> slots;  // of all columns and rows
  // A place that keeps every rule of the label by itself and would cost it less
  // than the one it has, a few mm from others of that label.
  struct Wish {
    std::size_t label = 0;
    Side side = Side::left;
    PagePoint port;
    std::vector<PagePoint> targets;
    double cost = 0;
  };
  std::vector<Wish> wishes;        // by label, cheapest first
  std::vector<double> own_cost;    // of each label by itself, where it is
  std::vector<double> least_cost;  // at its cheapest slot, had it the page to itself
};

// At most `most` wishes of one label.
Sketch sketch(const Problem& problem, const Solution& solution, std::size_t most);

}  // namespace platewright::place
