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

const AgeRow& Style::for_age(int years) const {
  assert(!ages.empty());
  for (const AgeRow& row : ages)
    if (years <= row.up_to) return row;
  return ages.back();
}

}  // namespace platewright
