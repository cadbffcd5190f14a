#include "place/polish.hpp"

#include <vector>

#include "place/candidates.hpp"
#include "place/ports.hpp"

namespace platewright::place {

double continuous_bound(const Problem& problem) {
  double sum = 0;
  for (const double least : least_costs(problem)) sum += least;
  return sum;
}

void polish(const Rulebook& rules, std::vector<Placement>& all, double step) {
  constexpr double finest = 1e-4;
  std::vector<Placement> freed = all;
  Ports free_ports(rules, freed);
  free_ports.descend(step, finest, false);
  double reached = free_ports.cost();
  if (free_ports.faults() > 0) {
    free_ports.descend(step, finest, true);
    reached = free_ports.faults() > 0 ? never : free_ports.cost();
  }
  Ports ports(rules, all);
  ports.descend(step, finest, true);
  if (reached < ports.cost()) all = freed;
}

}  // namespace platewright::place
