// Ports off the slot grid for a given order: every label keeps its column or
// row, its rank there, its variant and its target, and only slides.
#pragma once

#include <vector>

#include "place/detail.hpp"
#include "place/rulebook.hpp"

namespace platewright::place {

class Ports {
 public:
  // `placements` are moved in place; they may break rules between labels.
  Ports(const Rulebook& rules, std::vector<Placement>& placements);

  // Lets all labels slide to where they cost least, in steps of `coarsest` mm
  // and then half as long again and again, down to `finest`. At each step a dynamic
  // program along every run chooses for all of its labels at once among a few
  // places around where they are, so that runs of touching labels move as one;
  // for costs convex in the ports this is the steepest descent with scaling of
  // L-natural-convex functions (Murota 2003, Discrete Convex Analysis, chapter 10),
  // whose end is the optimum for the order to within the finest step.
  // Rules that the leaders break count as `broken` each (draft.hpp), and only
  // changes that lower the sum are made: rules once kept stay kept. With
  // `leaders` false the leaders' rules are not looked at. Boxes must be apart
  // and inside their column from the start, and remain so.
  void descend(double coarsest, double finest, bool leaders);

  // Pushes boxes apart and into their columns, moving them as little as can be
  // (least squares, boxed isotonic regression by pool adjacent violators; Best
  // and Chakravarti 1990). False when a run is longer than its column or row.
  bool spread();

  int faults() const;  // labels and pairs of labels that break a rule
  double cost() const;

 private:
  struct Run {
    bool column = true;
    double from = 0, to = 0;
    std::vector<std::size_t> members;  // by rank
  };
  double start(std::size_t i) const;
  double length(std::size_t i) const;
  Placement slid(std::size_t i, double by) const;
  void put(std::size_t i, const Placement& placement);
  // What can be in the way of a label that covers so much.
  PageBox around(const PageBox& hull) const;
  bool stands_apart(std::size_t i, const Placement& at, const Placed& spot) const;
  bool improve_run(const Run& run, double step, bool leaders);
  bool propose(const Run& run, double step, bool leaders, const std::vector<bool>& held,
               std::vector<Placement>& moved) const;
  double value(bool leaders) const;

  const Rulebook& rules_;
  const Problem& problem_;
  double fair_;
  DetailSums sums_;
  std::vector<Placement>& all_;
  std::vector<Placed> spots_;
  std::vector<PageBox> hulls_;  // by label: all that it covers
  std::vector<Run> runs_;
  std::vector<std::size_t> run_of_;
};

}  // namespace platewright::place
