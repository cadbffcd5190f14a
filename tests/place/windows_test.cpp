// Windows (window.hpp, windows.hpp) and the bounds of many labels (wide.hpp), each
// beside every placement tried one by one or a proven optimum.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "brute_force.hpp"
#include "instances.hpp"
#include "place/assignment.hpp"
#include "place/cells.hpp"
#include "place/cost_terms.hpp"
#include "place/first_draft.hpp"
#include "place/many.hpp"
#include "place/place.hpp"
#include "place/prove.hpp"
#include "place/route_model.hpp"
#include "place/two_sides.hpp"
#include "place/wide.hpp"
#include "place/window.hpp"
#include "place/windows.hpp"

namespace platewright::place {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// A problem with a draft that keeps every rule, and is not the best.
struct Drafted {
  Problem problem;
  Rulebook rules;
  std::vector<Station> stations;
  double fair;
  Draft draft;
  double cost = never;
  bool found;
  explicit Drafted(Problem p)
      : problem(std::move(p)),
        rules(problem),
        stations(make_stations(rules, problem.slot, all_targets(problem))),
        fair(fair_gap(problem)) {
    const Offer offer = best_targets(problem);
    found = first_draft(stations, offer, fair, splits(stations, offer), 1, 10, never, 1'000'000,
                        draft, cost);
  }
  std::vector<Placed> spots() const {
    std::vector<Placed> all;
    for (std::size_t i = 0; i < draft.size(); ++i)
      all.push_back(placed(problem, placement_of(stations[at(draft[i].station)], draft[i].choice),
                           static_cast<int>(i)));
    return all;
  }
  std::vector<std::vector<int>> runs() const {
    std::vector<std::vector<int>> runs(stations.size());
    for (std::size_t i = 0; i < draft.size(); ++i)
      runs[at(draft[i].station)].push_back(static_cast<int>(i));
    for (auto& run : runs)
      std::sort(run.begin(), run.end(), [&](int a, int b) {
        return draft[at(a)].choice.slot < draft[at(b)].choice.slot;
      });
    return runs;
  }
};

Recipe two_columns(int labels, double height) {
  Recipe recipe{.labels = labels, .height = height};
  recipe.right = true;
  recipe.groups = true;
  return recipe;
}

// The least cost with all labels but `free` where they are, and those on each station between
// the same neighbours as in the window.
double least_by_trying(const Drafted& d, const std::vector<int>& free,
                       const std::vector<std::pair<int, int>>& between) {
  double best = d.cost;
  Draft trial = d.draft;
  const auto place = [&](const auto& self, std::size_t next) -> void {
    if (next == free.size()) {
      best = std::min(best, draft_cost(d.stations, d.fair, trial));
      return;
    }
    const int i = free[next];
    for (std::size_t k = 0; k < d.stations.size(); ++k)
      for (int slot = between[k].first + 1; slot < between[k].second; ++slot) {
        const Choice c{i, 0, 0, slot};
        if (choice_cost(d.stations[k], c) == never) continue;
        trial[at(i)] = {static_cast<int>(k), c};
        self(self, next + 1);
      }
    trial[at(i)] = d.draft[at(i)];
  };
  place(place, 0);
  return best;
}

TEST(Window, Finds_the_best_of_all_places_of_its_labels) {
  int compared = 0, better = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Drafted d(make_problem(seed, two_columns(9, 32.5)));
    if (!d.found) continue;
    const auto runs = d.runs();
    // Two or three labels in the middle of the longer run.
    const std::size_t k = runs[0].size() >= runs[1].size() ? 0 : 1;
    const std::size_t first = runs[k].size() / 2 - 1, count = seed % 2 == 0 ? 2 : 3;
    std::vector<int> free;
    for (std::size_t r = first; r < std::min(first + count, runs[k].size()); ++r)
      free.push_back(runs[k][r]);
    std::vector<std::size_t> gaps(2, 0);
    gaps[1 - k] = runs[1 - k].size() / 2;
    std::vector<std::pair<int, int>> between;
    for (std::size_t s = 0; s < 2; ++s) {
      const std::size_t from = s == k ? first : gaps[s], to = s == k ? first + free.size() : gaps[s];
      between.emplace_back(from > 0 ? d.draft[at(runs[s][from - 1])].choice.slot : -1,
                           to < runs[s].size() ? d.draft[at(runs[s][to])].choice.slot
                                               : d.stations[s].slots);
    }
    const double least = least_by_trying(d, free, between);
    const Window window(d.stations, d.draft, d.spots(), runs, free, gaps, d.fair);
    const Proof proof = prove(window.stations(), d.fair, window.cost(), 100'000);
    ASSERT_TRUE(proof.complete) << "seed " << seed;
    Draft after = d.draft;
    if (proof.better) window.put(proof.draft, after);
    // A window leaves the columns' balance aside.
    const double balance = d.problem.weights.balance;
    const double found = draft_cost(d.stations, d.fair, after);
    EXPECT_EQ(draft_faults(d.stations, after), 0) << "seed " << seed;
    EXPECT_LE(found, least + balance + 1e-6) << "seed " << seed;
    EXPECT_GE(found, least - 1e-6) << "seed " << seed;
    ++compared;
    better += proof.better;
  }
  EXPECT_GE(compared, 30);
  EXPECT_GE(better, 5);
}

TEST(Windows, Never_cost_more_keep_every_rule_and_come_near_the_proven_optimum) {
  int better = 0;
  double before = 0, after = 0, best = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    Recipe recipe = two_columns(26, 82.5);
    recipe.variants = seed % 3 == 0 ? 2 : 1;
    recipe.branches = seed % 4 == 0 ? 2 : 1;
    const Drafted d(make_problem(seed, recipe));
    if (!d.found) continue;
    const auto optimum = solve(d.problem);
    const auto* s = std::get_if<Solution>(&optimum);
    if (s == nullptr || s->certificate.status != SolveStatus::optimal) continue;
    Draft draft = d.draft;
    double cost = d.cost;
    long work = 20'000'000;
    better += sweep_windows(d.stations, d.fair, draft, cost, {}, {8, 14}, 20'000, work);
    EXPECT_LE(cost, d.cost);
    EXPECT_NEAR(cost, draft_cost(d.stations, d.fair, draft), 1e-9);
    EXPECT_EQ(draft_faults(d.stations, draft), 0) << "seed " << seed;
    EXPECT_GE(cost, s->certificate.cost - 1e-6) << "seed " << seed;
    before += d.cost, after += cost, best += s->certificate.cost;
  }
  EXPECT_GE(better, 4);
  EXPECT_LE(after - best, 0.25 * (before - best));
}

// The least of all routes on which no label follows itself with at most one other between them
// and neighbours' leaders do not cross: every place after every other one.
double least_route(const RouteModel& model, const Thresholds& thresholds,
                   const RoutePrices& prices) {
  double end = std::accumulate(prices.label.begin(), prices.label.end(), 0.0);
  for (std::size_t k = 0; k < model.lines.size(); ++k) {
    const RouteModel::Line& line = model.lines[k];
    struct Visit {
      const RouteModel::Entry* entry;
      int slot, before;  // `before`: the label before it, or -1
      double value;
    };
    std::vector<Visit> visits;
    double best = end;
    for (int slot = 0; slot < line.slots; ++slot)
      for (const RouteModel::Entry& to : line.entries) {
        if (to.cost[at(slot)] == never) continue;
        const double own =
            to.cost[at(slot)] - prices.label[at(to.label)] - line.lean * prices.lean;
        std::map<int, double> least{{-1, end + own}};
        for (const Visit& v : visits) {
          const RouteModel::Pair& pair =
              line.pairs[at(v.entry->shape) * at(line.shapes) + at(to.shape)];
          const int more = slot - v.slot - pair.nearest;
          const Thresholds::Bounds& asks = thresholds.at(k, v.entry->label, to.label);
          if (more < 0 || v.entry->label == to.label || v.before == to.label ||
              slot < asks.from || v.slot > asks.until)
            continue;
          const bool breaks =
              model.group_of[at(v.entry->label)] != model.group_of[at(to.label)];
          const double value =
              v.value + own + (breaks ? model.group_break : 0) +
              pair.cost[std::min(at(more), pair.cost.size() - 1)];
          const auto [known, fresh] = least.try_emplace(v.entry->label, value);
          if (!fresh) known->second = std::min(known->second, value);
        }
        for (const auto& [before, value] : least) {
          visits.push_back({&to, slot, before, value});
          best = std::min(best, value);
        }
      }
    end = best;
  }
  return end;
}

TEST(Strict_route, Is_the_least_of_all_its_routes) {
  int routes = 0;
  for (std::uint64_t seed = 1; seed <= 24; ++seed) {
    Recipe recipe = two_columns(seed % 4 < 2 ? 8 : 7, 40);
    recipe.variants = seed % 3 == 0 ? 2 : 1;
    recipe.sides = seed % 2 == 0;
    const Problem problem = make_problem(seed, recipe);
    const double n = static_cast<double>(problem.labels.size());
    const Rulebook rules(problem);
    const auto stations = make_stations(rules, problem.slot, all_targets(problem));
    const RouteModel model = grid_model(stations, fair_gap(problem), shape_classes);
    const std::vector<double> steps(stations.size(), problem.slot);
    const Thresholds thresholds(problem, model, steps, false);
    StrictRoute route(model, thresholds);
    Dice dice(seed);
    for (int turn = 0; turn < 6; ++turn) {
      RoutePrices prices{least_of(model), dice.between(-0.2, 0.2)};
      for (double& p : prices.label) p += dice.between(-0.5, 3);
      // Of an odd number of labels one more stands on one side, and costs what its price is short
      // of.
      const double least = least_route(model, thresholds, prices) +
                           (problem.labels.size() % 2 == 0
                                ? 0
                                : std::max(0.0, model.balance / n - std::abs(prices.lean)));
      ASSERT_NEAR(route.bound(prices), least, 1e-9) << "seed " << seed;
      std::vector<int> times;
      int lean = 0;
      std::vector<StrictRoute::Met> by_line(model.lines.size() * problem.labels.size());
      route.meets(times, lean, &by_line);
      for (std::size_t i = 0; i < times.size(); ++i)
        EXPECT_EQ(times[i], by_line[i].times + by_line[times.size() + i].times);
      routes += std::accumulate(times.begin(), times.end(), 0) > 0;
    }
  }
  EXPECT_GE(routes, 100);
}

TEST(Wide_bound, Never_exceeds_brute_force) {
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Recipe recipe = two_columns(seed % 5 == 0 ? 5 : 4, 15);
    recipe.sides = seed % 2 == 0;
    recipe.targets = seed % 3 == 0 ? 2 : 1;
    Problem problem = make_problem(seed, recipe);
    if (seed % 4 == 1) problem.weights.balance *= 10;
    const Brute brute = brute_force(problem);
    if (!brute.feasible) continue;
    const Rulebook rules(problem);
    const auto stations = make_stations(rules, problem.slot, all_targets(problem));
    const double fair = fair_gap(problem);
    const RouteModel model = grid_model(stations, fair, 8);
    const std::vector<double> steps(stations.size(), problem.slot);
    const Thresholds thresholds(problem, model, steps, false);
    // Whatever places are left out, and at whatever prices.
    const double n = static_cast<double>(problem.labels.size());
    Dice dice(seed);
    for (int turn = 0; turn < 20; ++turn) {
      RouteModel open = model;
      std::vector<double> more(problem.labels.size());
      RoutePrices prices{least_of(model), dice.between(-1, 1) * model.balance / n};
      for (std::size_t i = 0; i < more.size(); ++i) {
        more[i] = dice.between(0, 2);
        prices.label[i] += dice.between(-0.5, 1.5);
      }
      close_dear(open, more);
      StrictRoute route(open, thresholds);
      EXPECT_LE(route.bound(prices), brute.cost + 1e-6) << "seed " << seed;
    }
    RoutePrices none;
    EXPECT_LE(wide_bound(model, thresholds, none, brute.cost, 20), brute.cost + 1e-6)
        << "seed " << seed;
    RoutePrices raised{least_of(model), 0};
    double share = 1;
    EXPECT_LE(raise_in_turns(model, thresholds, raised, brute.cost, 60, share, nullptr),
              brute.cost + 1e-6)
        << "seed " << seed;
    ++compared;
  }
  EXPECT_GE(compared, 30);
}

