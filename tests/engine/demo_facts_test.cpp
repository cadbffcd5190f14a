// The demo figures against published proportions: a drawing that is wrong would
// be wrong on every sheet. Left and right are the body's own: its left is the
// reader's right.
#include <gtest/gtest.h>

#include "platewright/engine.hpp"
#include "support/demo.hpp"

namespace {

using platewright::Anchor;
using platewright::Figure;

Figure read(const std::string& name) {
  auto figure = platewright::read_figure(support::demo_svg(name));
  EXPECT_TRUE(figure.ok());
  return figure.ok() ? *figure : Figure{};
}

const Anchor& at(const Figure& figure, const std::string& name) {
  const Anchor* anchor = figure.find(name);
  if (!anchor) throw std::runtime_error("no anchor " + name);
  return *anchor;
}

double height(const Anchor& a) { return a.box.h; }
double middle_x(const Anchor& a) { return a.box.centre().x; }

TEST(Child, Is_1150_units_from_crown_to_sole_with_a_head_of_a_sixth) {
  const Figure child = read("child");
  const double crown = at(child, "crown").points[0].at.y, sole = at(child, "sole").points[0].at.y;
  EXPECT_NEAR(sole - crown, 1150, 0.1);
  // Eyes of adults at .936 of stature (Drillis & Contini 1966, in Winter, Biomechanics); a child
  // of six, whose head is about 1/6 of the height (from memory), has them lower.
  const double eye = (sole - at(child, "eye").points[0].at.y) / 1150;
  EXPECT_GT(eye, 0.88);
  EXPECT_LT(eye, 0.936);
  // Knee of adults at .285 (the same table).
  EXPECT_NEAR((sole - at(child, "knee").points[0].at.y) / 1150, 0.285, 0.03);
}

TEST(Child, Has_organs_on_their_own_sides) {
  const Figure child = read("child");
  const double spine = at(child, "crown").points[0].at.x;
  for (const char* right : {"liver", "gallbladder", "right-lung", "right-kidney", "appendix"})
    EXPECT_LT(middle_x(at(child, right)), spine) << right;
  for (const char* left : {"stomach", "spleen", "left-lung", "left-kidney", "heart"})
    EXPECT_GT(middle_x(at(child, left)), spine) << left;
  EXPECT_LT(at(child, "brain").box.bottom(), at(child, "mouth").points[0].at.y);
  EXPECT_LT(at(child, "heart").box.bottom(), at(child, "bladder").box.top());
  // The right kidney lies a little lower, under the liver (from memory).
  EXPECT_GT(at(child, "right-kidney").box.top(), at(child, "left-kidney").box.top());
}

TEST(Child, Has_kidneys_of_the_length_published_for_its_height) {
  const Figure child = read("child");
  // Length in cm for height H in cm: right 0.051 H + 2.102, left 0.051 H + 2.280
  // (PMC4901001); H = 115.
  EXPECT_NEAR(height(at(child, "right-kidney")) / 10, 0.051 * 115 + 2.102, 0.8);
  EXPECT_NEAR(height(at(child, "left-kidney")) / 10, 0.051 * 115 + 2.280, 0.8);
}

TEST(Child, Has_organs_scaled_with_its_stature) {
  const Figure child = read("child");
  const double scale = 1150.0 / 1720;  // adult organs in mm, from memory
  EXPECT_NEAR(at(child, "liver").box.w, 212 * scale, 20);      // 200 to 225 across
  EXPECT_NEAR(at(child, "spleen").box.h, 120 * scale, 12);     // 120 long
  EXPECT_NEAR(at(child, "heart").box.w, 120 * scale, 12);      // 120 along its axis, which lies aslant
}

TEST(Heart, Has_its_chambers_on_the_body_s_sides_and_a_thick_left_wall) {
  const Figure heart = read("heart");
  EXPECT_LT(middle_x(at(heart, "right-atrium")), middle_x(at(heart, "left-atrium")));
  EXPECT_LT(middle_x(at(heart, "right-ventricle")), middle_x(at(heart, "left-ventricle")));
  EXPECT_LT(at(heart, "right-atrium").box.top(), at(heart, "right-ventricle").box.top());
  // Apex below, to the body's left.
  EXPECT_GT(at(heart, "apex").points[0].at.x, heart.painted.centre().x);
  EXPECT_GT(at(heart, "apex").points[0].at.y, heart.painted.centre().y);
  // The left heart beats against the body's pressure: its wall is the thick one, and what is left
  // of the left ventricle's cavity is no wider than the right one's (from memory).
  EXPECT_LE(at(heart, "left-ventricle").box.w, at(heart, "right-ventricle").box.w);
}

TEST(Eye, Is_24_mm_long_with_a_cornea_of_a_smaller_circle) {
  const Figure eye = read("eye");
  // Eyeball 24 mm from front to back (from memory; the figure says 40 units to the mm).
  const double length = at(eye, "sclera").box.right() - at(eye, "cornea").box.left();
  EXPECT_NEAR(length / 40, 24, 0.5);
  // Lens about 4 mm thick and 9 mm across, cornea 11.7 mm across (from memory).
  EXPECT_NEAR(at(eye, "lens").box.w / 40, 4, 0.5);
  EXPECT_NEAR(at(eye, "lens").box.h / 40, 9, 0.5);
  EXPECT_NEAR(at(eye, "cornea").box.h / 40, 11.7, 0.7);
  // The blind spot lies on the nose's side of the yellow spot.
  EXPECT_GT(at(eye, "optic-disc").box.centre().y, at(eye, "macula").box.centre().y);
}

TEST(Hand, Has_bones_in_the_proportions_of_a_hand) {
  const Figure hand = read("hand");
  // The third metacarpal is about 64.6 mm, the second 68.1 mm (adult means, from memory).
  const double third = height(at(hand, "third-metacarpal"));
  EXPECT_NEAR(height(at(hand, "second-metacarpal")) / third, 68.1 / 64.6, 0.06);
  EXPECT_LT(height(at(hand, "fifth-metacarpal")), third);
  // Right hand, palm to the reader: the thumb is on the reader's right.
  EXPECT_GT(middle_x(at(hand, "first-metacarpal")), middle_x(at(hand, "fifth-metacarpal")));
  EXPECT_GE(hand.anchors.size(), 20U);
}

TEST(Tooth, Has_enamel_on_the_crown_and_cement_on_the_root) {
  const Figure tooth = read("tooth");
  EXPECT_LT(at(tooth, "enamel").box.top(), at(tooth, "cement").box.top());
  EXPECT_GT(at(tooth, "cement").box.bottom(), at(tooth, "enamel").box.bottom());
  EXPECT_GE(tooth.anchors.size(), 9U);
}

TEST(Honeybee, Is_1000_units_long_with_a_fore_wing_larger_than_the_hind_wing) {
  const Figure bee = read("honeybee");
  const auto front = at(bee, "front").points[0].at, rear = at(bee, "rear").points[0].at;
  EXPECT_NEAR(rear.x - front.x, 1000, 0.1);  // 13 mm: workers are 12 to 15 mm (from memory)
  EXPECT_GT(at(bee, "fore-wing").box.w, at(bee, "hind-wing").box.w);
  EXPECT_GE(bee.anchors.size(), 18U);
}

TEST(Honeybee, Has_legs_that_hold_no_more_than_the_leg_and_are_pointed_at_below_the_hip) {
  const Figure bee = read("honeybee");
  const double hip = at(bee, "coxa").box.centre().y;
  for (const char* leg : {"front-leg", "middle-leg", "hind-leg"}) {
    EXPECT_LT(at(bee, leg).box.w, 600) << leg;  // of a figure 1320 across
    EXPECT_GT(at(bee, leg).box.top(), at(bee, "thorax").box.centre().y) << leg;
    for (const auto& point : at(bee, leg).points) EXPECT_GT(point.at.y, hip) << leg;
  }
}

TEST(Heart, Lies_in_a_sac_that_reaches_the_lung_veins_on_both_sides) {
  const Figure heart = read("heart");
  // The sac folds back along the veins' roots (from memory); it does not end in the open.
  EXPECT_LT(at(heart, "pericardium").box.top(), at(heart, "pulmonary-veins").box.bottom());
  EXPECT_LT(at(heart, "pericardium").box.top(), at(heart, "right-pulmonary-veins").box.bottom());
}

TEST(Demo, Every_anchor_but_the_measuring_points_has_a_term_in_both_languages) {
  for (const std::string& name : support::demo_figures()) {
    const std::string figure = support::demo_svg(name);
    const auto findings = platewright::check_files({figure, support::demo_terms(name)},
                                                   platewright::usual_environment());
    EXPECT_TRUE(findings.empty()) << to_text(findings.front());
  }
}

}  // namespace
