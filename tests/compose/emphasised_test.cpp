// Lines of runs: every word once and in its face, none beyond the width.
#include "compose/emphasised.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace platewright::compose {
namespace {

const text::Font font{"Andika", Length::pt(14), false, false};

std::string told(const std::vector<PiecedLine>& lines) {
  std::string all;
  for (const PiecedLine& line : lines) {
    for (const FacedRun& run : line.runs)
      all += (run.line.font.bold     ? "[b "
              : run.line.font.italic ? "[i "
                                     : "[") +
             run.line.text + "]";
    all += "/";
  }
  return all;
}

TEST(Emphasised, Sets_each_word_once_in_its_face) {
  const text::Typesetter typesetter;
  const std::string text = "the bee Apis mellifera, small";
  const auto lines = emphasised(text, {{8, 22, false, true}}, font, "en", typesetter, 500);
  EXPECT_EQ(told(lines), "[the bee][i Apis mellifera][, small]/");
}

TEST(Emphasised, Keeps_every_line_within_the_width_and_runs_in_a_row) {
  const text::Typesetter typesetter;
  std::string text;
  std::vector<Emphasis> emphasis;
  for (int i = 0; i < 60; ++i) {
    const std::string word = std::string(static_cast<std::size_t>(1 + i % 9), 'n') + ' ';
    if (i % 4 == 1) emphasis.push_back({text.size(), text.size() + word.size() - 1, i % 8 == 1, i % 8 == 5});
    text += word;
  }
  for (const double width : {40.0, 60.0, 90.0}) {
    const auto lines = emphasised(text, emphasis, font, "en", typesetter, width);
    std::string whole;
    for (const PiecedLine& line : lines) {
      EXPECT_LE(line.advance, width + 0.3);
      double end = -1;
      for (const FacedRun& run : line.runs) {
        EXPECT_GE(run.offset, end - 1e-9);
        end = run.offset + run.line.advance;
        whole += run.line.text + ' ';
      }
      EXPECT_NEAR(end, line.advance, 1e-9);
    }
    EXPECT_EQ(whole, text);
  }
}

TEST(Emphasised, Breaks_where_a_script_without_spaces_may_and_at_hyphens) {
  const text::Typesetter typesetter;
  const text::Font wide{"Noto Sans CJK SC", Length::pt(14), false, false};
  std::string text;
  for (int i = 0; i < 12; ++i) text += "心脏是肌肉，";
  const auto lines = emphasised(text, {{0, 6, true, false}}, wide, "zh", typesetter, 60);
  ASSERT_GE(lines.size(), 4U);
  std::string whole;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    EXPECT_LE(lines[i].advance, 60.3);
    if (i + 1 < lines.size()) {
      EXPECT_GT(lines[i].advance, 45) << "a line is filled";
    }
    EXPECT_FALSE(lines[i].runs.front().line.text.starts_with("，"));
    for (const FacedRun& run : lines[i].runs) whole += run.line.text;
  }
  EXPECT_EQ(whole, text);
  EXPECT_EQ(told(emphasised("low-lying *", {{0, 4, false, true}}, font, "en", typesetter, 12)),
            "[i low-]/[lying]/[*]/");
}

TEST(Emphasised, Breaks_a_word_wider_than_a_line) {
  const text::Typesetter typesetter;
  const std::string text = "a " + std::string(60, 'm');
  const auto lines = emphasised(text, {{2, 62, true, false}}, font, "en", typesetter, 50);
  ASSERT_GT(lines.size(), 3U);
  for (const PiecedLine& line : lines) EXPECT_LE(line.advance, 50.001);
}

}  // namespace
}  // namespace platewright::compose
