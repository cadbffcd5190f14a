#include "place/window.hpp"

#include <algorithm>
#include <cmath>

#include "base/at.hpp"

namespace platewright::place {
namespace {

// The labels next to a part of a run, -1 where the run ends.
struct Edge {
  int before = -1, after = -1;
};

std::vector<Edge> edges_of(const Draft& draft, const std::vector<std::vector<int>>& runs,
                           const std::vector<int>& free, const std::vector<std::size_t>& gaps) {
  std::vector<char> is_free(draft.size(), 0);
  for (const int i : free) is_free[at(i)] = 1;
  std::vector<Edge> edges(runs.size());
  for (std::size_t k = 0; k < runs.size(); ++k) {
    const std::vector<int>& run = runs[k];
    std::size_t from = run.size(), to = 0;
    for (std::size_t r = 0; r < run.size(); ++r)
      if (is_free[at(run[r])]) from = std::min(from, r), to = r + 1;
    if (from >= to) from = to = std::min(gaps[k], run.size());
    if (from > 0) edges[k].before = run[from - 1];
    if (to < run.size()) edges[k].after = run[to];
  }
  return edges;
}

std::vector<int> with_edges(const std::vector<int>& free, const std::vector<Edge>& edges) {
  std::vector<int> labels = free;
  for (const Edge& e : edges)
    for (const int i : {e.before, e.after})
      if (i >= 0) labels.push_back(i);
  return labels;
}

// The part's labels and stations; a station reaches just over the labels at its ends.
Problem part_of(const std::vector<Station>& stations, const Draft& draft,
                const std::vector<int>& labels, const std::vector<Edge>& edges) {
  const Problem& whole = *stations.front().rules->problem;
  Problem part;
  for (const int i : labels) part.labels.push_back(whole.labels[at(i)]);
  part.columns = whole.columns;
  part.rows = whole.rows;
  part.obstacles = whole.obstacles;
  part.rules = whole.rules;
  part.weights = whole.weights;
  part.weights.balance = 0;
  part.slot = whole.slot;
  part.stub = whole.stub;
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    double& from = s.row() ? part.rows[at(s.index)].left : part.columns[at(s.index)].top;
    double& to = s.row() ? part.rows[at(s.index)].right : part.columns[at(s.index)].bottom;
    const auto slots = [&](double length) { return static_cast<int>(std::ceil(length / s.step)) + 1; };
    if (const int i = edges[k].before; i >= 0) {
      const Choice& c = draft[at(i)].choice;
      from = s.along(std::max(0, c.slot - slots(s.before(i, c.variant))));
    }
    if (const int i = edges[k].after; i >= 0) {
      const Choice& c = draft[at(i)].choice;
      to = std::min(to, s.along(c.slot + slots(s.after(i, c.variant))));
    }
  }
  return part;
}

// What keeps its place and comes near enough to matter.
std::vector<const Placed*> nearby(const std::vector<Placed>& spots, const std::vector<int>& free,
                                  const PageBox& around) {
  std::vector<char> is_free(spots.size(), 0);
  for (const int i : free) is_free[at(i)] = 1;
  std::vector<const Placed*> near;
  for (std::size_t i = 0; i < spots.size(); ++i)
    if (!is_free[i] && (overlap(spots[i].leader.grown(1e-9), around) || overlap(spots[i].box, around)))
      near.push_back(&spots[i]);
  return near;
}

}  // namespace

