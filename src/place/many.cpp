#include "place/many.hpp"

#include <algorithm>

#include "place/route_model.hpp"
#include "place/wide.hpp"
#include "place/windows.hpp"

namespace platewright::place {

Proof improve_many(const std::vector<Station>& stations, double fair, const Draft& draft,
                   double cost, long nodes) {
  const Problem& problem = *stations.front().rules->problem;
  Proof proof;
  proof.draft = draft;
  proof.cost = cost;
  const RouteModel model = grid_model(stations, fair, most_shapes);
  std::vector<double> steps;
  for (const Station& s : stations) steps.push_back(s.step);
  const Thresholds thresholds(problem, model, steps, false);
  proof.prices = {least_of(model), 0};
  const int rounds = static_cast<int>(std::clamp(nodes / 5000, 4L, 40L));
  const long window = std::max(2000L, nodes / 10);
  long work = nodes * static_cast<long>(problem.labels.size()) * 4;
  int part = rounds;
  for (const auto& sizes : {std::vector<std::size_t>{10, 18}, std::vector<std::size_t>{28}}) {
    proof.prices = likely_prices(model, thresholds, proof.prices, proof.cost, part);
    part = rounds / 2;
    sweep_windows(stations, fair, proof.draft, proof.cost, proof.prices, sizes, window, work);
  }
  proof.prices = likely_prices(model, thresholds, proof.prices, proof.cost, part);
  const WideBound wide = wide_bound(model, thresholds, proof.prices, proof.cost, part);
  proof.bound = std::min(wide.bound, proof.cost);
  proof.prices = wide.prices;
  proof.better = proof.cost < cost;
  return proof;
}

}  // namespace platewright::place
