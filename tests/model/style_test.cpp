#include "platewright/style.hpp"

#include <gtest/gtest.h>

namespace platewright {
namespace {

// Sizes of type by reader's age, common practice: beginners 24 pt, to ten 18 pt,
// above 12 pt; never below 14, 10 and 8 pt.
TEST(Style, Gives_each_age_its_size_of_type) {
  const Style style;
  for (int years = 0; years <= 120; ++years) {
    const AgeRow& row = style.for_age(years);
    EXPECT_DOUBLE_EQ(row.text_wanted.pt(), years <= 6 ? 24 : years <= 10 ? 18 : 12) << years;
    EXPECT_DOUBLE_EQ(row.text_floor.pt(), years <= 6 ? 14 : years <= 10 ? 10 : 8) << years;
  }
}

// Pitch of handwriting by age, common practice: 4-5 14 mm, 6 10 mm, 7 8 mm,
// 8 6.5 mm, 9-10 5.5 mm, 11 and older 4.5 mm.
TEST(Style, Gives_each_age_the_room_of_its_handwriting) {
  const std::pair<int, double> pitches[] = {{4, 14},  {5, 14},   {6, 10},   {7, 8},   {8, 6.5},
                                            {9, 5.5}, {10, 5.5}, {11, 4.5}, {40, 4.5}};
  for (const auto& [years, pitch] : pitches)
    EXPECT_DOUBLE_EQ(Style{}.for_age(years).pitch.mm(), pitch) << years;
}

// Ruled paper, baseline to top line: before school 1 in, first year 3/4, grade 1
// (6) 5/8, grade 2 (7) 1/2, grades 3 and 4 (8 to 10) 3/8; then wide ruling, 8.7 mm.
TEST(Style, Gives_each_age_its_ruling) {
  const std::pair<int, double> rulings[] = {{4, 1},  {5, .75},  {6, .625},
                                            {7, .5}, {8, .375}, {10, .375}};
  for (const auto& [years, inches] : rulings)
    EXPECT_DOUBLE_EQ(Style{}.for_age(years).ruling.in(), inches) << years;
  EXPECT_NEAR(Style{}.for_age(11).ruling.mm(), 8.7, 0.05);
}

// Colouring outlines 1.5 to 3 pt by age, common practice.
TEST(Style, Colouring_lines_grow_thinner_with_age) {
  const auto ages = usual_ages();
  for (std::size_t i = 0; i < ages.size(); ++i) {
    EXPECT_GE(ages[i].colouring_line, Length::pt(1.5));
    EXPECT_LE(ages[i].colouring_line, Length::pt(3));
    if (i > 0) {
      EXPECT_LE(ages[i].colouring_line, ages[i - 1].colouring_line);
      EXPECT_LT(ages[i - 1].up_to, ages[i].up_to);
    }
  }
}

TEST(Style, Takes_the_last_row_for_anybody_older) {
  Style style;
  style.ages = {{10, {}, {}, Length::mm(1), {}, {}}, {20, {}, {}, Length::mm(2), {}, {}}};
  EXPECT_EQ(style.for_age(10).pitch, Length::mm(1));
  EXPECT_EQ(style.for_age(11).pitch, Length::mm(2));
  EXPECT_EQ(style.for_age(99).pitch, Length::mm(2));
}

// WCAG 2.2, 1.4.3 and 1.4.11: text 4.5, graphics 3.
TEST(Style, Prints_in_colours_that_stand_out) {
  const Style style;
  EXPECT_GE(contrast(style.type.ink, style.page.background), 7.0);
  EXPECT_GE(contrast(style.type.quiet_ink, style.page.background), 4.5);
  EXPECT_GE(contrast(style.leader.colour, style.page.background), 3.0);
}

}  // namespace
}  // namespace platewright
