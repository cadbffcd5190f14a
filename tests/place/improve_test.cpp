// Moves of single labels (draft.hpp), beside every other place tried one by one.
#include <gtest/gtest.h>

#include "instances.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

std::size_t index(int i) { return static_cast<std::size_t>(i); }

// Everywhere that a label may be.
std::vector<Seat> seats_of(const std::vector<Station>& stations, int label) {
  std::vector<Seat> seats;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const StationLabel& l = stations[k].labels[index(label)];
    for (const int v : l.variants)
      for (const int t : l.targets)
        for (int slot = 0; slot < stations[k].slots; ++slot)
          if (const Choice c{label, v, t, slot}; choice_cost(stations[k], c) < never)
            seats.push_back({static_cast<int>(k), c});
  }
  return seats;
}

TEST(Improve, Leaves_no_move_of_one_label_that_costs_less) {
  int placed = 0, kept = 0, tried = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Dice dice(seed);
    Recipe recipe{.labels = 2 + dice.below(7), .height = 30, .variants = 2, .targets = 3};
    recipe.right = dice.below(3) > 0;
    recipe.groups = dice.below(2) > 0;
    recipe.sides = dice.below(2) > 0;
    const Problem problem = make_problem(seed, recipe);
    const Rulebook rules(problem);
    const std::vector<Station> stations = make_stations(rules, problem.slot, all_targets(problem));
    const double fair = fair_gap(problem);
    // Begun anywhere, some of them nowhere.
    Draft draft(problem.labels.size());
    for (std::size_t i = 0; i < draft.size(); ++i) {
      const std::vector<Seat> seats = seats_of(stations, static_cast<int>(i));
      if (!seats.empty() && dice.below(5) > 0)
        draft[i] = seats[index(dice.below(static_cast<int>(seats.size())))];
    }
    const double before = draft_cost(stations, fair, draft);
    // Drafts that keep breaking rules may go round in a circle.
    if (!improve(stations, fair, draft, 10'000'000)) continue;
    const double cost = draft_cost(stations, fair, draft);
    EXPECT_LE(cost, before + 1e-9) << seed;
    kept += cost < broken;
    for (std::size_t i = 0; i < draft.size(); ++i) {
      placed += draft[i].station >= 0;
      for (const Seat& seat : seats_of(stations, static_cast<int>(i))) {
        Draft other = draft;
        other[i] = seat;
        ++tried;
        // Where boxes overlap it is not told who stands before whom.
        ASSERT_GE(draft_cost(stations, fair, other), cost - (cost < broken ? 1e-6 : broken / 2))
            << "seed " << seed << " label " << i << " slot " << seat.choice.slot;
      }
    }
  }
  EXPECT_GT(kept, 30);
  EXPECT_GT(placed, 200);
  EXPECT_GT(tried, 10'000);
}

}  // namespace
}  // namespace platewright::place
