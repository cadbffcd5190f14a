// The cheapest placement by trying every choice of every label, judged by
// `verify` and `cost` alone.
#pragma once

#include <limits>
#include <vector>

#include "place/cost.hpp"
#include "place/problem.hpp"
#include "place/verify.hpp"

namespace platewright::place {

inline std::vector<Placement> all_places(const Problem& problem, const Label& label) {
  std::vector<Placement> places;
  for (std::size_t c = 0; c < problem.columns.size(); ++c) {
    const Column& column = problem.columns[c];
    for (std::size_t v = 0; v < label.variants.size(); ++v) {
      const Variant& variant = label.variants[v];
      if (variant.width > column.width) continue;
      for (std::size_t t = 0; t < label.targets.size(); ++t)
        for (int slot = 0;; ++slot) {
          const double y = column.top + problem.slot * slot;
          if (y > column.bottom + 1e-9) break;
          if (y - variant.port < column.top - 1e-9 ||
              y - variant.port + variant.height > column.bottom + 1e-9)
            continue;
          Placement p;
          p.side = column.side;
          p.column = static_cast<int>(c);
          p.variant = static_cast<int>(v);
          p.target = static_cast<int>(t);
          p.port = {column.edge, y};
          p.box = {column.side == Side::left ? column.edge - variant.width : column.edge,
                   y - variant.port, variant.width, variant.height};
          places.push_back(p);
        }
    }
  }
  return places;
}

struct Brute {
  bool feasible = false;
  double cost = std::numeric_limits<double>::infinity();
  std::vector<Placement> placements;
};

// Extends a placement label by label; a partial one that breaks a rule is left.
inline void extend(const Problem& whole, Problem& part, std::vector<Placement>& so_far,
                   Brute& best) {
  const std::size_t i = so_far.size();
  if (i == whole.labels.size()) {
    const double c = cost(whole, so_far).total();
    if (c < best.cost) best = {true, c, so_far};
    return;
  }
  part.labels.push_back(whole.labels[i]);
  for (const Placement& p : all_places(whole, whole.labels[i])) {
    so_far.push_back(p);
    if (verify(part, {so_far, {}}).empty()) extend(whole, part, so_far, best);
    so_far.pop_back();
  }
  part.labels.pop_back();
}

inline Brute brute_force(const Problem& problem) {
  Brute best;
  Problem part = problem;
  part.labels.clear();
  std::vector<Placement> so_far;
  extend(problem, part, so_far, best);
  return best;
}

}  // namespace platewright::place
