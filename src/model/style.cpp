#include "platewright/style.hpp"

#include <cassert>

namespace platewright {

// Common practice of infant and primary schools; the sizes of type are those
// that teachers' guides ask for (24 pt for beginners, 18 pt to ten, then 12 pt),
// the rulings are baseline to top line, the pitch is the width that one
// handwritten letter takes.
std::vector<AgeRow> usual_ages() {
  const auto row = [](int up_to, double wanted, double floor, double pitch_mm, Length ruling,
                      double line_pt) {
    return AgeRow{up_to,  Length::pt(wanted), Length::pt(floor), Length::mm(pitch_mm),
                  ruling, Length::pt(line_pt)};
  };
  return {
      row(4, 24, 14, 14.0, Length::in(1.0), 3.0),
      row(5, 24, 14, 14.0, Length::in(0.75), 3.0),
      row(6, 24, 14, 10.0, Length::in(0.625), 2.5),
      row(7, 18, 10, 8.0, Length::in(0.5), 2.25),
      row(8, 18, 10, 6.5, Length::in(0.375), 2.0),
      row(10, 18, 10, 5.5, Length::in(0.375), 1.75),
      row(99, 12, 8, 4.5, Length::in(11.0 / 32.0), 1.5),  // wide ruling, 8.7 mm
  };
}

// Word searches by age, common practice: 4-5 six to eight squares, across only; 6-7
// ten, across and down; 8-9 twelve, with diagonals; 10-11 fifteen; 12 and older all
// eight directions.
std::vector<PuzzleRow> usual_puzzles() {
  return {
      {5, 8, 1, 6, 3, 20, 6},     {7, 10, 2, 8, 3, 30, 9},     {9, 12, 4, 12, 3, 35, 12},
      {11, 15, 4, 16, 4, 40, 16}, {99, 15, 8, 20, 4, 50, 20},
  };
}

namespace {

template <class Row>
const Row& row_for(const std::vector<Row>& rows, int years) {
  assert(!rows.empty());
  for (const Row& row : rows)
    if (years <= row.up_to) return row;
  return rows.back();
}

}  // namespace

const AgeRow& Style::for_age(int years) const { return row_for(ages, years); }

const PuzzleRow& Style::puzzles_for(int years) const { return row_for(puzzles, years); }

}  // namespace platewright
