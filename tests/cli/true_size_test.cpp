// True size from the outside: the report, and the ruler and figure as the
// finished PDF has them.
#include <gtest/gtest.h>

#include <cmath>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using support::between;
using support::contains;
using support::number;

std::string child(const std::string& out, std::vector<std::string> more, std::string* report) {
  const support::Scratch scratch;
  std::vector<std::string> arguments{"truesize", support::demo_svg("child"), "--paper", "letter",
                                     "--out",    out,                        "--report",
                                     scratch / "r.json"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  const auto done = support::platewright(arguments);
  EXPECT_EQ(done.code, 0) << done.said();
  *report = support::bytes_of(scratch / "r.json");
  return done.err;
}

double value(const std::string& json, const std::string& key) {
  const std::string rest = between(json + ",", "\"" + key + "\":", ",").front();
  return number(rest.substr(0, rest.find_first_of("}]")));
}

TEST(True_size, Takes_the_length_from_age_and_sex) {
  const support::Scratch scratch;
  std::string report;
  child(scratch / "c.pdf", {"--age", "6", "--sex", "girl"}, &report);
  EXPECT_NEAR(value(report, "mm"), 1147, 0.5);  // 114.7 cm, CDC 2000
}

// 158.8 cm: the 90th percentile of boys of 12 years, CDC 2000. Nothing there is average.
TEST(True_size, Says_of_which_percentile_it_is_with_the_decimal_mark_of_the_language) {
  const support::Scratch scratch;
  const auto words = [&](const std::string& verb, const std::string& set,
                         std::vector<std::string> more) {
    const std::string out = scratch / "c.pdf";
    std::vector<std::string> arguments{verb,      support::demo_svg("child"),
                                       "--terms", support::demo_terms("child"),
                                       "--set",   set,
                                       "--out",   out};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const auto done = support::platewright(arguments);
    EXPECT_EQ(done.code, 0) << done.said();
    return support::folded(support::run({"pdftotext", "-layout", out, "-"}).out);
  };
  const std::vector<std::string> tall{"--age", "12", "--sex", "boy", "--percentile", "90"};
  const std::string german = words("truesize", "mitte", tall);
  EXPECT_TRUE(support::contains(german, "158,8 cm")) << german.substr(0, 900);
  EXPECT_TRUE(support::contains(german, "Perzentile 90")) << german.substr(0, 900);
  EXPECT_FALSE(support::contains(german, "urchschnittlich")) << german.substr(0, 900);
  const std::string english = words("truesize", "middle", tall);
  EXPECT_TRUE(support::contains(english, "158.8 cm")) << english.substr(0, 900);
  EXPECT_TRUE(support::contains(english, "Percentile 90")) << english.substr(0, 900);
  EXPECT_FALSE(support::contains(english, "Average")) << english.substr(0, 900);
  const std::string average = words("truesize", "mitte", {"--age", "6.5", "--sex", "boy"});
  EXPECT_TRUE(support::contains(average, "Durchschnittliche Größe mit 6,5 Jahren"))
      << average.substr(0, 900);
  const std::string pieces = words("pieces", "mitte", {"--stature", "118.5cm", "--factor", "1.5"});
  EXPECT_TRUE(support::contains(pieces, "118,5 cm × 1,5")) << pieces.substr(0, 900);
}

TEST(True_size, Needs_fewer_sheets_than_the_bounding_box) {
  const support::Scratch scratch;
  std::string report;
  child(scratch / "c.pdf", {"--stature", "115cm", "--overlap", "12mm"}, &report);
  EXPECT_LT(value(report, "sheets"), value(report, "box_sheets"));
  EXPECT_NEAR(value(report, "mm"), 1150, 1e-6);
  // The scale is in mm for one unit; crown and sole are 1150 units apart.
  EXPECT_NEAR(value(report, "scale") * 1150, 1150, 0.1);
  const auto from = support::split(between(report, "\"from_at\":[", "]").front(), ',');
  const auto to = support::split(between(report, "\"to_at\":[", "]").front(), ',');
  EXPECT_NEAR(std::hypot(number(to[0]) - number(from[0]), number(to[1]) - number(from[1])), 1150,
              0.1);
}

TEST(True_size, Has_a_ruler_of_100_mm_on_every_sheet_and_scaling_off) {
  const support::Scratch scratch;
  std::string report;
  child(scratch / "c.pdf", {"--stature", "115cm"}, &report);
  const auto rulers = between(report, "\"cm\":[[", "]]");
  EXPECT_EQ(rulers.size(), static_cast<std::size_t>(value(report, "sheets")) + 1);
  for (const std::string& ruler : rulers) {
    const auto ends = support::split(support::replaced(ruler, "],[", ","), ',');
    EXPECT_NEAR(std::hypot(number(ends[2]) - number(ends[0]), number(ends[3]) - number(ends[1])),
                100, 0.1);
  }
  const auto qdf = support::run({"qpdf", "--qdf", "--object-streams=disable", scratch / "c.pdf", "-"});
  EXPECT_TRUE(contains(qdf.out, "/PrintScaling /None"));
  EXPECT_EQ(support::run({"qpdf", "--check", scratch / "c.pdf"}).code, 0);
}

TEST(True_size, Stores_the_figure_once) {
  const support::Scratch scratch;
  std::string report;
  child(scratch / "many.pdf", {"--stature", "115cm"}, &report);
  const double sheets = value(report, "sheets");
  // One sheet: the same figure small enough for one.
  child(scratch / "one.pdf", {"--stature", "20cm"}, &report);
  ASSERT_EQ(value(report, "sheets"), 1);
  const double many = static_cast<double>(support::bytes_of(scratch / "many.pdf").size());
  const double one = static_cast<double>(support::bytes_of(scratch / "one.pdf").size());
  EXPECT_LE(many, 1.3 * one + 3000 * sheets);
}

TEST(True_size, Refuses_two_lengths_none_and_ages_outside_the_table) {
  const support::Scratch scratch;
  for (const std::vector<std::string>& more : std::vector<std::vector<std::string>>{
           {"--age", "6", "--stature", "118cm"}, {}, {"--age", "1"}, {"--age", "21"},
           {"--between", "crown,nowhere=118cm"}, {"--between", "crown,sole=118"}}) {
    std::vector<std::string> arguments{"truesize", support::demo_svg("child"), "--out",
                                       scratch / "c.pdf"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const auto done = support::platewright(arguments);
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(contains(done.err, "error[")) << done.said();
  }
  EXPECT_TRUE(support::contents(scratch.path()).empty());
}

TEST(Pieces, Stay_near_the_bound_by_area_and_name_every_part) {
  const support::Scratch scratch;
  for (const std::string paper : {"letter", "a4"}) {
    const auto done = support::platewright(
        {"pieces", support::demo_svg("child"), "--age", "6", "--sex", "girl", "--terms",
         support::demo_terms("child"), "--set", "middle", "--paper", paper, "--out",
         scratch / "p.pdf", "--report", scratch / "p.json"});
    ASSERT_EQ(done.code, 0) << done.said();
    const std::string report = support::bytes_of(scratch / "p.json");
    EXPECT_LE(value(report, "pages"), 1.35 * value(report, "bound")) << paper;
    // Pieces lie turned, and pdftotext reads turned type letter by letter.
    std::string text;
    for (const char c : support::run({"pdftotext", "-raw", scratch / "p.pdf", "-"}).out)
      if (c != ' ' && c != '\n') text += c;
    for (const std::string name : {"Brain", "Heart", "Liver", "Stomach"})
      EXPECT_TRUE(contains(text, name)) << name;
  }
}

// Ends that lie on other sheets would have no leader from one label.
TEST(True_size, Labels_every_end_of_a_forked_anchor) {
  const support::Scratch scratch;
  support::write(
      scratch / "hand.yaml",
      "sets: {a: {ages: 7-10, language: en}}\n"
      "terms: {ends: {a: Fingertip}, middle: {a: Middle}}\n"
      "anchors: {ends: {at: [[20, 20], [180, 30], [100, 180]]}, middle: {at: [100, 100]}, "
      "top: {at: [100, 0]}, foot: {at: [100, 200]}}\n");
  support::write(scratch / "hand.svg",
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 200 200\">"
                 "<circle cx=\"100\" cy=\"100\" r=\"100\" fill=\"#e8c9a0\"/></svg>");
  const auto done =
      support::platewright({"truesize", scratch / "hand.svg", "--terms", scratch / "hand.yaml",
                            "--set", "a", "--between", "top,foot=60cm", "--paper", "a4", "--out",
                            scratch / "out.pdf", "--report", scratch / "out.json"});
  ASSERT_EQ(done.code, 0) << done.said();
  const std::string report = support::bytes_of(scratch / "out.json");
  std::size_t ends = 0;
  for (std::size_t at = 0; (at = report.find("\"anchor\":\"ends\"", at)) != std::string::npos; ++at)
    ++ends;
  EXPECT_EQ(ends, 3U) << report;
}

}  // namespace
