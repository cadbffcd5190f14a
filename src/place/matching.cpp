// Labels to ports all around the figure at once, by shortest leaders: for fixed
// ports these do not cross (Bekos, Kaufmann, Symvonis, Wolff 2007), so the order
// along every column and row, and who goes where, come out right together. The
// assignment problem by shortest augmenting paths (Jonker, Volgenant 1987).
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

#include "base/at.hpp"
#include "place/draft.hpp"

namespace platewright::place {
namespace {

struct Port {
  std::size_t station;
  int slot;
};

// Ports as far apart as labels are on the mean, all that a station holds.
std::vector<Port> ports_of(const std::vector<Station>& stations) {
  const Problem& problem = *stations.front().rules->problem;
  std::vector<Port> ports;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    double sum = 0;
    int count = 0;
    for (const StationLabel& l : s.labels)
      if (!l.variants.empty()) sum += l.least_extent + problem.rules.label_gap, ++count;
    if (count == 0 || s.slots == 0) continue;
    const double pitch = sum / count;
    const double room = s.to - s.from + problem.rules.label_gap;
    const int most = static_cast<int>(std::floor(room / pitch + 1e-6));
    for (int p = 0; p < most; ++p) {
      const double along = (p + 0.5) * room / most - problem.rules.label_gap / 2;
      ports.push_back({k, std::clamp(static_cast<int>(std::lround(along / s.step)), 0, s.slots - 1)});
    }
  }
  return ports;
}

}  // namespace

std::vector<std::size_t> least_assignment(const std::vector<double>& cost, std::size_t rows,
                                          std::size_t columns) {
  const double inf = std::numeric_limits<double>::infinity();
  std::vector<double> u(rows + 1, 0), v(columns + 1, 0);
  std::vector<std::size_t> row_of(columns + 1, 0), way(columns + 1, 0);
  for (std::size_t i = 1; i <= rows; ++i) {
    row_of[0] = i;
    std::size_t j0 = 0;
    std::vector<double> least(columns + 1, inf);
    std::vector<bool> used(columns + 1, false);
    do {
      used[j0] = true;
      const std::size_t i0 = row_of[j0];
      double delta = inf;
      std::size_t j1 = 0;
      for (std::size_t j = 1; j <= columns; ++j) {
        if (used[j]) continue;
        const double now = cost[(i0 - 1) * columns + j - 1] - u[i0] - v[j];
        if (now < least[j]) least[j] = now, way[j] = j0;
        if (least[j] < delta) delta = least[j], j1 = j;
      }
      for (std::size_t j = 0; j <= columns; ++j)
        if (used[j])
          u[row_of[j]] += delta, v[j] -= delta;
        else
          least[j] -= delta;
      j0 = j1;
    } while (row_of[j0] != 0);
    do {
      const std::size_t j1 = way[j0];
      row_of[j0] = row_of[j1];
      j0 = j1;
    } while (j0 != 0);
  }
  std::vector<std::size_t> column_of(rows, 0);
  for (std::size_t j = 1; j <= columns; ++j)
    if (row_of[j] != 0) column_of[row_of[j] - 1] = j - 1;
  return column_of;
}

bool draft_by_matching(const std::vector<Station>& stations, const Offer& offer, double fair,
                       Draft& draft) {
  const Problem& problem = *stations.front().rules->problem;
  const std::size_t n = problem.labels.size();
  const std::vector<Port> ports = ports_of(stations);
  if (ports.size() < n) return false;
  std::vector<double> cost(n * ports.size());
  for (std::size_t i = 0; i < n; ++i) {
    const Target& target = problem.labels[i].targets[at(offer[i].front())];
    for (std::size_t p = 0; p < ports.size(); ++p) {
      const Station& s = stations[ports[p].station];
      double sum = 0;
      for (const PagePoint& point : target.points) sum += distance(s.port(ports[p].slot), point);
      if (s.labels[i].variants.empty()) sum += 1e6;
      cost[i * ports.size() + p] = sum / static_cast<double>(target.points.size());
    }
  }
  const std::vector<std::size_t> port_of = least_assignment(cost, n, ports.size());
  draft.assign(n, {});
  for (std::size_t k = 0; k < stations.size(); ++k) {
    std::vector<std::pair<std::size_t, Choice>> run;
    for (std::size_t i = 0; i < n; ++i)
      if (ports[port_of[i]].station == k && !stations[k].labels[i].variants.empty())
        run.push_back({port_of[i], {static_cast<int>(i), stations[k].labels[i].variants.front(),
                                    offer[i].front(), ports[port_of[i]].slot}});
    std::sort(run.begin(), run.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<Choice> order, placed_now;
    for (const auto& [port, choice] : run) order.push_back(choice);
    fit_variants(stations[k], order);
    if (!chain(stations[k], fair, order, placed_now)) placed_now = order;
    for (const Choice& c : placed_now) draft[at(c.label)] = {static_cast<int>(k), c};
  }
  return true;
}

}  // namespace platewright::place
