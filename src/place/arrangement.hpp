// One way to arrange a page: text step, widths of the columns, rows or not,
// which labels are numbers; and the problem it makes at a given scale.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "place/place.hpp"

namespace platewright::place {

struct Arrangement {
  int text_step = 0;
  double left = 0;  // widths of the columns, mm; 0: none
  double right = 0;
  double outer_left = 0;  // of a second column, mm; 0: none
  double outer_right = 0;
  double top = 0;  // heights of the rows, mm; 0: none
  double bottom = 0;
  std::vector<bool> as_number;
};

// Painted box and every target: what columns and rows keep off, figure units.
FigureBox body(const FitRequest& request);

// The largest scale at which the figure fits between the columns and rows (mm a
// unit); <= 0 when there is no room at all. Without columns and rows: the
// largest figure that the area holds.
double largest_scale(const FitRequest& request, const Arrangement& arrangement);

struct Built {
  FigureToPage figure_to_page;
  Problem problem;
};
Built build(const FitRequest& request, const Arrangement& arrangement, double scale);

// The arrangement that a fit was made under.
Arrangement arrangement_of(const Fit& fit);

// The step "wrapped" of the ladder, where some labels wrap.
std::optional<Fallback> wrapped_labels(const Fit& fit);

// The fit by the fallback ladder of all labels beside the figure; those of
// `request.inside` are obstacles where they have a place.
std::variant<Fit, Infeasible> fit_beside(const FitRequest& request, const Effort& effort);

// The variants of a label under an arrangement.
const std::vector<Variant>& variants_of(const FitRequest& request, const Arrangement& arrangement,
                                        std::size_t label, std::vector<Variant>& scratch);

// The largest figure found for one family of arrangements (which stations there
// are), over the columns' widths: a quick placement stands for "it fits".
struct Family {
  bool left = true, right = true, rows = false, second = false;
  long patience = 1'000'000;  // spent on untangling the leaders of each size, see draft.hpp
};
// From so many labels on the search looks at fewer sizes.
inline constexpr std::size_t many_labels = 40;
struct Sized {
  Arrangement arrangement;
  double scale = 0;
  double unwrapped_width = 0;         // widest natural box, mm
  std::vector<Placement> placements;  // that fit, on slots
};
std::optional<Sized> largest_figure(const FitRequest& request, const Family& family, int text_step,
                                    const std::vector<bool>& as_number, std::string& witness);

}  // namespace platewright::place