TEST(Wide_bound, Is_near_the_proven_optimum_and_below_it_on_and_off_the_grid) {
  double bounds = 0, turned = 0, optima = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const Problem problem = make_problem(seed, two_columns(30, 95));
    const Rulebook rules(problem);
    const GridAnswer answer = solve_grid(rules, problem.slot, {});
    if (!answer.found || answer.cost > answer.bound + 1e-6) continue;
    const auto stations = make_stations(rules, problem.slot, all_targets(problem));
    const RouteModel model = grid_model(stations, fair_gap(problem), shape_classes);
    const std::vector<double> steps(stations.size(), problem.slot);
    const Thresholds thresholds(problem, model, steps, false);
    const double cost = answer.cost;
    RoutePrices likely = likely_prices(model, thresholds, {least_of(model), 0}, 1.05 * cost, 40);
    const double wide = wide_bound(model, thresholds, likely, 1.05 * cost, 20);
    EXPECT_LE(wide, cost + 1e-6) << "seed " << seed;
    bounds += wide, optima += cost;
    // In turns: the bound is that of the prices, for all places.
    RoutePrices raised{least_of(model), 0};
    double share = 1;
    std::vector<Likely> places;
    const double in_turns =
        raise_in_turns(model, thresholds, raised, 1.05 * cost, 60, share, &places);
    EXPECT_LE(in_turns, cost + 1e-6) << "seed " << seed;
    StrictRoute route(model, thresholds);
    EXPECT_NEAR(route.bound(raised), in_turns, 1e-6) << "seed " << seed;
    turned += in_turns;
    int as_placed = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      ASSERT_GE(places[i].line, 0) << "seed " << seed;
      as_placed += stations[at(places[i].line)].side == answer.placements[i].side;
    }
    EXPECT_GE(as_placed, 24) << "seed " << seed;

    const CellModel cells = cell_model(rules, problem.slot, shape_classes);
    const Thresholds loose(problem, cells.model, cells.step, true);
    const auto solved = solve(problem);
    const auto* s = std::get_if<Solution>(&solved);
    ASSERT_TRUE(s != nullptr);
    EXPECT_LE(wide_bound(cells.model, loose, likely, cost, 20), s->certificate.polished_cost + 1e-6)
        << "seed " << seed;
  }
  EXPECT_GT(optima, 0);
  EXPECT_GE(bounds, 0.97 * optima);
  EXPECT_GE(turned, 0.97 * optima);
}

