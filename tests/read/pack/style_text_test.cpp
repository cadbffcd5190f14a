// What kept work depends on: styles as text, digests, images beside a figure.
#include <gtest/gtest.h>

#include "read/read.hpp"

namespace {

TEST(Style_text, Changes_with_every_kind_of_value) {
  const platewright::Style plain;
  const std::string text = platewright::read::style_text(plain);
  const auto differs = [&](const auto& change) {
    platewright::Style style;
    change(style);
    return platewright::read::style_text(style) != text;
  };
  using platewright::Length;
  using platewright::Style;
  EXPECT_TRUE(differs([](Style& s) { s.page.margin = Length::mm(13); }));
  EXPECT_TRUE(differs([](Style& s) { s.cost.slope += 1e-6; }));
  EXPECT_TRUE(differs([](Style& s) { s.type.most_lines = 2; }));
  EXPECT_TRUE(differs([](Style& s) { s.page.footer = false; }));
  EXPECT_TRUE(differs([](Style& s) { s.leader.colour = {1, 2, 3}; }));
  EXPECT_TRUE(differs([](Style& s) { s.leader.mark = platewright::LeaderMark::none; }));
  EXPECT_TRUE(differs([](Style& s) { s.type.face = "Other"; }));
  EXPECT_TRUE(differs([](Style& s) { s.type.further_faces.pop_back(); }));
  EXPECT_TRUE(differs([](Style& s) { s.ages[2].pitch = Length::mm(9); }));
  EXPECT_TRUE(differs([](Style& s) { s.puzzles[0].grid += 1; }));
  EXPECT_TRUE(differs([](Style& s) { s.outline_art = true; }));
  EXPECT_FALSE(differs([](Style& s) { s.name = "another"; }));
}

// FIPS 180-4's examples, from memory: the empty text and "abc".
TEST(Digest, Is_sha_256) {
  EXPECT_EQ(platewright::read::sha256(""),
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(platewright::read::sha256("abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Images, Of_a_figure_are_those_that_lie_beside_it) {
  const std::string folder = std::string(PW_SOURCE_DIR) + "/tests/read/figure/cases/";
  const auto files = platewright::read::image_files(
      "<svg xmlns='http://www.w3.org/2000/svg'><image href='beside/dot.png'/>"
      "<image href='beside/none.png'/><use href='#a'/><image href='data:image/png;base64,'/></svg>",
      folder + "f.svg");
  ASSERT_EQ(files.size(), 1U);
  EXPECT_EQ(files.front(), folder + "beside/dot.png");
}

}  // namespace
