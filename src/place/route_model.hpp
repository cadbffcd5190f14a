// The bound's model of the slot grid, and what it shares with that of cells.
#pragma once

#include "place/route.hpp"

namespace platewright::place {

// `most_shapes`: box heights in more classes than these are rounded down to fewer.
RouteModel grid_model(const std::vector<Station>& stations, double fair, int most_shapes);

// Leaves out the places that cost their label more than this above its cheapest one
// (RouteModel::Line::closed).
void close_dear(RouteModel& model, const std::vector<double>& more);

// How far boxes of one class reach before and after their ports, from and to.
struct Reach {
  double before_low = 0, before_high = 0, after_low = 0, after_high = 0;
};
struct Shapes {
  std::vector<Reach> reach;
  std::vector<int> count;            // labels' variants in each
  std::vector<std::vector<int>> of;  // [label][variant], -1: has no place on the station
};
Shapes shapes_of(const Station& station, int most);
// Groups and the weights of groups and balance.
void start_model(RouteModel& model, const Problem& problem);
RouteModel::Entry& entry_of(RouteModel::Line& line, int label, int shape);
// `loose`: two ports may be this much nearer or farther than their slots say, mm.
void fill_pairs(RouteModel::Line& line, const Shapes& shapes, const Problem& problem, double step,
                double fair, double loose);

}  // namespace platewright::place
