// The published cost, term by term, as the solver adds it up.
#pragma once

#include <algorithm>

#include "place/detail.hpp"
#include "place/problem.hpp"

namespace platewright::place {

// The free gap between neighbours that the cost wishes for, mm: what is left
// when the labels (natural variants) share the height over which the targets
// spread, plus one mean label, on every column; at least label_gap and at most
// two mean label heights. The same for columns and rows; 0 labels: label_gap.
double fair_gap(const Problem& problem);

struct LabelCost {
  double length = 0, slope = 0, detail = 0, side = 0, penalties = 0;
  double total() const { return length + slope + detail + side + penalties; }
};

// What one label costs by itself. `slope` and `detail` leave out stubs (always
// level, and at the label).
LabelCost label_cost(const Problem& problem, const Label& label, Side side, int variant, int target,
                     PagePoint port, bool with_detail = true);
// Its part for detail, which takes longest to reckon; for many, with the field's sums.
double detail_cost(const Problem& problem, const Label& label, Side side, int target,
                   PagePoint port, const DetailSums* sums = nullptr);

// What a leader costs that deviates by an angle of this squared sine; never falls as that rises.
inline double slope_cost(const Weights& w, double squared_sine) {
  return w.slope * squared_sine + w.steep * std::max(0.0, squared_sine - w.steep_from);
}

// What two neighbours on one column or row cost; `free` is the gap between
// their boxes along it, mm.
double gap_cost(const Weights& weights, double free, double fair);
double group_cost(const Weights& weights, const Label& a, const Label& b);
double balance_cost(const Weights& weights, int left, int right);

}  // namespace platewright::place
