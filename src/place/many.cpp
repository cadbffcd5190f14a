#include "place/many.hpp"

#include <algorithm>

#include "place/route_model.hpp"
#include "place/wide.hpp"
#include "place/windows.hpp"

namespace platewright::place {
namespace {

// From such effort on all is tried that helps a little.
constexpr long thorough = 500'000;
constexpr long patience = 10'000'000;
constexpr std::size_t many_hundreds = 200;  // labels; of more, prices take longer to settle
constexpr double wide_gap = 0.045;  // of the cost; then the widest windows are tried in any case

// Mends a draft that breaks few rules; what it costs then. Labels that give way mend most faults
// at once; a thorough search tries windows on those that are left for want of room.
double mended(const std::vector<Station>& stations, double fair, Draft& draft,
              const RoutePrices& prices, long nodes, long& work) {
  const long moves = nodes < thorough ? 60'000 : 400'000;
  const auto faults = static_cast<std::size_t>(draft_faults(stations, draft));
  if (faults > draft.size() / 6) return never;
  improve(stations, fair, draft, moves);
  double cost = draft_cost(stations, fair, draft);
  if (cost < broken) return cost;
  const auto give_way = [&] {
    if (!untangle(stations, draft, patience_for(draft.size(), patience))) return false;
    improve(stations, fair, draft, moves);
    return true;
  };
  if (!give_way() && nodes >= thorough) {
    cost = draft_cost(stations, fair, draft);
    if (mend_windows(stations, fair, draft, cost, prices, {10, 14, 18, 24},
                     std::max(2000L, nodes / 40), work))
      return cost;
    give_way();
  }
  return draft_cost(stations, fair, draft);
}

// Two drafts in which each label is on the line that prices would have it on, so that sides go
// together far beyond any window: one in the order of the targets, and one in that of the
// prices' routes.
std::vector<Draft> likely_drafts(const std::vector<Station>& stations, double fair,
                                 const std::vector<Likely>& likely, const Draft& known) {
  std::vector<int> lines;
  for (std::size_t i = 0; i < likely.size(); ++i)
    lines.push_back(likely[i].line < 0 ? known[i].station : likely[i].line);
  std::vector<Draft> drafts{draft_from(stations, fair, lines, 8)};
  Draft draft = known;
  for (std::size_t i = 0; i < likely.size(); ++i) {
    if (likely[i].line < 0) continue;
    const Station& s = stations[static_cast<std::size_t>(likely[i].line)];
    double least = never;
    for (const int v : s.labels[i].variants)
      for (const int t : s.labels[i].targets) {
        const Choice choice{static_cast<int>(i), v, t, likely[i].slot};
        if (const double cost = choice_cost(s, choice); cost < least)
          least = cost, draft[i] = {likely[i].line, choice};
      }
  }
  for (std::size_t k = 0; k < stations.size(); ++k) {
    std::vector<Choice> order, placed;
    for (const Seat& seat : draft)
      if (seat.station == static_cast<int>(k)) order.push_back(seat.choice);
    std::sort(order.begin(), order.end(), [&](const Choice& a, const Choice& b) {
      if (a.slot != b.slot) return a.slot < b.slot;
      const auto& labels = stations.front().rules->problem->labels;
      return labels[static_cast<std::size_t>(a.label)].anchor <
             labels[static_cast<std::size_t>(b.label)].anchor;
    });
    if (!chain(stations[k], fair, order, placed)) return drafts;
    for (const Choice& c : placed) draft[static_cast<std::size_t>(c.label)].choice = c;
  }
  drafts.push_back(std::move(draft));
  return drafts;
}

}  // namespace

Proof improve_many(const std::vector<Station>& stations, double fair, const Draft& draft,
                   double cost, long nodes) {
  const Problem& problem = *stations.front().rules->problem;
  Proof proof;
  proof.draft = draft;
  proof.cost = cost;
  const RouteModel model = grid_model(stations, fair, shape_classes);
  std::vector<double> steps;
  for (const Station& s : stations) steps.push_back(s.step);
  const Thresholds thresholds(problem, model, steps, false);
  proof.prices = {least_of(model), 0};
  const int rounds = static_cast<int>(std::clamp(nodes / 5000, 4L, 40L));
  const bool deep = nodes >= thorough;
  const long window = std::max(2000L, nodes / 10);
  const double worth = deep ? 0 : 1e-4;  // of the cost, for a window
  long work = nodes * static_cast<long>(problem.labels.size()) * (deep ? 4 : 2);
  long mending = work / 8;
  double share = 1;
  // Of some hundred labels prices settle soon on the likely places alone, with a bound at the end.
  const bool hundreds = problem.labels.size() > many_hundreds;
  const auto raise_prices = [&](int many, std::vector<Likely>* likely) {
    if (hundreds) {
      const double bound =
          raise_in_turns(model, thresholds, proof.prices, proof.cost, many, share, likely);
      proof.bound = std::max(proof.bound, std::min(bound, proof.cost));
      return;
    }
    proof.prices = likely_prices(model, thresholds, proof.prices, proof.cost, many);
    if (likely != nullptr)
      *likely = likely_places(model, thresholds, proof.prices, proof.cost, 3 + many / 4);
  };
  struct Opening {
    Draft draft;
    double cost;
  };
  std::vector<Opening> starts{{draft, cost}};
  std::vector<Likely> likely;
  raise_prices(hundreds ? rounds * 3 / 2 : rounds, &likely);
  std::vector<Draft> drafts = likely_drafts(stations, fair, likely, draft);
  if (hundreds && !deep) drafts.resize(1);  // the other can be mended far less often
  for (Draft& other : drafts) {
    const double now = mended(stations, fair, other, proof.prices, nodes, mending);
    if (now < broken) starts.push_back({std::move(other), now});
  }
  std::stable_sort(starts.begin(), starts.end(),
                   [](const Opening& a, const Opening& b) { return a.cost < b.cost; });
  if (!deep && starts.size() > 1) starts.resize(1);
  for (auto& [other, now] : starts) {
    sweep_windows(stations, fair, other, now, proof.prices, {10}, window, work, worth);
    if (now < proof.cost) proof.draft = std::move(other), proof.cost = now;
  }
  const auto sweep = [&](const std::vector<std::size_t>& sizes, long each) {
    sweep_windows(stations, fair, proof.draft, proof.cost, proof.prices, sizes, each, work, worth);
  };
  sweep({10, 18}, window);
  raise_prices(rounds / 2, nullptr);
  const auto gap_is_wide = [&] {
    return hundreds && proof.cost - proof.bound > wide_gap * proof.cost;
  };
  if (gap_is_wide()) raise_prices(rounds / 2, nullptr);
  if (deep || gap_is_wide()) {
    sweep({26}, deep ? window : window / 4);
    raise_prices(rounds / 2, nullptr);
  }
  if (!hundreds)
    proof.bound =
        std::min(proof.cost, wide_bound(model, thresholds, proof.prices, proof.cost, rounds / 2));
  proof.better = proof.cost < cost;
  return proof;
}

}  // namespace platewright::place
