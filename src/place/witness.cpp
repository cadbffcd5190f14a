#include "place/witness.hpp"

#include <algorithm>

#include "place/spoken.hpp"

namespace platewright::place {

int homeless(const std::vector<Station>& stations) {
  const std::size_t n = stations.front().rules->problem->labels.size();
  for (std::size_t i = 0; i < n; ++i)
    if (std::ranges::none_of(stations,
                             [&](const Station& s) { return s.labels[i].least_total < never; }))
      return static_cast<int>(i);
  return -1;
}

std::string witness(const std::vector<Station>& stations, bool& certain) {
  const Problem& problem = *stations.front().rules->problem;
  certain = false;
  double need = 0, room = 0;
  for (std::size_t i = 0; i < problem.labels.size(); ++i) {
    double extent = never;
    bool some = false;
    for (const Station& s : stations) {
      extent = std::min(extent, s.labels[i].least_extent);
      some = some || s.labels[i].least_total < never;
    }
    if (!some) {
      certain = true;
      return "label \"" + problem.labels[i].anchor +
             (extent == never ? "\" is wider than every column"
                              : "\" has no place from which its leader keeps every distance");
    }
    need += extent + problem.rules.label_gap;
  }
  for (const Station& s : stations) room += s.to - s.from + problem.rules.label_gap;
  if (need > room + 1e-9) {
    certain = true;
    return std::to_string(problem.labels.size()) + " labels need " + tenths(need) +
           " mm of column height; there are " + tenths(room) + " mm";
  }
  return std::to_string(problem.labels.size()) + " labels (" + tenths(need) + " mm of " +
         tenths(room) + " mm column height) have no placement whose leaders keep apart";
}

bool overfull(const Problem& problem, double step, std::string& witness) {
  const double gap = problem.rules.label_gap;
  double need = 0, room = 0, mean = 0;
  for (const Label& l : problem.labels) {
    double least = never, width = never;
    for (const Variant& v : l.variants)
      least = std::min(least, v.height), width = std::min(width, v.width_in_row());
    need += least + gap + step / 8;  // a slot is lost now and then
    mean += width + gap;
  }
  mean /= static_cast<double>(problem.labels.size());
  const double height = need / static_cast<double>(problem.labels.size());
  for (const Column& c : problem.columns) room += c.bottom - c.top + gap;
  for (const Row& r : problem.rows) room += (r.right - r.left + gap) / mean * height;
  if (need <= room + step) return false;
  witness = std::to_string(problem.labels.size()) + " labels need " + tenths(need) +
            " mm of columns and rows; there are " + tenths(room) + " mm";
  return true;
}

}  // namespace platewright::place
