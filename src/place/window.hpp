// A part of a draft cut out as a problem of its own: some labels, next to each
// other on every station, are free; all others stay where they are. What the
// neighbours at both ends of a run cost is kept exactly: they are labels of the
// part too, with one place each.
#pragma once

#include <vector>

#include "place/draft.hpp"

namespace platewright::place {

class Window {
 public:
  // `seats`: what all labels have; `spots`: the same as placed; `runs`: by station the labels
  // on it in order. `free`: those set free, by index; on each station they stand next
  // to each other. `gaps`: by station without any of them, before which rank of its run they may go.
  Window(const std::vector<Station>& stations, const Draft& draft, const std::vector<Placed>& spots,
         const std::vector<std::vector<int>>& runs, const std::vector<int>& free,
         const std::vector<std::size_t>& gaps, double fair);
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  const std::vector<Station>& stations() const { return stations_; }
  const Draft& draft() const { return draft_; }  // as it stands
  double cost() const { return cost_; }          // of it
  const std::vector<int>& labels() const { return labels_; }  // of the part, by index in the whole
  // A draft of the part, put back into the whole.
  void put(const Draft& part, Draft& whole) const;

 private:
  Problem problem_;
  Rulebook rules_;
  std::vector<Station> stations_;
  std::vector<int> labels_;
  std::vector<int> first_;  // slot of the whole that each station starts at
  Draft draft_;
  double cost_ = 0;
};

}  // namespace platewright::place
