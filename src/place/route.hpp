// What a lower bound for all stations at once must know. One route runs down the
// first station, then the next, from label to label; its costs are those of the
// labels' places and of neighbours. That every label is met just once is priced, not
// asked for (Lagrange), so the cheapest route is found by a small dynamic program over
// places alone: the time-indexed model of machine scheduling (Sousa and Wolsey 1992;
// Tanaka, Fujikuma, Araki 2009).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "place/candidates.hpp"

namespace platewright::place {

// What the bound must know of a problem; slots here are whatever cells ports are
// counted in.
struct RouteModel {
  // Labels of one height class and group are alike to their neighbours.
  struct Entry {
    int label = 0;
    int shape = 0;
    std::vector<double> cost;  // by slot, or never
  };
  struct Pair {                // of shapes, upper one first
    int nearest = 1;           // least slots from port to port, at least 1
    std::vector<double> cost;  // for nearest, nearest + 1, ...; the last one beyond
  };
  struct Line {
    int slots = 0;
    int lean = 0;  // -1 left, +1 right, 0 a row
    int shapes = 0;
    std::vector<std::vector<int>> shape_of;  // [label][variant], -1: none
    std::vector<Entry> entries;
    std::vector<Pair> pairs;  // [upper * shapes + lower]
    // By label: no place of it that was left out costs less; empty where none were.
    std::vector<double> closed;
  };
  std::vector<int> group_of;  // by label
  int groups = 1;
  double group_break = 0;
  double balance = 0;  // cost of |left - right| = all labels; 0 where rows take some
  std::vector<Line> lines;
};

struct RoutePrices {
  std::vector<double> label;  // what meeting it is worth
  double lean = 0;            // added for each label on the left, taken off on the right
};

// The least that the balance costs beyond what `lean` already prices: an odd number of labels
// cannot stand on both sides alike.
inline double least_uneven(double balance, std::size_t labels, double lean) {
  if (labels % 2 == 0) return 0;
  return std::max(0.0, balance / static_cast<double>(labels) - std::abs(lean));
}

// The least value of routes, with the label that they end with (or that they
// come from, or lead to), and the least of those with another label.
struct Two {
  double best = never;
  int label = -1;
  double other = never;
  double without(int l) const { return l == label ? other : best; }
  void take(double value, int l, double second) {
    if (value < best) {
      other = l == label ? std::min(other, second) : std::min(second, best);
      best = value;
      label = l;
    } else if (l == label) {
      other = std::min(other, second);
    } else {
      other = std::min(other, value);
    }
  }
  void take(const Two& two, double more) {
    if (two.best + more < other) take(two.best + more, two.label, two.other + more);
  }
};

}  // namespace platewright::place
