#include "place/body_labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "place/leader.hpp"

namespace platewright::place {
namespace {

bool meets(const Segment& s, const PageBox& box) {
  if (box.contains(s.from) || box.contains(s.to)) return true;
  const PagePoint nw{box.left(), box.top()}, ne{box.right(), box.top()},
      sw{box.left(), box.bottom()}, se{box.right(), box.bottom()};
  return distance(s, Segment{nw, se}) == 0 || distance(s, Segment{ne, sw}) == 0;
}

struct TileRoom {
  PageBox box;
  bool printed = true;
};

// Where boxes may lie: tiles of the grid without the strips that they share
// (`whole` false), or whole tiles.
std::vector<TileRoom> tile_rooms(const Tiling& t, bool whole) {
  std::vector<TileRoom> out;
  const double edge = 2;
  for (int row = 0; row < t.rows; ++row)
    for (int column = 0; column < t.columns; ++column) {
      const PageBox box = t.box({row, column});
      const auto inset = [&](bool next) { return !whole && next ? t.overlap + edge : edge; };
      const double left = box.left() + inset(column > 0),
                   right = box.right() - inset(column + 1 < t.columns);
      const double top = box.top() + inset(row > 0),
                   bottom = box.bottom() - inset(row + 1 < t.rows);
      if (right > left && bottom > top)
        out.push_back({{left, top, right - left, bottom - top}, t.prints({row, column})});
    }
  return out;
}

struct Candidate {
  PageBox box;
  PagePoint port, target;
  double cost = 0;
  Segment leader() const { return {port, target}; }
};

PagePoint port_towards(const PageBox& b, double down, PagePoint target) {
  const std::array<PagePoint, 4> ports = {{{b.left(), b.top() + down},
                                           {b.right(), b.top() + down},
                                           {b.centre().x, b.top()},
                                           {b.centre().x, b.bottom()}}};
  return *std::min_element(ports.begin(), ports.end(), [&](PagePoint p, PagePoint q) {
    return distance(p, target) < distance(q, target);
  });
}

// Cheapest first.
std::vector<Candidate> candidates(const BodyLabelRequest& label, const std::vector<TileRoom>& rooms,
                                  const Occupancy& figure, const BodyLabelRules& rules) {
  std::vector<Candidate> all;
  const double cells = std::max(1.0, label.width * label.height / (figure.cell() * figure.cell()));
  for (const auto& [room, printed] : rooms)
    for (double y = room.top(); y + label.height <= room.bottom(); y += rules.step)
      for (double x = room.left(); x + label.width <= room.right(); x += rules.step) {
        const PageBox box{x, y, label.width, label.height};
        std::optional<Candidate> best;
        for (const PagePoint& target : label.targets) {
          const PagePoint port = port_towards(box, label.port_down, target);
          const double length = distance(port, target);
          if (box.grown(rules.gap).contains(target) || length > rules.reach) continue;
          const double g = figure.cell();
          const long covered =
              figure.count(static_cast<int>(std::floor(x / g)), static_cast<int>(std::floor(y / g)),
                           static_cast<int>(std::ceil(box.right() / g)),
                           static_cast<int>(std::ceil(box.bottom() / g)));
          const double slope = length > 0 ? std::abs(port.y - target.y) / length : 0;
          const double share = std::min(1.0, static_cast<double>(covered) / cells);
          const double cost = length * (1 + 0.3 * slope * slope) +
                              rules.covering * (share > 0 ? 0.4 + 0.6 * share : 0) +
                              (printed ? 0 : rules.new_sheet);
          if (!best || cost < best->cost) best = Candidate{box, port, target, cost};
        }
        if (best) all.push_back(*best);
      }
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.cost < b.cost; });
  return all;
}

bool compatible(const Candidate& a, const Candidate& b, const BodyLabelRules& rules) {
  return !overlap(a.box.grown(rules.gap), b.box) && !a.box.grown(rules.gap).contains(b.target) &&
         !b.box.grown(rules.gap).contains(a.target) &&
         distance(a.leader(), b.leader()) >= rules.leader_gap &&
         !meets(a.leader(), b.box.grown(rules.leader_gap)) &&
         !meets(b.leader(), a.box.grown(rules.leader_gap));
}

}  // namespace

std::vector<BodyLabelPlace> body_labels(const std::vector<BodyLabelRequest>& labels,
                                        const Tiling& tiling, const Occupancy& figure,
                                        const BodyLabelRules& rules) {
  constexpr std::size_t most = 6000;  // candidates kept of each label
  constexpr int turns = 6;
  const std::vector<TileRoom> off_joins = tile_rooms(tiling, false),
                              anywhere = tile_rooms(tiling, true);
  const std::size_t n = labels.size();
  std::vector<std::vector<Candidate>> choices(n);
  for (std::size_t i = 0; i < n; ++i) {
    choices[i] = candidates(labels[i], off_joins, figure, rules);
    if (choices[i].size() > most) choices[i].resize(most);
  }
  std::vector<std::optional<Candidate>> chosen(n);
  std::vector<bool> joined(n, false);
  const auto choose = [&](std::size_t i, const std::vector<Candidate>& from) {
    for (const Candidate& c : from) {
      bool fits = true;
      for (std::size_t j = 0; j < n && fits; ++j)
        fits = j == i || !chosen[j] || compatible(c, *chosen[j], rules);
      if (fits) return std::optional(c);
    }
    return std::optional<Candidate>();
  };
  // The dearest first: those in the middle of the body have least choice.
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < n; ++i) order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const auto least = [&](std::size_t i) {
      return choices[i].empty() ? 1e9 : choices[i].front().cost;
    };
    return least(a) > least(b);
  });
  for (int turn = 0; turn < turns; ++turn) {
    bool better = false;
    for (const std::size_t i : order) {
      const auto now = choose(i, choices[i]);
      if (now && (!chosen[i] || now->cost < chosen[i]->cost - 1e-9)) chosen[i] = now, better = true;
    }
    if (!better) break;
  }
  for (const std::size_t i : order)
    if (!chosen[i]) {
      chosen[i] = choose(i, candidates(labels[i], anywhere, figure, rules));
      joined[i] = chosen[i].has_value();
    }
  std::vector<BodyLabelPlace> places(n);
  for (std::size_t i = 0; i < n; ++i)
    if (chosen[i])
      places[i] = {true, joined[i], chosen[i]->box, chosen[i]->port, chosen[i]->target};
  return places;
}

}  // namespace platewright::place