Window::Window(const std::vector<Station>& stations, const Draft& draft,
               const std::vector<Placed>& spots, const std::vector<std::vector<int>>& runs,
               const std::vector<int>& free, const std::vector<std::size_t>& gaps, double fair)
    : problem_(part_of(stations, draft, with_edges(free, edges_of(draft, runs, free, gaps)),
                       edges_of(draft, runs, free, gaps))),
      rules_(problem_),
      labels_(with_edges(free, edges_of(draft, runs, free, gaps))),
      draft_(labels_.size()) {
  const Rulebook& whole = *stations.front().rules;
  const Problem& problem = *whole.problem;
  const std::vector<Edge> edges = edges_of(draft, runs, free, gaps);

  // All that a free label's box or leader can touch.
  PageBox around{};
  bool some = false;
  const auto reach = [&](const PageBox& box) {
    around = some ? united(around, box) : box;
    some = true;
  };
  for (const int i : free) {
    for (const Target& t : problem.labels[at(i)].targets)
      for (const PagePoint& p : t.points) reach({p.x, p.y, 0, 0});
    reach(spots[at(i)].box);
  }
  double widest = 0, tallest = 0;
  for (const int i : free)
    for (const Variant& v : problem.labels[at(i)].variants)
      widest = std::max(widest, v.width), tallest = std::max(tallest, v.height);
  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    Station mine;
    mine.rules = &rules_;
    mine.side = s.side;
    mine.index = s.index;
    mine.line = s.line;
    mine.step = s.step;
    mine.from = s.row() ? problem_.rows[at(s.index)].left : problem_.columns[at(s.index)].top;
    mine.to = s.row() ? problem_.rows[at(s.index)].right : problem_.columns[at(s.index)].bottom;
    const int first = static_cast<int>(std::lround((mine.from - s.from) / s.step));
    const int last = std::min(
        s.slots - 1, static_cast<int>(std::floor((mine.to - s.from) / s.step + 1e-9)));
    mine.slots = std::max(0, last - first + 1);
    first_.push_back(first);
    if (mine.slots > 0) {
      reach(PageBox{mine.port(0).x, mine.port(0).y, 0, 0}.grown(widest + tallest));
      reach(PageBox{mine.port(mine.slots - 1).x, mine.port(mine.slots - 1).y, 0, 0}.grown(
          widest + tallest));
    }
    stations_.push_back(std::move(mine));
  }
  const std::vector<const Placed*> others =
      nearby(spots, free, around.grown(std::max({problem.rules.leader_gap, problem.rules.anchor_gap,
                                                 problem.rules.label_gap, leader_to_box})));

  for (std::size_t k = 0; k < stations.size(); ++k) {
    const Station& s = stations[k];
    Station& mine = stations_[k];
    const std::size_t slots = at(mine.slots), offset = at(first_[k]);
    mine.labels.resize(labels_.size());
    for (std::size_t m = 0; m < labels_.size(); ++m) {
      const int i = labels_[m];
      const StationLabel& from = s.labels[at(i)];
      StationLabel& to = mine.labels[m];
      to.least.assign(slots, never);
      to.least_extent = from.least_extent;
      const bool stays = m >= free.size();
      const Choice& here = draft[at(i)].choice;
      if (stays && draft[at(i)].station != static_cast<int>(k)) continue;
      to.variants = stays ? std::vector<int>{here.variant} : from.variants;
      int low = 0, high = mine.slots;  // between the labels at both ends
      if (!stays && edges[k].before >= 0)
        low = draft[at(edges[k].before)].choice.slot - first_[k] + 1;
      if (!stays && edges[k].after >= 0) high = draft[at(edges[k].after)].choice.slot - first_[k];
      if (stays) low = here.slot - first_[k], high = low + 1;
      low = std::max(low, 0);
      high = std::min(high, mine.slots);
      for (std::size_t t = 0; t < from.targets.size(); ++t) {
        if (stays && from.targets[t] != here.target) continue;
        const Target& target = problem.labels[at(i)].targets[at(from.targets[t])];
        const std::size_t base = to.lines.size();
        to.lines.resize(base + slots, never);
        bool any = false;
        for (int slot = low; slot < high; ++slot) {
          const double cost = from.lines[t * at(s.slots) + offset + at(slot)];
          if (cost == never) continue;
          double penalty = never;
          for (const int v : to.variants) {
            const Variant& variant = problem.labels[at(i)].variants[at(v)];
            if (variant.penalty >= penalty || !box_fits(s, i, v, slot + first_[k])) continue;
            const PagePoint port = mine.port(slot);
            const Placed me = make_placed(i, s.side, box_at(s.side, variant, port), port, target);
            if (stays || std::all_of(others.begin(), others.end(), [&](const Placed* other) {
                  return compatible(whole, me, *other);
                }))
              penalty = variant.penalty;
          }
          if (penalty == never) continue;
          to.lines[base + at(slot)] = cost;
          to.least[at(slot)] = std::min(to.least[at(slot)], cost + penalty);
          to.least_total = std::min(to.least_total, to.least[at(slot)]);
          any = true;
        }
        if (!any) {
          to.lines.resize(base);
          continue;
        }
        to.targets.push_back(from.targets[t]);
        to.reach.push_back(from.reach[t]);
      }
      note_blocks(to);
    }
  }
  for (std::size_t m = 0; m < labels_.size(); ++m) {
    draft_[m] = draft[at(labels_[m])];
    draft_[m].choice.label = static_cast<int>(m);
    if (draft_[m].station >= 0) draft_[m].choice.slot -= first_[at(draft_[m].station)];
  }
  cost_ = draft_cost(stations_, fair, draft_);
}

void Window::put(const Draft& part, Draft& whole) const {
  for (std::size_t m = 0; m < part.size(); ++m) {
    Seat seat = part[m];
    seat.choice.label = labels_[m];
    seat.choice.slot += first_[at(seat.station)];
    whole[at(labels_[m])] = seat;
  }
}

}  // namespace platewright::place
