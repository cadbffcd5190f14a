// The stage "place": from a fit request to a figure position and a placement.
#pragma once

#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <variant>
#include <vector>

#include "place/calm.hpp"
#include "place/problem.hpp"

namespace platewright::place {

// Solves one problem at a fixed figure position: the optimum on the slot grid
// with its certificate, then the continuous polish. Every hard rule holds in
// what it returns (rechecked by `verify`). Deterministic.
struct Effort {
  // Places the exact search may look at for each side before it falls back to
  // "feasible": some 0.1 us each.
  long nodes = 200'000;
  // The same for the proof that nothing is cheaper; 0: none is tried, and the bound is weak;
  // below 0: as much as for the search.
  long proof = -1;
  long for_proof() const { return proof < 0 ? nodes : proof; }
  // A proof that is not gone on with where it does not end soon.
  bool brief_proof() const { return for_proof() > 0 && for_proof() < nodes; }
  // Whether such a proof bounds placements off the grid, too: it takes as long as the placement
  // of few labels, and no placement depends on it.
  bool off_grid = true;
  // Once it is asked to stop, a proof ends soon, and what comes back is of no use.
  std::stop_token stop = {};
};
std::variant<Solution, Infeasible> solve(const Problem& problem, const Effort& effort = {});
// What the leaders of one problem cost on its grid.
struct Reckoned;
// The same again, beginning with what was found before. `known`: of the very same problem, or null.
std::variant<Solution, Infeasible> solve_from(const Problem& problem, const Effort& effort,
                                              const Solution& before,
                                              std::shared_ptr<const Reckoned> known = nullptr);

// See Room.
struct FigureRoom {
  FigureBox box;
  int columns = 0;
  int rows = 0;
  std::vector<std::uint8_t> free;
};

// A label before the figure's size is known.
struct FitLabel {
  std::string anchor;
  // variants[s]: ways to break it at text step s (sizes descending); boxes in mm.
  std::vector<std::vector<Variant>> variants;
  Variant number;  // box of its number, should it not fit as text
  struct End {     // see Target, in figure units
    std::vector<FigurePoint> points;
    double penalty = 0;
  };
  std::vector<End> targets;
  int preferred = 0;
  std::string group;
  // Its region's room for text, figure units; null: it stands beside the figure.
  std::shared_ptr<const FigureRoom> room = nullptr;
};

struct FitRequest {
  PageBox area;                     // figure and labels together stay inside
  FigureBox painted;                // what must be shown, figure units
  // Row r: painted extent [left, right] in figure units for the r-th of equal
  // slices of `painted` from the top; left > right where nothing is painted.
  std::vector<std::pair<double, double>> profile;
  // Where the drawing is busy, figure units.
  FigureBox detail_box;
  int detail_columns = 0;
  int detail_rows = 0;
  std::vector<float> detail;
  std::vector<FitLabel> labels;
  std::vector<double> text_pt;      // the steps, descending: wanted first, floor last
  double gutter = 9;                // least distance between painted box and label columns, mm
  double widest_gutter = 30;
  double target_clear = 0;          // leaders end at least so far inside; reserved
  std::vector<PageBox> obstacles;
  std::vector<FigureBox> insets;    // parts of the figure that are obstacles, too
  std::vector<FitLabel> inside;     // labels that `build` places in their rooms
  Rules rules;
  Weights weights;
  double slot = 1.0;  // least; see slot_on_page (two_sides.hpp)
  double stub = 0.0;
  double most_scale = 0;            // > 0: never draw the figure larger (mm a unit)
  double fixed_scale = 0;           // > 0: draw it at just this scale
  double known_scale = 0;           // > 0: a smaller figure than this is of no use
  // The figure should get at least this share of the area's best possible scale (figure alone)
  // before text is made smaller or labels become numbers.
  double wanted_share = 0.45;
  bool numbers = true;  // labels that do not fit as text may become numbers
  Calm calm;
};

struct Fit {
  FigureToPage figure_to_page;
  int text_step = 0;
  bool cramped = false;  // the figure has less than the wanted share
  Problem problem;     // as finally solved
  Solution solution;
  std::vector<bool> as_number;       // labels that became numbers
  std::vector<Fallback> fallbacks;
  // Of `problem`, for whoever solves it again; null where it changed since.
  std::shared_ptr<const Reckoned> reckoned = nullptr;
};

// The largest figure whose labels can be placed under the hard rules, by the
// fallback ladder; each step taken is logged with its witness. Labels with a room
// stand inside where they fit at the wanted size of type.
std::variant<Fit, Infeasible> fit(const FitRequest& request, const Effort& effort = {});

// About the scale that the figure gets with its labels on both sides at the first size of type,
// from the labels' widths and heights alone; 0 where none has room.
double hoped_scale(const FitRequest& request);

// The same page with a smaller figure, where that makes it calm (see Calm), or calmer by
// more than the figure loses; else the fit as it was.
Fit calmed(const FitRequest& request, Fit fit, const Effort& effort = {});

// Moves all labels of a column or row together, where that eases a page that is not calm and the
// whole costs no more than on the slots, or hardly more where that cost is not proven the least.
void ease(const Problem& problem, const Calm& calm, Solution& solution);

// The page with its figure moved up or down to the middle of its labels, where that
// eases a page that is not calm; solved again, and eased.
std::optional<Fit> shifted(const FitRequest& request, const Fit& fit, const Effort& effort = {});

// Sums and spreads of a solved problem.
LayoutMetrics metrics(const Problem& problem, const Solution& solution);
// The same but for the drawing that leaders cross: all that calm asks for.
LayoutMetrics spreads(const Problem& problem, const Solution& solution);
// What leaders would cross if each took the calmest way by itself, from a slot of any column or
// row (of a long one from some 300 places) and with no other rule, mm: no placement on these
// crosses less.
double least_detail(const Problem& problem, const Solution& solution);

}  // namespace platewright::place
