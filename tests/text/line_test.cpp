// Measuring: linear in the size, every script, faces that lack a character.
#include <gtest/gtest.h>

#include <cmath>

#include "text/text.hpp"

namespace platewright::text {
namespace {

const std::string faces =
    "Andika, Noto Sans, Noto Sans Arabic, Noto Sans Hebrew, Noto Sans CJK SC, Noto Sans Math, "
    "Noto Sans Symbols2";

Font font(double pt) { return {faces, Length::pt(pt), false, false}; }

class LineTest : public testing::Test {
 protected:
  Typesetter typesetter;
};

TEST_F(LineTest, Capital_height_and_em_agree_with_the_face) {
  // Andika 6.101: boxes of H and x in the glyf table, 1460 and 1020 of 2048 units to the em
  // (the nominal heights of its OS/2 table, 1485 and 1040, are a little more).
  const Line line = typesetter.line("H", font(100), "en");
  EXPECT_NEAR(line.ink_top, 1460 / 2048.0 * Length::pt(100).mm(), 0.01);
  EXPECT_NEAR(line.ink_bottom, 0, 0.05);
  EXPECT_NEAR(typesetter.line("x", font(100), "en").ink_top, 1020 / 2048.0 * Length::pt(100).mm(),
              0.01);
}

TEST_F(LineTest, Every_length_is_linear_in_the_size) {
  const Line small = typesetter.line("Left ventricle", font(1), "en");
  for (const double pt : {2.0, 9.5, 12.0, 24.0, 333.3}) {
    const Line large = typesetter.line("Left ventricle", font(pt), "en");
    EXPECT_NEAR(large.advance, small.advance * pt, 1e-9 * pt);
    EXPECT_NEAR(large.ascent, small.ascent * pt, 1e-9 * pt);
    EXPECT_NEAR(large.ink_right, small.ink_right * pt, 1e-9 * pt);
  }
}

TEST_F(LineTest, Direction_follows_the_first_strong_letter_and_the_language) {
  EXPECT_EQ(typesetter.line("القلب", font(12), "ar").direction, Direction::right_to_left);
  EXPECT_EQ(typesetter.line("הלב", font(12), "en").direction, Direction::right_to_left);
  EXPECT_EQ(typesetter.line("heart", font(12), "ar").direction, Direction::left_to_right);
  EXPECT_EQ(typesetter.line("DNA الحمض", font(12), "ar").direction, Direction::right_to_left);
  EXPECT_EQ(typesetter.line("DNA الحمض", font(12), "en").direction, Direction::left_to_right);
  EXPECT_EQ(typesetter.line("12", font(12), "he").direction, Direction::right_to_left);
}

TEST_F(LineTest, Arabic_letters_join) {
  // Joined forms are narrower than the letters one by one.
  double apart = 0;
  for (const char* letter : {"ب", "ط", "ي", "ن"})
    apart += typesetter.line(letter, font(12), "ar").advance;
  EXPECT_LT(typesetter.line("بطين", font(12), "ar").advance, 0.9 * apart);
}

TEST_F(LineTest, A_combining_mark_takes_no_width) {
  const double composed = typesetter.line("\u00e9", font(12), "fr").advance;
  EXPECT_NEAR(typesetter.line("e\u0301", font(12), "fr").advance, composed, 1e-6);
}

TEST_F(LineTest, Bold_is_wider_and_taller_faces_raise_the_line) {
  Font bold = font(12);
  bold.bold = true;
  EXPECT_GT(typesetter.line("Aorta", bold, "en").advance,
            typesetter.line("Aorta", font(12), "en").advance);
  const Line latin = typesetter.line("Aorta", font(12), "en");
  const Line mixed = typesetter.line("Aorta 心", font(12), "zh");
  EXPECT_GE(mixed.ascent, latin.ascent);
  EXPECT_GE(mixed.descent, latin.descent);
}

TEST_F(LineTest, Hostile_text_is_cleaned) {
  EXPECT_EQ(typesetter.line("a\x01\x7f\tb\r\nc", font(12), "en").text, "a b c");
  EXPECT_EQ(typesetter.line(std::string("a\0b", 3), font(12), "en").text.find('\0'),
            std::string::npos);
  EXPECT_EQ(typesetter.line("a\xff\xfe", font(12), "en").text, "a\uFFFD\uFFFD");
  EXPECT_EQ(typesetter.line("ven\u00adtricle", font(12), "en").text, "ventricle");
  EXPECT_EQ(typesetter.line("", font(12), "en").advance, 0);
  EXPECT_GT(typesetter.line("", font(12), "en").ascent, 0);
}

TEST_F(LineTest, A_very_long_text_is_still_measured) {
  const double one = typesetter.line(std::string(100, 'm'), font(12), "en").advance;
  const double many = typesetter.line(std::string(100'000, 'm'), font(12), "en").advance;
  EXPECT_NEAR(many / one, 1000, 5);
}

TEST_F(LineTest, Names_the_characters_no_listed_face_has) {
  EXPECT_TRUE(typesetter.missing("Герц καρδιά ß", font(12)).empty());
  EXPECT_TRUE(typesetter.missing("القلب הלב 心脏", font(12)).empty());
  const Font andika{"Andika", Length::pt(12), false, false};
  EXPECT_EQ(typesetter.missing("心a心脏", andika), (std::vector<char32_t>{0x5FC3, 0x810F}));
  EXPECT_EQ(typesetter.missing("\u1F5C\U0001FA80", andika).size(), 2u);
  EXPECT_TRUE(typesetter.missing(" \t\n\u00a0\u00ad\u200d\u200f\ufe0f", andika).empty());
  EXPECT_EQ(typesetter.missing("a", {"No Such Face", Length::pt(12), false, false}),
            (std::vector<char32_t>{U'a'}));
}

TEST_F(LineTest, Knows_which_faces_are_installed) {
  EXPECT_TRUE(typesetter.installed("Andika"));
  EXPECT_TRUE(typesetter.installed("andika, Other"));
  EXPECT_FALSE(typesetter.installed("No Such Face"));
  EXPECT_FALSE(typesetter.installed(""));
}

TEST_F(LineTest, The_same_text_measures_the_same_in_every_typesetter) {
  const Line a = typesetter.line("Ventriculus sinister", font(11), "la");
  Typesetter other;
  other.line("心脏", font(40), "zh");
  const Line b = other.line("Ventriculus sinister", font(11), "la");
  EXPECT_EQ(a.advance, b.advance);
  EXPECT_EQ(a.ink_top, b.ink_top);
}

}  // namespace
}  // namespace platewright::text
