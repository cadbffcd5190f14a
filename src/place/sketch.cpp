#include "place/sketch.hpp"

#include <algorithm>

#include "place/candidates.hpp"
#include "place/cost_terms.hpp"
#include "place/two_sides.hpp"

namespace platewright::place {

Sketch sketch(const Problem& problem, const Solution& solution, std::size_t most) {
  Sketch sketch;
  const Rulebook rules(problem);
  const std::vector<Station> stations =
      make_stations(rules, slot_of(problem), all_targets(problem));
  for (const Station& s : stations)
    for (int slot = 0; slot < s.slots; ++slot) sketch.slots.push_back(s.port(slot));
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    const Label& label = problem.labels[i];
    const Placement& p = solution.placements[i];
    if (p.side == Side::inside) {
      sketch.own_cost.push_back(0);
      sketch.least_cost.push_back(0);
      continue;
    }
    const double own = label_cost(problem, label, p.side, p.variant, p.target, p.port).total();
    std::vector<Sketch::Wish> wishes;
    double least = own;
    for (const Station& s : stations) {
      const StationLabel& l = s.labels[i];
      for (const int target : l.targets)
        for (const int variant : l.variants)
          for (int slot = 0; slot < s.slots; ++slot) {
            const double cost = choice_cost(s, {static_cast<int>(i), variant, target, slot});
            least = std::min(least, cost);
            if (cost < own - 1e-9)
              wishes.push_back({i, s.side, s.port(slot),
                                label.targets[static_cast<std::size_t>(target)].points, cost});
          }
    }
    std::stable_sort(wishes.begin(), wishes.end(),
                     [](const Sketch::Wish& a, const Sketch::Wish& b) { return a.cost < b.cost; });
    // Of places next to each other the cheapest stands for all.
    constexpr double apart = 4;  // mm
    const std::size_t first = sketch.wishes.size();
    for (const Sketch::Wish& wish : wishes) {
      if (sketch.wishes.size() - first == most) break;
      const bool new_place =
          std::all_of(sketch.wishes.begin() + static_cast<std::ptrdiff_t>(first),
                      sketch.wishes.end(), [&](const Sketch::Wish& other) {
                        return distance(wish.port, other.port) >= apart;
                      });
      if (new_place) sketch.wishes.push_back(wish);
    }
    sketch.own_cost.push_back(own);
    sketch.least_cost.push_back(least);
  }
  return sketch;
}

}  // namespace platewright::place
