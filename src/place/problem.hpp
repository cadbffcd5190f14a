// A placement problem and its solution, in page millimetres. Pure values: the
// solver knows nothing of figures' files, fonts or pages.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "platewright/geometry.hpp"
#include "platewright/layout.hpp"

namespace platewright::place {

// One way to break a label into lines: its box, and how far below the box's top
// edge a side leader leaves it (mm). Order: fewest lines first.
struct Variant {
  double width = 0;
  double height = 0;
  double port = 0;        // normally height / 2
  double penalty = 0;     // cost added for using it (0 for the natural one)
  // Room that it needs beside it in a row, both sides together, so that labels one after another
  // do not read as one line; its box there is so much wider.
  double beside = 0;
  double width_in_row() const { return width + beside; }
};

// One way to end a leader: one point, or several (a fork, all joined to the
// same port). `penalty` is added to the cost.
struct Target {
  std::vector<PagePoint> points;
  double penalty = 0;
};

// Where a label may stand inside its region: equal cells over `box`, row by row, 1 where
// what is painted is calm and light enough for text.
struct Room {
  PageBox box;
  int columns = 0;
  int rows = 0;
  std::vector<std::uint8_t> free;
};

struct Label {
  std::string anchor;     // unique; breaks ties
  std::vector<Variant> variants;  // at least one
  std::vector<Target> targets;    // at least one
  int preferred = 0;      // -1 left, +1 right, 0 either
  std::string group;      // empty: none
  std::shared_ptr<const Room> room = nullptr;  // null: beside the figure only
};

// A vertical line on which ports lie. Labels of a left column extend to the
// left of `edge` (their right edges are flush at `edge`), those of a right
// column to the right.
struct Column {
  Side side = Side::left;  // left or right
  double edge = 0;         // x of the ports
  double top = 0;          // label boxes lie within [top, bottom]
  double bottom = 0;
  double width = 0;        // widest box that fits
};

// A horizontal line of ports above or below the figure: labels of a top row sit
// on `edge` (bottom edges flush), those of a bottom row hang from it; the port is the middle
// of that edge of the box.
struct Row {
  Side side = Side::top;   // top or bottom
  double edge = 0;         // y of the ports
  double left = 0;
  double right = 0;
  double height = 0;       // tallest box that fits
};

// Where the drawing is busy: mean of the grid along a leader, 0..1, times its length is
// "detail crossed". Empty: calm everywhere.
struct DetailField {
  PageBox box;
  int columns = 0;
  int rows = 0;
  std::vector<float> values;  // row by row, 0..1
  // Integral along the segment, mm.
  double along(PagePoint from, PagePoint to) const;
};

// Hard rules, mm. Beside these a leader keeps 0.5 mm off every foreign box
// (rulebook.hpp), whatever the rules say. `leader_gap` and `anchor_gap` are
// relative: where the targets of two labels cannot be chosen twice the gap apart,
// the pair keeps half of the most that they can; leaders to one and the same point
// meet there and never cross. A port keeps the whole `leader_gap` from foreign leaders.
struct Rules {
  double label_gap = 1.5;
  double leader_gap = 0.8;   // away from a shared end
  double anchor_gap = 1.0;   // leader to a foreign target
};

// Weights of the published cost (see cost.hpp).
struct Weights {
  double length = 1.0;
  double slope = 1.0;
  double gap = 0.5;
  double wrong_side = 8.0;
  double group_break = 2.0;
  double detail = 0.6;
  double balance = 0.5;
  double unit = 1.0;  // mm that count as 1 in `length` and `detail`, e.g. a hundredth of the figure's diagonal
  double steep = 0;   // as `slope` once more, for what is above this squared sine:
  double steep_from = 1;
};

struct Problem {
  std::vector<Label> labels;
  std::vector<Column> columns;  // at most one a side, or two a side for a staggered second column (outer after inner)
  std::vector<Row> rows;        // may be empty
  std::vector<PageBox> obstacles;  // label boxes keep out of them, and leaders that end elsewhere
  DetailField detail;
  Rules rules;
  Weights weights;
  // Grid step for ports, mm: those of a column lie at top + k * slot, those of a row
  // at left + k * slot, k = 0, 1, ..., whatever the boxes. Where that grid has no
  // placement, slots half, a quarter and an eighth as long are tried, then ports
  // between the slots; a longest column of more than 3000 slots lengthens the step.
  double slot = 1.0;
  double stub = 0.0;       // horizontal part of a side leader at the label, mm
};

struct Placement {  // of labels[i], same order as the problem
  // Inside: no leader, the port is the box's middle, column is 0.
  Side side = Side::left;
  int column = 0;     // index into columns, or into rows for top and bottom
  int variant = 0;
  int target = 0;
  PageBox box;
  PagePoint port;
};

// A placement to begin with; empty: none.
struct Start {
  std::vector<Placement> placements;
  double step = 0;       // mm between the slots that its ports lie on; 0: on none, or not known
  bool settled = false;  // no better place for a single label was left there
  bool spare = false;    // to be looked at only where no other beginning leads anywhere
};

struct Solution {
  std::vector<Placement> placements;
  Certificate certificate;
  Start on_grid = {};  // before the polish: for whoever solves the same problem again
};

struct Infeasible {
  std::string witness;  // what can't be met, with numbers
};

}  // namespace platewright::place
