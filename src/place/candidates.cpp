#include "place/candidates.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "base/at_once.hpp"
#include "place/cost_terms.hpp"
#include "place/foreign.hpp"

namespace platewright::place {
namespace {

constexpr double touch = 1e-9;
constexpr std::size_t worth_a_thread = 20'000;  // places; some 2 ms

const Label& label_at(const Station& s, int label) {
  return s.rules->problem->labels[static_cast<std::size_t>(label)];
}

}  // namespace

Offer all_targets(const Problem& problem) {
  Offer offer(problem.labels.size());
  for (std::size_t i = 0; i < offer.size(); ++i) {
    offer[i].resize(problem.labels[i].targets.size());
    std::iota(offer[i].begin(), offer[i].end(), 0);
  }
  return offer;
}

double Station::before(int label, int variant) const {
  const Variant& v = label_at(*this, label).variants[static_cast<std::size_t>(variant)];
  return row() ? v.width_in_row() / 2 : v.port;
}

double Station::after(int label, int variant) const {
  const Variant& v = label_at(*this, label).variants[static_cast<std::size_t>(variant)];
  return row() ? v.width_in_row() / 2 : v.height - v.port;
}

bool box_fits(const Station& s, int label, int variant, int slot) {
  const double at = s.along(slot);
  if (at - s.before(label, variant) < s.from - touch || at + s.after(label, variant) > s.to + touch)
    return false;
  const Problem& problem = *s.rules->problem;
  if (problem.obstacles.empty()) return true;
  const PageBox box =
      box_at(s.side, label_at(s, label).variants[static_cast<std::size_t>(variant)], s.port(slot));
  for (const PageBox& o : problem.obstacles)
    if (overlap(box, o)) return false;
  return true;
}

void note_blocks(StationLabel& label) {
  label.blocks.assign((label.lines.size() + lines_in_block - 1) / lines_in_block, never);
  for (std::size_t i = 0; i < label.lines.size(); ++i)
    label.blocks[i / lines_in_block] = std::min(label.blocks[i / lines_in_block], label.lines[i]);
}

Placement placement_of(const Station& s, const Choice& c) {
  Placement p;
  p.side = s.side;
  p.column = s.index;
  p.variant = c.variant;
  p.target = c.target;
  p.port = s.port(c.slot);
  p.box =
      box_at(s.side, label_at(s, c.label).variants[static_cast<std::size_t>(c.variant)], p.port);
  return p;
}

double choice_cost(const Station& s, const Choice& c) {
  const StationLabel& l = s.labels[static_cast<std::size_t>(c.label)];
  const auto found = std::find(l.targets.begin(), l.targets.end(), c.target);
  if (found == l.targets.end() || c.slot < 0 || c.slot >= s.slots) return never;
  if (std::find(l.variants.begin(), l.variants.end(), c.variant) == l.variants.end()) return never;
  if (!box_fits(s, c.label, c.variant, c.slot)) return never;
  const auto k = static_cast<std::size_t>(found - l.targets.begin());
  return l.lines[k * static_cast<std::size_t>(s.slots) + static_cast<std::size_t>(c.slot)] +
         label_at(s, c.label).variants[static_cast<std::size_t>(c.variant)].penalty;
}

std::vector<double> least_costs(const Problem& problem) {
  std::vector<double> least(problem.labels.size(), never);
  for (std::size_t i = 0; i < least.size(); ++i) {
    const Label& label = problem.labels[i];
    double penalty = never;
    for (const Variant& v : label.variants) penalty = std::min(penalty, v.penalty);
    for (std::size_t t = 0; t < label.targets.size(); ++t) {
      const auto& points = label.targets[t].points;
      // At best every branch runs straight across.
      double reach = never;
      Side side = Side::left;
      const auto offer = [&](Side s, double sum) {
        const double cost =
            problem.weights.length * sum / (problem.weights.unit > 0 ? problem.weights.unit : 1.0) +
            (((label.preferred < 0 && s != Side::left) || (label.preferred > 0 && s != Side::right))
                 ? problem.weights.wrong_side
                 : 0.0);
        if (cost < reach) reach = cost, side = s;
      };
      for (const Column& c : problem.columns) {
        double sum = 0;
        for (const PagePoint& p : points) sum += std::abs(p.x - c.edge);
        offer(c.side, std::max(0.0, sum - problem.stub * static_cast<double>(points.size())));
      }
      for (const Row& r : problem.rows) {
        double sum = 0;
        for (const PagePoint& p : points) sum += std::abs(p.y - r.edge);
        offer(r.side, sum);
      }
      least[i] = std::min(least[i], reach + label.targets[t].penalty + penalty);
    }
  }
  return least;
}

namespace {

Station bare_station(const Rulebook& rules, Side side, int index, double step) {
  const Problem& problem = *rules.problem;
  Station s;
  s.rules = &rules;
  s.side = side;
  s.index = index;
  s.step = step;
  if (s.row()) {
    const Row& r = problem.rows[static_cast<std::size_t>(index)];
    s.line = r.edge, s.from = r.left, s.to = r.right, s.across = r.height;
  } else {
    const Column& c = problem.columns[static_cast<std::size_t>(index)];
    s.line = c.edge, s.from = c.top, s.to = c.bottom, s.across = c.width;
  }
  s.slots = s.to >= s.from ? static_cast<int>(std::floor((s.to - s.from) / step + 1e-9)) + 1 : 0;
  s.labels.resize(problem.labels.size());
  return s;
}

// Fills in one label.
void offer_places(Station& s, std::size_t i, const Foreign& foreign, const Offer& offer,
                  const std::vector<double>& most, const StationLabel* known, bool whole,
                  const DetailSums* sums) {
  const Rulebook& rules = *s.rules;
  const Problem& problem = *rules.problem;
  const int self = static_cast<int>(i);
  const auto slots = static_cast<std::size_t>(s.slots);
  const double knee = s.row() ? 0.0 : problem.stub;
  const Label& label = problem.labels[i];
  StationLabel& l = s.labels[i];
  l.least_extent = never;
  for (std::size_t v = 0; v < label.variants.size(); ++v) {
    const Variant& variant = label.variants[v];
    if ((s.row() ? variant.height : variant.width) > s.across + touch) continue;
    l.variants.push_back(static_cast<int>(v));
    l.least_extent = std::min(l.least_extent, s.row() ? variant.width_in_row() : variant.height);
  }
  l.least.assign(slots, never);
  if (l.variants.empty()) return;
  // Where the cheapest variant that fits starts and ends.
  std::vector<double> penalty(slots, never);
  for (int slot = 0; slot < s.slots; ++slot)
    for (const int v : l.variants)
      if (box_fits(s, self, v, slot))
        penalty[static_cast<std::size_t>(slot)] =
            std::min(penalty[static_cast<std::size_t>(slot)],
                     label.variants[static_cast<std::size_t>(v)].penalty);
  for (const int t : offer[i]) {
    const Target& target = label.targets[static_cast<std::size_t>(t)];
    double nearest = never, farthest = 0;
    for (const PagePoint& p : target.points) {
      nearest = std::min(nearest, s.reach_of(p));
      farthest = std::max(farthest, s.reach_of(p));
    }
    if (!(nearest > knee + 0.05)) continue;
    const double* known_line = nullptr;
    if (known != nullptr)
      if (const auto same = std::find(known->targets.begin(), known->targets.end(), t);
          same != known->targets.end())
        known_line = &known->lines[static_cast<std::size_t>(same - known->targets.begin()) * slots];
    if (whole && known_line == nullptr) continue;
    const std::size_t base = l.lines.size();
    bool any = false;
    l.lines.resize(base + slots, never);
    for (int slot = 0; slot < s.slots; ++slot) {
      const auto at = static_cast<std::size_t>(slot);
      if (penalty[at] == never) continue;
      const Placed me{self, s.side, {}, s.port(slot), &target, {}};
      const double natural = label.variants[static_cast<std::size_t>(l.variants.front())].penalty;
      const double before = known_line != nullptr ? known_line[at] : never;
      if (whole && before == never) continue;
      LabelCost parts;
      if (before == never)
        parts = label_cost(problem, label, s.side, l.variants.front(), t, me.port, false);
      if (!most.empty() &&
          (before < never ? before : parts.total() - natural) + penalty[at] > most[i]) {
        if (before == never) continue;
        parts = label_cost(problem, label, s.side, l.variants.front(), t, me.port, false);
        if (parts.total() - natural + penalty[at] > most[i]) continue;
      }
      if (!whole && (!clear_of_obstacles(problem, me) || !leaves_room(rules, me, foreign)))
        continue;
      if (before == never) parts.detail = detail_cost(problem, label, s.side, t, me.port, sums);
      const double cost = before < never ? before : parts.total() - natural;
      l.lines[base + at] = cost;
      l.least[at] = std::min(l.least[at], cost + penalty[at]);
      l.least_total = std::min(l.least_total, l.least[at]);
      any = true;
    }
    if (!any) {
      l.lines.resize(base);
      continue;
    }
    l.targets.push_back(t);
    l.reach.push_back(farthest);
  }
  note_blocks(l);
}

}  // namespace

std::vector<Station> make_stations(const Rulebook& rules, double step, const Offer& offer,
                                   const std::vector<double>& most, bool to_first_homeless,
                                   const KnownStations& known) {
  const Problem& problem = *rules.problem;
  std::vector<Station> stations;
  for (std::size_t c = 0; c < problem.columns.size(); ++c)
    stations.push_back(bare_station(rules, problem.columns[c].side, static_cast<int>(c), step));
  for (std::size_t r = 0; r < problem.rows.size(); ++r)
    stations.push_back(bare_station(rules, problem.rows[r].side, static_cast<int>(r), step));
  std::optional<DetailSums> sums;
  if (problem.weights.detail != 0 && !known.whole) sums.emplace(problem.detail);
  const auto offered = [&](std::size_t i) {
    const Foreign foreign = known.whole ? Foreign{} : foreign_to(rules, static_cast<int>(i), offer);
    bool some = false;
    for (std::size_t k = 0; k < stations.size(); ++k) {
      Station& s = stations[k];
      offer_places(s, i, foreign, offer, most,
                   known.stations.empty() ? nullptr : &known.stations[k].labels[i], known.whole,
                   sums ? &*sums : nullptr);
      some = some || s.labels[i].least_total < never;
    }
    return some;
  };
  std::size_t places = 0;
  for (const Station& s : stations)
    for (const auto& targets : offer) places += targets.size() * static_cast<std::size_t>(s.slots);
  if (!to_first_homeless && places > worth_a_thread) {
    each_at_once(problem.labels.size(), offered);
  } else {
    for (std::size_t i = 0; i < problem.labels.size(); ++i)
      if (!offered(i) && to_first_homeless) break;
  }
  return stations;
}

}  // namespace platewright::place
