#include "platewright/paper.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <memory>
#include <sstream>

namespace platewright {
namespace {

Paper paper(const std::string& name) {
  const auto found = find_paper(name);
  EXPECT_TRUE(found) << name;
  return found ? *found : Paper{};
}

Paper numbered(std::string series, int n) {
  series += std::to_string(n);
  return paper(series);
}

std::string code_of(std::string_view text) {
  const auto found = find_paper(text);
  return found ? "" : found.findings().front().code;
}

std::string advice_for(std::string_view text) { return find_paper(text).findings().front().advice; }

// ISO 216: each size is the one before cut in half, rounded down to a whole mm.
TEST(Paper, Iso_sizes_are_halves_of_each_other) {
  for (const std::string series : {"a", "b"})
    for (int n = 0; n < 10; ++n) {
      const Paper whole = numbered(series, n);
      const Paper half = numbered(series, n + 1);
      EXPECT_EQ(half.height.mm(), whole.width.mm()) << half.name;
      EXPECT_EQ(half.width.mm(), std::floor(whole.height.mm() / 2)) << half.name;
    }
}

// ISO 216: A0 has 1 m² at a ratio of √2; B0 has a side of 1 m; Bn is the
// geometric mean of An and A(n-1). The rounding leaves 1 mm.
TEST(Paper, Iso_series_begin_with_a_square_metre_and_a_metre) {
  const double root2 = std::sqrt(2.0);
  EXPECT_NEAR(paper("a0").width.mm(), 1000 / std::sqrt(root2), 0.5);
  EXPECT_NEAR(paper("a0").height.mm(), 1000 * std::sqrt(root2), 0.5);
  EXPECT_NEAR(paper("a0").width.mm() * paper("a0").height.mm(), 1e6, 1000);
  EXPECT_EQ(paper("b0").width.mm(), 1000);
  EXPECT_NEAR(paper("b0").height.mm(), 1000 * root2, 0.5);
  for (int n = 1; n <= 6; ++n) {
    const double mean = std::sqrt(numbered("a", n).width.mm() * numbered("a", n - 1).width.mm());
    EXPECT_NEAR(numbered("b", n).width.mm(), mean, 1.0) << n;
  }
  EXPECT_EQ(paper("2a0").width.mm(), paper("a0").height.mm());
  EXPECT_EQ(paper("2a0").height.mm(), 2 * paper("a0").width.mm());
  EXPECT_EQ(paper("4a0").height.mm(), 2 * paper("a0").height.mm());
}

// JIS P 0138: A-ratio with half as much area again as the A size of the number.
TEST(Paper, Japanese_b_sizes_are_half_as_large_again_as_a) {
  for (int n = 0; n <= 6; ++n) {
    const Paper a = numbered("a", n), b = numbered("jis-b", n);
    EXPECT_NEAR(b.width.mm() * b.height.mm() / (a.width.mm() * a.height.mm()), 1.5, 0.02) << n;
  }
  EXPECT_EQ(paper("jis-b4").width.mm(), 257);
  EXPECT_EQ(paper("JIS B5").height.mm(), 257);
}

// ASME Y14.1: each size is the one before doubled; architectural sizes likewise.
TEST(Paper, American_drawing_sizes_double) {
  for (const std::string series : {"ansi-", "arch-"})
    for (char c = 'a'; c < 'e'; ++c) {
      const Paper small = paper(series + c), large = paper(series + static_cast<char>(c + 1));
      EXPECT_NEAR(large.width.in(), small.height.in(), 1e-9) << large.name;
      EXPECT_NEAR(large.height.in(), 2 * small.width.in(), 1e-9) << large.name;
    }
  EXPECT_DOUBLE_EQ(paper("letter").width.in(), 8.5);
  EXPECT_DOUBLE_EQ(paper("legal").height.in(), 14);
  EXPECT_DOUBLE_EQ(paper("arch-d").height.in(), 36);
}

// Debian's libpaper: every paper that its `paperconf` lists, to 0.01 mm.
TEST(Paper, Agrees_with_the_list_of_libpaper) {
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen("paperconf -a -n -s -m", "r"),
                                                             &pclose);
  ASSERT_TRUE(pipe);
  std::string listing;
  for (int c = std::fgetc(pipe.get()); c != EOF; c = std::fgetc(pipe.get()))
    listing += static_cast<char>(c);
  std::istringstream lines(listing);
  std::string name, unit;
  double width = 0, height = 0;
  int count = 0;
  while (lines >> name >> width >> unit >> height >> unit) {
    const Paper ours =
        oriented(paper(name), width > height ? Orientation::landscape : Orientation::portrait);
    EXPECT_NEAR(ours.width.mm(), width, 0.01) << name;
    EXPECT_NEAR(ours.height.mm(), height, 0.01) << name;
    ++count;
  }
  EXPECT_GE(count, 50) << "is libpaper-utils installed?";
}

TEST(Paper, Is_found_however_people_write_it) {
  for (const char* text : {"a4", "A4", " a4 ", "ISO A4", "iso-a4"})
    EXPECT_EQ(paper(text).name, "a4") << text;
  for (const char* text : {"arch-d", "Arch D", "archD", "arch_d"})
    EXPECT_EQ(paper(text).name, "arch-d") << text;
  EXPECT_EQ(paper("Ledger").name, "tabloid");
  EXPECT_EQ(paper("11x17").name, "tabloid");
}

TEST(Paper, Takes_any_size_with_a_unit) {
  EXPECT_DOUBLE_EQ(paper("18x24in").width.mm(), 457.2);
  EXPECT_DOUBLE_EQ(paper("18x24in").height.mm(), 609.6);
  EXPECT_EQ(paper("18x24in").name, "457.2x609.6mm");
  EXPECT_DOUBLE_EQ(paper("300 x 400 mm").height.mm(), 400);
  EXPECT_DOUBLE_EQ(paper("1 ft X 50cm").width.mm(), 304.8);
  EXPECT_DOUBLE_EQ(paper("24in×18in").width.mm(), 609.6);
  EXPECT_DOUBLE_EQ(paper("24in×18in").height.mm(), 457.2);
}

// 14,400 units of 1/72 in: PDF Reference 1.6, appendix C.
TEST(Paper, Refuses_sizes_that_no_pdf_page_has) {
  EXPECT_TRUE(find_paper("200x200in"));
  EXPECT_EQ(code_of("200.01x10in"), "paper-size");
  EXPECT_EQ(code_of("10x10mm"), "paper-size");
  EXPECT_EQ(code_of("-5x10in"), "paper-size");
  EXPECT_EQ(code_of("18x24"), "paper-size");
  EXPECT_EQ(code_of("18x24 parsecs"), "paper-size");
  EXPECT_EQ(code_of("1e999x1mm"), "paper-size");
}

TEST(Paper, Offers_the_nearest_name_to_a_misspelt_one) {
  EXPECT_EQ(code_of("lettre"), "paper-unknown");
  EXPECT_EQ(advice_for("lettre"), "did you mean \"letter\"");
  EXPECT_NE(advice_for("tabliod").find("\"tabloid\""), std::string::npos);
  EXPECT_NE(advice_for("blackboard").find("platewright papers"), std::string::npos);
  EXPECT_EQ(code_of(""), "paper-unknown");
}

TEST(Paper, Turns_and_keeps_its_area) {
  const Paper wide = oriented(paper("a4"), Orientation::landscape);
  EXPECT_DOUBLE_EQ(wide.width.mm(), 297);
  EXPECT_DOUBLE_EQ(oriented(wide, Orientation::portrait).width.mm(), 210);
  EXPECT_DOUBLE_EQ(oriented(wide, Orientation::automatic).width.mm(), 297);
  EXPECT_DOUBLE_EQ(oriented(wide, Orientation::landscape).width.mm(), 297);
}

TEST(Paper, Names_are_unique_and_upright) {
  for (const Paper& one : papers()) {
    EXPECT_LE(one.width, one.height) << one.name;
    EXPECT_EQ(paper(one.name).width, one.width) << one.name;
    EXPECT_FALSE(one.standard.empty()) << one.name;
  }
}

}  // namespace
}  // namespace platewright
