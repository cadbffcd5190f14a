#include "place/off_grid.hpp"

#include <algorithm>

#include "place/assignment.hpp"
#include "place/cost_terms.hpp"
#include "place/draft.hpp"
#include "place/ports.hpp"

namespace platewright::place {
namespace {

constexpr std::size_t worth_finer_grids = 200;  // labels; of 500 they took 44 s and gave none

// Rounding ports to slots moves two of them nearer by less than a slot: boxes
// and gaps are shorter by as much, columns longer at both ends.
Problem eased(const Problem& problem, double step, double share) {
  Problem easy = problem;
  const double from_gap = std::min(step, problem.rules.label_gap);
  easy.rules.label_gap -= from_gap;
  easy.rules.leader_gap *= share;
  easy.rules.anchor_gap *= share;
  for (Label& label : easy.labels)
    for (Variant& v : label.variants) {
      const double less = std::min(step - from_gap, v.height) / std::max(v.height, 1e-9);
      v.height *= 1 - less;
      v.port *= 1 - less;
      v.width = std::max(0.0, v.width - (step - from_gap));
    }
  for (Column& c : easy.columns) c.top -= step, c.bottom += step;
  for (Row& r : easy.rows) r.left -= step, r.right += step;
  return easy;
}

}  // namespace

bool settle(const Rulebook& rules, double step, std::vector<Placement>& placements) {
  if (placements.size() != rules.problem->labels.size()) return false;
  constexpr double finest = 2e-3;
  Ports ports(rules, placements);
  if (!ports.spread()) return false;
  ports.descend(2 * step, finest, true);
  return ports.faults() == 0;
}

bool off_grid(const Rulebook& rules, double step, std::vector<Placement>& found) {
  const Problem& problem = *rules.problem;
  const std::size_t n = problem.labels.size();
  if (n > worth_finer_grids) return false;
  const long patience = patience_for(n, 1'000'000);
  for (const double fine : {step / 4, step / 8})
    for (const double share : {0.8, 0.4}) {
      const Problem easy = eased(problem, fine, share);
      const Rulebook eased_rules(easy);
      const Offer offer = best_targets(easy);
      const std::vector<Station> stations = make_stations(eased_rules, fine, offer);
      const double fair = fair_gap(easy);
      std::vector<Draft> starts;
      const std::vector<Assignment> all = splits(stations, offer);
      if (!all.empty()) starts.push_back(draft_from(stations, fair, all.front().station_of, 8));
      if (Draft draft; draft_by_matching(stations, offer, fair, draft)) starts.push_back(draft);
      for (Draft& draft : starts) {
        untangle(stations, draft, patience);
        if (std::any_of(draft.begin(), draft.end(), [](const Seat& s) { return s.station < 0; }))
          continue;
        found = placements_of(stations, draft);
        for (std::size_t i = 0; i < found.size(); ++i)
          found[i].box =
              box_at(found[i].side,
                     problem.labels[i].variants[static_cast<std::size_t>(found[i].variant)],
                     found[i].port);
        if (settle(rules, step, found)) return true;
      }
    }
  return false;
}

}  // namespace platewright::place
