#include "place/wide.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"
#include "place/both_ways.hpp"
#include "place/candidates.hpp"
#include "place/route_model.hpp"
#include "place/subgradient.hpp"
#include "place/volume.hpp"

namespace platewright::place {
namespace {

// What the bound opens, in regrets; fewer places make shortcuts so cheap that it says little.
constexpr double open_to = 13;
// Where routes come near while prices are raised, in regrets.
constexpr double come_near = 6;

}  // namespace

std::vector<double> far_beyond(const Problem& problem, double cost, const RoutePrices& prices) {
  const std::vector<double> least = least_costs(problem);
  double sum = 0;
  for (const double l : least) sum += l;
  const double regret = (cost - sum) / static_cast<double>(least.size());
  std::vector<double> far;
  for (std::size_t i = 0; i < least.size(); ++i)
    far.push_back(std::max(least[i], prices.label[i]) + open_to * regret);
  return far;
}

std::vector<double> least_of(const RouteModel& model) {
  std::vector<double> least(model.group_of.size(), never);
  for (const RouteModel::Line& line : model.lines)
    for (const RouteModel::Entry& e : line.entries)
      for (const double c : e.cost) least[at(e.label)] = std::min(least[at(e.label)], c);
  return least;
}

std::size_t places_of(const RouteModel& model) {
  std::size_t count = 0;
  for (const RouteModel::Line& line : model.lines)
    for (const RouteModel::Entry& e : line.entries)
      for (const double c : e.cost) count += c < never;
  return count;
}

namespace {

// What a label costs above its least, on the mean; no less than neighbours can save each other.
double regret_of(const RouteModel& model, const std::vector<double>& least, double cost) {
  double sum = 0, pair = model.group_break;
  for (const double l : least) sum += l;
  for (const RouteModel::Line& line : model.lines)
    for (const RouteModel::Pair& p : line.pairs)
      pair = std::max(pair, model.group_break + *std::max_element(p.cost.begin(), p.cost.end()));
  return std::max({(cost - sum) / static_cast<double>(least.size()), pair / 3,
                   1e-3 * sum / static_cast<double>(least.size())});
}

double most_lean_of(const RouteModel& model) {
  return model.balance / static_cast<double>(model.group_of.size());
}

// By label the line on which it was met most often.
std::vector<Likely> most_met(const std::vector<StrictRoute::Met>& met, std::size_t lines,
                             std::size_t n) {
  std::vector<Likely> likely(n);
  if (met.empty()) return likely;
  for (std::size_t i = 0; i < n; ++i) {
    int most = 0;
    for (std::size_t k = 0; k < lines; ++k)
      if (const StrictRoute::Met& here = met[k * n + i]; here.times > most)
        most = here.times, likely[i] = {static_cast<int>(k), here.slot};
  }
  return likely;
}

constexpr std::size_t most_in_view = 64;  // labels of which all places can be looked at

// Raises prices in turns, each on those places alone that routes come near by the prices it starts
// with: where prices have moved far, others come near. `raise_turn(routes, prices, rounds)`;
// `share` of its steps is less after a turn in vain. The bound is that of all places.
template <class RaiseTurn>
double in_turns(const RouteModel& model, const Thresholds& thresholds, RoutePrices& prices,
                double target, int rounds, double near, double& share, RaiseTurn raise_turn) {
  constexpr int turn = 20;
  RoutePrices now = prices;
  double best = -never;
  for (int left = rounds;; left -= turn) {
    BothWays routes(model, thresholds);
    const double bound = left > 0 ? routes.thin_beyond(now, near) : routes.bound(now);
    if (bound > best) {
      best = bound;
      prices = now;
    } else {
      near *= 2;
      share *= 0.7;
      now = prices;
    }
    if (left <= 0 || bound >= target) return best;
    raise_turn(routes, now, std::min(left, turn));
  }
}

}  // namespace

RoutePrices likely_prices(const RouteModel& model, const Thresholds& thresholds,
                          const RoutePrices& prices, double cost, int rounds) {
  const std::vector<double> least = least_of(model);
  const double regret = regret_of(model, least, cost);
  RoutePrices now = prices;
  double share = 1;
  int many = rounds;
  for (const double more : {3.0, 5.0}) {
    RouteModel open = model;
    close_dear(open, std::vector<double>(least.size(), more * regret));
    for (RouteModel::Line& line : open.lines) line.closed.clear();
    const Ascent all{cost, most_lean_of(model), many, 8, share};
    if (least.size() <= most_in_view) {
      StrictRoute route(open, thresholds);
      raise(route, now, all);
    } else {
      double step = share;
      in_turns(open, thresholds, now, cost, many, come_near * regret, step,
               [&](BothWays& routes, RoutePrices& raised, int some) {
                 raise(routes, raised, {cost, all.most_lean, some, 8, step});
               });
    }
    share = 0.5;
    many = rounds / 2;
  }
  return now;
}

std::vector<Likely> likely_places(const RouteModel& model, const Thresholds& thresholds,
                                  const RoutePrices& prices, double cost, int rounds) {
  const std::vector<double> least = least_of(model);
  RouteModel open = model;
  close_dear(open, std::vector<double>(least.size(), 3 * regret_of(model, least, cost)));
  for (RouteModel::Line& line : open.lines) line.closed.clear();
  StrictRoute route(open, thresholds);
  std::vector<StrictRoute::Met> met(model.lines.size() * least.size());
  std::vector<int> times;
  int lean = 0;
  RoutePrices now = prices;
  raise(route, now, {cost, most_lean_of(model), rounds, 8, 0.5}, [&](int) {
    route.meets(times, lean, &met);
    return false;
  });
  return most_met(met, model.lines.size(), least.size());
}

double raise_in_turns(const RouteModel& model, const Thresholds& thresholds, RoutePrices& prices,
                      double cost, int rounds, double& share, std::vector<Likely>* likely) {
  const std::size_t n = prices.label.size(), lines = model.lines.size();
  std::vector<StrictRoute::Met> met;
  std::vector<int> times;
  int lean = 0;
  const double best = in_turns(
      model, thresholds, prices, cost, rounds, come_near * regret_of(model, least_of(model), cost),
      share, [&](BothWays& routes, RoutePrices& now, int some) {
        met.assign(lines * n, {});
        raise_by_volume(routes, now, {cost, most_lean_of(model), some}, share, [&] {
          if (likely != nullptr) routes.ahead().meets(times, lean, &met);
        });
      });
  if (likely != nullptr) *likely = most_met(met, lines, n);
  return best;
}

double wide_bound(const RouteModel& model, const Thresholds& thresholds, RoutePrices& prices,
                  double cost, int rounds) {
  const std::vector<double> least = least_of(model);
  const std::size_t n = least.size();
  if (prices.label.size() != n) prices = {least, 0};
  double bound = 0;
  for (const double l : least) bound += l;
  if (n == 0 || !(bound < cost) || cost == never) return bound;
  const double regret = regret_of(model, least, cost);
  RouteModel open = model;
  std::vector<double> more(n, open_to * regret);
  for (std::size_t i = 0; i < n; ++i) more[i] += std::max(0.0, prices.label[i] - least[i]);
  close_dear(open, more);
  StrictRoute route(open, thresholds);
  const int many = std::max(5, rounds * 2 / 5);
  return std::max(bound, raise(route, prices, {cost, most_lean_of(model), many, 8, 0.2}));
}

}  // namespace platewright::place
