#include "place/thresholds.hpp"

#include <algorithm>
#include <cmath>

#include "place/leader.hpp"

namespace platewright::place {

Thresholds::Thresholds(const Problem& given, const RouteModel& model,
                       const std::vector<double>& step, bool loose_ports)
    : problem(&given), labels(given.labels.size()), loose(loose_ports) {
  for (std::size_t k = 0; k < model.lines.size(); ++k) {
    Place place;
    const bool row = k >= given.columns.size();
    const std::size_t index = row ? k - given.columns.size() : k;
    place.side = row ? given.rows[index].side : given.columns[index].side;
    place.edge = row ? given.rows[index].edge : given.columns[index].edge;
    place.from = row ? given.rows[index].left : given.columns[index].top;
    place.step = step[k];
    places.push_back(place);
    line.emplace_back(labels * labels, Bounds{});
    for (std::size_t i = 0; i < labels; ++i)
      for (std::size_t j = 0; j < labels; ++j)
        if (i != j)
          line.back()[i * labels + j] =
              between(k, given.labels[i].targets, given.labels[j].targets);
  }
}

// Nothing is asked as soon as some pair of targets asks something of the former
// label's port and another pair something of the latter's.
Thresholds::Bounds Thresholds::between(std::size_t k, std::span<const Target> former,
                                       std::span<const Target> latter) const {
  const Place& place = places[k];
  Station s;
  s.side = place.side;
  s.line = place.edge;
  const double stub = s.row() ? 0 : problem->stub;
  Bounds all{far_away, -far_away};
  bool asks_former = false, asks_latter = false;
  for (const Target& t : former)
    for (const Target& u : latter) {
      // Of a fork one branch is looked at.
      const PagePoint a = t.points.front(), b = u.points.front();
      const double reach_a = s.reach_of(a) - stub, reach_b = s.reach_of(b) - stub;
      const double along_a = s.row() ? a.x : a.y, along_b = s.row() ? b.x : b.y;
      if (!(reach_a > 0) || !(reach_b > 0)) continue;  // no leader from here at all
      if (reach_a < 0.01 || reach_b < 0.01 || distance(a, b) < 1e-3) return {};
      if (std::abs(reach_a - reach_b) < 1e-6) {
        if (along_a > along_b + 1e-3) continue;  // they always cross
        return {};
      }
      const double meet = along_a - (along_b - along_a) / (reach_b - reach_a) * reach_a;
      const double slot = std::clamp((meet - place.from) / place.step, -1e8, 1e8);
      constexpr double hair = 1e-5;
      if (reach_a < reach_b) {
        asks_latter = true;
        all.from = std::min(
            all.from, static_cast<int>(loose ? std::floor(slot - hair) : std::ceil(slot - hair)));
      } else {
        asks_former = true;
        all.until = std::max(all.until, static_cast<int>(std::floor(slot + hair)));
      }
      if (asks_former && asks_latter) return {};
    }
  if (asks_latter) all.until = far_away;
  if (asks_former) all.from = -far_away;
  return all;
}

}  // namespace platewright::place
