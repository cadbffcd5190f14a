// Breaking into lines: against brute force over every choice of breaks.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "text/text.hpp"

namespace platewright::text {
namespace {

const Font andika{"Andika, Noto Sans, Noto Sans Arabic, Noto Sans Hebrew, Noto Sans CJK SC",
                  Length::pt(12), false, false};

std::vector<std::string> texts(const Block& block) {
  std::vector<std::string> result;
  for (const Line& line : block.lines) result.push_back(line.text);
  return result;
}

using Strings = std::vector<std::string>;

class WaysTest : public testing::Test {
 protected:
  Typesetter typesetter;
  std::vector<Block> ways(std::string_view text, int most, std::string_view language = "en") {
    return typesetter.ways(text, andika, language, 1.2, most);
  }
};

TEST_F(WaysTest, One_word_has_one_way) {
  const auto found = ways("Aorta", 3);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(texts(found[0]), Strings{"Aorta"});
  EXPECT_DOUBLE_EQ(found[0].height, found[0].lines[0].ascent + found[0].lines[0].descent);
}

TEST_F(WaysTest, Heights_add_up_with_the_leading) {
  const Block two = ways("Left ventricle", 2).at(1);
  EXPECT_EQ(texts(two), (Strings{"Left", "ventricle"}));
  EXPECT_DOUBLE_EQ(two.leading, 1.2 * andika.size.mm());
  EXPECT_DOUBLE_EQ(two.height, two.lines[0].ascent + two.leading + two.lines[1].descent);
}

TEST_F(WaysTest, Forced_breaks_are_kept_in_every_way) {
  for (const Block& block : ways("Left ventricle\n(ventriculus sinister)", 4)) {
    const Strings lines = texts(block);
    const auto cut = std::find_if(lines.begin(), lines.end(),
                                  [](const std::string& l) { return l.starts_with("("); });
    EXPECT_NE(cut, lines.end());
    EXPECT_NE(cut, lines.begin());
  }
  EXPECT_EQ(texts(ways("a\nb\n\nc\n", 1).at(0)), (Strings{"a", "b", "c"}));
}

TEST_F(WaysTest, A_hyphen_shows_only_where_a_soft_hyphen_breaks) {
  const auto found = ways("ventri\u00adcle", 2);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(texts(found[0]), Strings{"ventricle"});
  EXPECT_EQ(texts(found[1]), (Strings{"ventri-", "cle"}));
  EXPECT_EQ(texts(ways("semi-lunar", 2).at(1)), (Strings{"semi-", "lunar"}));
}

TEST_F(WaysTest, No_break_space_holds_a_label_together) {
  EXPECT_EQ(ways("Left\u00a0ventricle", 3).size(), 1u);
}

TEST_F(WaysTest, Chinese_breaks_between_characters_and_never_before_a_full_stop) {
  const auto found = ways("左心室和右心室。", 2, "zh");
  ASSERT_EQ(found.size(), 2u);
  EXPECT_FALSE(texts(found[1])[1].starts_with("。"));
  EXPECT_GT(texts(found[1])[1].size(), 3u);
}

TEST_F(WaysTest, Every_way_is_narrower_than_the_one_before) {
  const auto found = ways("one two three four five six seven", 7);
  for (std::size_t i = 1; i < found.size(); ++i) EXPECT_LT(found[i].width, found[i - 1].width);
}

TEST_F(WaysTest, Empty_and_blank_texts_have_one_empty_line) {
  for (const char* text : {"", " ", "\n", "\n \n"}) {
    const auto found = ways(text, 3);
    ASSERT_EQ(found.size(), 1u) << text;
    ASSERT_EQ(found[0].lines.size(), 1u);
    EXPECT_EQ(found[0].lines[0].text, "");
    EXPECT_GT(found[0].height, 0);
  }
}

// Every choice of breaks between words, by bit mask.
TEST_F(WaysTest, No_choice_of_breaks_is_less_ragged) {
  std::mt19937 random(7);
  const Strings words = {"a", "of", "left", "valve", "chamber", "ventricle", "semilunar"};
  for (int round = 0; round < 40; ++round) {
    const std::size_t n = 2 + random() % 6;
    Strings text;
    for (std::size_t i = 0; i < n; ++i) text.push_back(words[random() % words.size()]);
    std::string joined;
    for (const std::string& w : text) joined += (joined.empty() ? "" : " ") + w;

    for (const Block& block : ways(joined, 4)) {
      double best_width = 1e9, best_ragged = 1e9;
      for (unsigned mask = 0; mask < 1u << (n - 1); ++mask) {
        Strings lines{text[0]};
        for (std::size_t i = 1; i < n; ++i)
          if (mask >> (i - 1) & 1)
            lines.push_back(text[i]);
          else
            lines.back() += " " + text[i];
        if (lines.size() != block.lines.size()) continue;
        std::vector<double> widths;
        for (const std::string& l : lines)
          widths.push_back(typesetter.line(l, andika, "en").advance);
        const double width = *std::max_element(widths.begin(), widths.end());
        double ragged = 0;
        for (const double w : widths) ragged += (width - w) * (width - w);
        if (width < best_width - 1e-9 || (width < best_width + 1e-9 && ragged < best_ragged))
          best_width = width, best_ragged = ragged;
      }
      double ragged = 0;
      for (const Line& l : block.lines) ragged += std::pow(block.width - l.advance, 2);
      EXPECT_NEAR(block.width, best_width, 1e-9) << joined;
      EXPECT_NEAR(ragged, best_ragged, 1e-6) << joined;
    }
  }
}

TEST_F(WaysTest, A_long_text_of_many_words_still_breaks_well) {
  std::string text;
  for (int i = 0; i < 300; ++i) text += "word" + std::to_string(i) + " ";
  const auto found = ways(text, 3);
  ASSERT_EQ(found.size(), 3u);
  EXPECT_NEAR(found[2].width, found[0].width / 3, found[0].width * 0.02);
}

TEST_F(WaysTest, Monstrous_texts_are_broken_all_the_same) {
  std::string words;
  for (int i = 0; i < 20'000; ++i) words += "word ";
  const auto found = ways(words, 2);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_NEAR(found[1].width, found[0].width / 2, found[0].width * 0.01);
  const Block block = typesetter.paragraph(std::string(50'000, 'm'), andika, "en", 1.2, 100);
  std::size_t letters = 0;
  for (const Line& line : block.lines) letters += line.text.size();
  EXPECT_EQ(letters, 50'000u);
}

TEST_F(WaysTest, A_paragraph_keeps_within_its_width_and_loses_no_word) {
  const std::string text =
      "Write the name of each part on its line. Use the words in the box. Check the spelling.";
  const Block block = typesetter.paragraph(text, andika, "en", 1.3, 60);
  std::string joined;
  for (const Line& line : block.lines) {
    EXPECT_LE(line.advance, 60);
    joined += (joined.empty() ? "" : " ") + line.text;
  }
  EXPECT_EQ(joined, text);
  EXPECT_GT(block.lines.size(), 2u);
  // Greedy: the next word would not have fitted.
  for (std::size_t i = 1; i < block.lines.size(); ++i) {
    const std::string& next = block.lines[i].text;
    const std::string longer = block.lines[i - 1].text + " " + next.substr(0, next.find(' '));
    EXPECT_GT(typesetter.line(longer, andika, "en").advance, 60);
  }
}

TEST_F(WaysTest, A_paragraph_cuts_a_word_that_no_line_holds) {
  const std::string word = "Pneumonoultramicroscopicsilicovolcanoconiosis";
  const Block block = typesetter.paragraph("a " + word + " b", andika, "en", 1.3, 20);
  std::string joined;
  for (const Line& line : block.lines) {
    EXPECT_LE(line.advance, 20);
    joined += line.text;
  }
  EXPECT_EQ(joined, "a" + word + "b");
  EXPECT_EQ(typesetter.paragraph(word, andika, "en", 1.3, 0).lines.size(), word.size());
}

TEST_F(WaysTest, A_paragraph_keeps_forced_breaks_and_blank_lines) {
  EXPECT_EQ(texts(typesetter.paragraph("a\n\nb", andika, "en", 1.3, 50)), (Strings{"a", "", "b"}));
  EXPECT_EQ(typesetter.paragraph("", andika, "en", 1.3, 50).lines.size(), 1u);
}

}  // namespace
}  // namespace platewright::text
