#include "place/each_side.hpp"

#include <algorithm>
#include <bit>
#include <string>

#include "base/at.hpp"
#include "place/cost_terms.hpp"

namespace platewright::place {
namespace {

}  // namespace

bool exact(std::vector<OneSide>& sides, const std::vector<Station>& stations, const Assignment& a,
           double below, Draft& draft, double& cost, bool& proven) {
  const Problem& problem = *stations.front().rules->problem;
  std::vector<LabelSet> sets(stations.size(), 0);
  int left = 0, right = 0;
  for (std::size_t i = 0; i < a.station_of.size(); ++i) {
    sets[at(a.station_of[i])] |= LabelSet{1} << i;
    left += stations[at(a.station_of[i])].side == Side::left;
    right += stations[at(a.station_of[i])].side == Side::right;
  }
  double sum = balance_cost(problem.weights, left, right);
  std::vector<double> least(stations.size());
  for (std::size_t k = 0; k < stations.size(); ++k) sum += least[k] = sides[k].quick_bound(sets[k]);
  proven = true;
  if (!(sum < below)) return false;
  Draft trial(a.station_of.size());
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const OneSide::Answer answer = sides[k].solve(sets[k], below - (sum - least[k]));
    proven = proven && answer.proven;
    if (!answer.found) return false;
    sum += answer.cost - least[k];
    for (const Choice& c : answer.choices) trial[at(c.label)] = {static_cast<int>(k), c};
  }
  cost = sum;
  if (draft_faults(stations, trial) > 0) return false;
  draft = trial;
  return true;
}

bool all_assignments(std::vector<OneSide>& sides, const std::vector<Station>& stations, Draft& best,
                     double& best_cost, double& bound) {
  const Problem& problem = *stations.front().rules->problem;
  const std::size_t n = problem.labels.size();
  bound = never;
  for (LabelSet left = 0; left < LabelSet{1} << n; ++left) {
    const LabelSet right = ~left & ((LabelSet{1} << n) - 1);
    Assignment a;
    double least = 0;
    for (std::size_t i = 0; i < n; ++i) {
      a.station_of.push_back((left >> i & 1) != 0 ? 0 : 1);
      least += stations[at(a.station_of.back())].labels[i].least_total;
    }
    const int there = std::popcount(left);
    const double balance = balance_cost(problem.weights, there, static_cast<int>(n) - there);
    if (!(least + balance < best_cost) ||
        !(sides[0].quick_bound(left) + sides[1].quick_bound(right) + balance < best_cost))
      continue;
    Draft draft;
    double cost = never;
    bool proven = false;
    if (exact(sides, stations, a, best_cost, draft, cost, proven)) {
      best = draft;
      best_cost = cost;
    } else if (cost < best_cost) {
      bound = std::min(bound, cost);  // the sides' leaders meet
    }
    if (!proven) return false;
  }
  bound = std::min(bound, best_cost);
  return true;
}

double whole_bound(const std::vector<Station>& stations) {
  // Each group beyond one a station breaks a run somewhere.
  const Problem& problem = *stations.front().rules->problem;
  std::vector<std::string> groups;
  for (const Label& l : problem.labels) groups.push_back(l.group);
  std::sort(groups.begin(), groups.end());
  groups.erase(std::unique(groups.begin(), groups.end()), groups.end());
  double sum =
      problem.weights.group_break * (groups.size() > stations.size()
                                         ? static_cast<double>(groups.size() - stations.size())
                                         : 0.0);
  for (std::size_t i = 0; i < stations.front().labels.size(); ++i) {
    double least = never;
    for (const Station& s : stations) least = std::min(least, s.labels[i].least_total);
    sum += least;
  }
  return sum;
}

}  // namespace platewright::place