TEST(Cells, Far_from_the_least_never_cost_more_for_not_being_looked_at_and_near_ones_the_same) {
  const Problem problem = make_problem(5, two_columns(80, 260));
  const Rulebook rules(problem);
  const CellModel close = cell_model(rules, problem.slot, shape_classes);
  const std::vector<double> least = least_of(close.model);
  const double cost = 1.3 * std::accumulate(least.begin(), least.end(), 0.0);
  const std::vector<double> far = far_beyond(problem, cost, {least, 0});
  const CellModel rough = cell_model(rules, problem.slot, shape_classes, far);
  ASSERT_EQ(rough.step, close.step);
  std::size_t near = 0, less = 0;
  for (std::size_t k = 0; k < close.model.lines.size(); ++k)
    for (std::size_t e = 0; e < close.model.lines[k].entries.size(); ++e) {
      const RouteModel::Entry &a = close.model.lines[k].entries[e],
                              &b = rough.model.lines[k].entries[e];
      ASSERT_EQ(a.label, b.label);
      for (std::size_t slot = 0; slot < a.cost.size(); ++slot) {
        EXPECT_LE(b.cost[slot], a.cost[slot]);
        if (b.cost[slot] <= far[static_cast<std::size_t>(a.label)]) {
          ++near;
          EXPECT_EQ(b.cost[slot], a.cost[slot]);
        }
        less += b.cost[slot] < a.cost[slot];
      }
    }
  EXPECT_GT(near, 1000u);
  EXPECT_GT(less, 1000u);
}

TEST(Many_labels, Are_placed_near_their_bound_and_the_same_every_time) {
  const Problem problem = make_problem(5, two_columns(80, 260));
  const auto first = solve(problem), second = solve(problem);
  const auto *a = std::get_if<Solution>(&first), *b = std::get_if<Solution>(&second);
  ASSERT_TRUE(a != nullptr && b != nullptr);
  EXPECT_TRUE(verify(problem, *a).empty());
  EXPECT_LE(a->certificate.gap, 0.05);
  EXPECT_EQ(a->certificate.cost, b->certificate.cost);
  for (std::size_t i = 0; i < problem.labels.size(); ++i)
    EXPECT_EQ(a->placements[i].box.y, b->placements[i].box.y);
  // More effort never makes it worse, nor less the bound untrue.
  const auto less = solve(problem, Effort{20'000});
  const auto* c = std::get_if<Solution>(&less);
  ASSERT_TRUE(c != nullptr);
  EXPECT_LE(c->certificate.bound, a->certificate.cost + 1e-6);
}

}  // namespace
}  // namespace platewright::place
