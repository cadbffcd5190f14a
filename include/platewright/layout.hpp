// The solved placement of one figure's labels on one paper: what poster,
// worksheet, copywork and key share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"
#include "platewright/length.hpp"
#include "platewright/paper.hpp"

namespace platewright {

enum class Side { left, right, top, bottom, inside };

struct PlacedLabel {
  std::string anchor;
  Side side = Side::left;
  PageBox box;                      // the largest that any sharing sheet needs, without the gap to the leader
  PagePoint port;                   // where the leader leaves the box
  std::vector<PagePoint> targets;   // more than one: forked
  std::vector<std::vector<PagePoint>> leaders;  // one polyline a target, from the port
  std::vector<std::string> lines;   // the wording as broken for the poster, logical order
  std::string text;                 // the same wording whole
  std::string group;                // as its set names it; empty: none
  bool as_number = false;           // did not fit as text: a number with a key
  int number = 0;                   // 1..: left column downwards, then right, then rows; the same on every sheet
};

// One step taken down the fallback ladder and what forced it.
struct Fallback {
  std::string step;     // "wrapped", "smaller-text", "rows", "second-column", "numbered", "ruled-list"
  std::string witness;  // "22 labels of 9.1 mm need 212 mm; the column has 187 mm"
};

enum class SolveStatus { optimal, feasible };

struct Certificate {
  SolveStatus status = SolveStatus::feasible;
  double cost = 0;            // of the grid solution; of the eased one where that costs more
  double bound = 0;           // proven lower bound on the grid
  double gap = 0;             // (cost - bound) / max(cost, 1e-9); 0 when optimal
  double polished_cost = 0;   // after the continuous polish; <= cost
  double continuous_bound = 0;
  double continuous_gap = 0;  // (polished_cost - continuous_bound) / max(polished_cost, 1e-9)
};

// Sums and spreads that tell a good layout; documented in README.
struct LayoutMetrics {
  double leader_length = 0;          // mm, all leaders
  double shortest_length = 0;        // mm, sum of anchor-to-column distances
  double angle_p95 = 0;              // degrees from the horizontal
  double gap_variation = 0;          // coefficient of variation of the free gaps
  double balance = 0;                // |L - R| / (L + R), by count
  double least_balance = 0;          // the least that `balance` can be: not all labels are free to change sides
  double detail_crossed = 0;         // mm of busy drawing under leaders
  double detail_of_y_order = 0;      // the same had the labels been stacked in the order of their targets
  double least_detail = 0;           // the least that it could be, each leader by itself; 0: not asked for
};

struct Layout {
  Paper paper;  // oriented
  FigureToPage figure_to_page;
  PageBox figure_box;  // painted box on the page
  std::vector<PlacedLabel> labels;  // sorted by anchor
  Length text_size;
  Certificate certificate;
  std::vector<Fallback> fallbacks;
  LayoutMetrics metrics;
  const PlacedLabel* find(std::string_view anchor) const {
    for (const PlacedLabel& l : labels)
      if (l.anchor == anchor) return &l;
    return nullptr;
  }
};

}  // namespace platewright
