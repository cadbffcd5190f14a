#include "place/prove.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/at.hpp"
#include "place/cells.hpp"
#include "place/route_graph.hpp"
#include "place/route_model.hpp"
#include "place/strict_route.hpp"
#include "place/subgradient.hpp"
#include "place/wide.hpp"

namespace platewright::place {
namespace {

constexpr std::size_t most_labels = 64;  // beyond, not all places can be looked at in every round
constexpr std::size_t most_watched = 12;  // pairs of strangers that one search looks at

}  // namespace

Proof prove(const std::vector<Station>& stations, double fair, double cost, long nodes,
            const RoutePrices& known, const std::stop_token& stop) {
  const Problem& problem = *stations.front().rules->problem;
  const std::size_t n = problem.labels.size();
  Proof proof;
  RouteModel model = grid_model(stations, fair, shape_classes);
  RoutePrices prices;
  for (std::size_t i = 0; i < n; ++i) {
    double least = never;
    for (const Station& s : stations) least = std::min(least, s.labels[i].least_total);
    if (least == never) {
      proof.bound = never;
      proof.complete = true;
      return proof;
    }
    prices.label.push_back(least);
  }
  const auto work = static_cast<std::size_t>(std::clamp(nodes, 1L, 10'000'000L));
  const double most_lean = model.balance / static_cast<double>(std::max<std::size_t>(1, n));
  const int rounds = static_cast<int>(
      std::clamp(nodes / 2000, 8L, 8 + 7 * static_cast<long>(std::min<std::size_t>(n, 60)) / 8));
  std::vector<double> steps;
  for (const Station& s : stations) steps.push_back(s.step);
  const Thresholds thresholds(problem, model, steps, false);
  const bool begun = known.label.size() == n;
  if (begun) {
    prices = known;
  } else {
    double sum = 0;
    for (const double p : prices.label) sum += p;
    // Without a placement: as if the best cost a tenth more than labels by themselves.
    prices = likely_prices(model, thresholds, prices, cost < never ? cost : 1.1 * sum + 1, rounds);
  }
  double bound = StrictRoute(model, thresholds).bound(prices);
  proof.work += places_of(model) * at(rounds);
  proof.bound = std::min(bound, cost);
  proof.prices = prices;

  const double sure = cost < never ? cost - 1e-9 * std::max(1.0, cost) : never;
  // Only places that a placement somewhat dearer than the bound can use; more when
  // there is none.
  std::optional<BothWays> routes;
  double reach = -never;
  const auto open_to = [&](double until) {
    reach = until;
    routes.emplace(model, thresholds);
    routes->thin(prices, until);
    routes->thin(prices, until);
  };
  const auto above = [](double v, double share) { return v + share * std::max(1.0, std::abs(v)); };
  open_to(std::min(sure, above(bound, 0.03)));
  // Prices, until they raise the bound no more.
  constexpr int most_turns = 5;
  for (int turn = 0; turn < most_turns; ++turn) {
    const double before = bound;
    const double hoped = std::min(sure, above(bound, 0.02));
    bound = std::max(bound, std::min(reach, raise(*routes, prices, {hoped, most_lean, rounds / 2, 4,
                                                                    0.4})));
    proof.bound = std::max(proof.bound, std::min(bound, cost));
    proof.prices = prices;
    if (above(bound, 0.005) > reach && reach < sure)
      open_to(std::min(sure, above(bound, 0.03)));
    else
      routes->thin(prices, reach);
    if (bound < above(before, 0.0005)) break;
  }
  proof.work += places_of(routes->model()) * at(rounds) * n / 4;
  bound = proof.bound;
  std::vector<std::pair<int, int>> watched;
  std::vector<LabelSet> memories;
  RoutePrices own = prices;
  bool open = true;
  std::size_t budget = work * std::max<std::size_t>(n, 10) * 3;  // states that bounds may look at
  std::size_t arcs = work * std::max<std::size_t>(n, 4) / 2;  // that all graphs together may have
  std::size_t states = work * 2;                              // that all searches together may keep
  int refused = 0;
  double share = 0.003;
  double last_share = 0, last_arcs = 0;  // of the graph before
  // The next graph looks farther, but no farther than about as many arcs as are left allow, if they
  // go on to grow as they did.
  const auto farther = [&](double made) {
    double by = 1.4;
    if (last_arcs > 0 && made > last_arcs && share > last_share) {
      const double growth = std::log(made / last_arcs) / std::log(share / last_share);
      const double room = 0.7 * static_cast<double>(std::min(arcs, work * n / 3));
      by = std::min(by, std::pow(std::max(1.0, room) / made, 1 / growth));
    }
    last_share = share;
    last_arcs = made;
    return by;
  };
  while (open && budget > 0 && !stop.stop_requested()) {
    const double scale = std::max(1.0, std::abs(bound));
    const double below =
        share > 20 ? sure : std::min(sure, std::max(bound, proof.bound) + share * scale);
    if (below > reach) open_to(std::max(below, std::min(sure, proof.bound + 0.02 * scale)));
    routes->bound(prices);
    routes->look_back(prices);
    RouteGraph graph(stations, *routes, prices, fair, below, std::min(arcs, work * n / 3));
    arcs -= std::min(arcs, graph.arcs());
    if (!graph.complete()) {
      if (++refused > 2) break;
      share *= 0.42;
      continue;
    }
    const double by = farther(static_cast<double>(graph.arcs()));
    if (!memories.empty()) graph.set_memories(memories);
    double raised = graph.bound(own);
    budget -= std::min(budget, graph.work());
    for (int turn = 0; turn < 3 && raised < below && !stop.stop_requested(); ++turn) {
      graph.reduce(below);
      if (turn == 0) graph.check_neighbours();
      raised = graph.bound(own);
      budget -= std::min(budget, 3 * graph.work());
      const std::size_t affordable = budget / std::max<std::size_t>(1, graph.work());
      const Ascent how{below < never ? below : 1.1 * bound + 1, most_lean,
                       static_cast<int>(std::min<std::size_t>(10, affordable)), 3, 1};
      raise(graph, own, how, [&](int round) {
        budget -= std::min(budget, graph.work());
        return round % 2 == 1 && graph.remember();
      });
      raised = graph.bound(own);
    }
    memories = graph.memories();
    if (raised > proof.bound) proof.bound = std::min(raised, below), proof.prices = own;
    // Nothing below the bound: look a little higher each time.
    for (double more = 0.0005; open && proof.bound < below; more *= 2) {
      const double until = more > 20 ? below : std::min(below, proof.bound + more * scale);
      const RouteGraph::Found found = graph.search(until, states, watched);
      states -= std::min(states, found.states);
      if (!found.whole) {
        open = false;
      } else if (!found.found) {
        proof.bound = std::max(proof.bound, until);
      } else if (found.clash.empty()) {
        proof.better = proof.complete = true;
        proof.draft = found.draft;
        proof.cost = proof.bound = found.cost;
        open = false;
      } else {
        proof.bound = std::max(proof.bound, found.cost);
        const std::size_t before = watched.size();
        for (const auto& pair : found.clash)
          if (std::find(watched.begin(), watched.end(), pair) == watched.end())
            watched.push_back(pair);
        open = watched.size() > before && watched.size() <= most_watched;
        more /= 2;
      }
    }
    if (open && below >= sure) {
      proof.complete = true;
      proof.bound = cost;
      open = false;
    }
    constexpr double worth_another = 1.05;
    if (by < worth_another) break;
    share *= by;
  }
  proof.bound = std::min(proof.bound, cost);
  proof.work += work * std::max<std::size_t>(n, 10) * 3 - budget + work * 2 - states +
                work * std::max<std::size_t>(n, 4) / 2 - arcs;
  return proof;
}

double continuous_bound(const Rulebook& rules, double step, double cost, long nodes,
                        const RoutePrices& known) {
  const Problem& problem = *rules.problem;
  // Of very many labels only places near the least are opened.
  std::vector<double> far;
  if (problem.labels.size() > most_labels && known.label.size() == problem.labels.size())
    far = far_beyond(problem, cost, known);
  const CellModel cells = cell_model(rules, step, shape_classes, far);
  RoutePrices prices;
  prices.label.assign(problem.labels.size(), never);
  for (const RouteModel::Line& line : cells.model.lines)
    for (const RouteModel::Entry& e : line.entries)
      for (const double c : e.cost)
        prices.label[at(e.label)] = std::min(prices.label[at(e.label)], c);
  for (const double p : prices.label)
    if (p == never) return 0;  // no placement at all: whoever has one knows better
  const double most_lean =
      cells.model.balance / static_cast<double>(std::max<std::size_t>(1, problem.labels.size()));
  if (known.label.size() == prices.label.size()) prices = known;
  const Thresholds thresholds(problem, cells.model, cells.step, true);
  const int rounds = static_cast<int>(std::clamp(nodes / 4000, 8L, 50L));
  if (problem.labels.size() > most_labels)
    return std::min(cost, wide_bound(cells.model, thresholds, prices, cost, 0));
  double bound = 0;
  if (known.label.empty()) prices = likely_prices(cells.model, thresholds, prices, cost, rounds);
  BothWays routes(cells.model, thresholds);
  for (int turn = 0; turn < 2 && bound < cost; ++turn) {
    routes.thin(prices, cost);
    bound = std::max(bound, raise(routes, prices, {cost, most_lean, rounds / 8, 2, 0.3}));
  }
  return std::min(cost, bound);
}

}  // namespace platewright::place
