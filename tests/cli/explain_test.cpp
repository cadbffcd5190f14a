// The drawing of a solve says what the report says.
#include <gtest/gtest.h>

#include <cstdio>
#include <regex>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"

namespace {

// The words of an SVG file's text elements, tags dropped, blanks between lines.
std::string text_words(const std::string& svg) {
  std::string words;
  const std::regex text("<text[^>]*>([^<]*(?:<tspan[^>]*>[^<]*</tspan>[^<]*)*)</text>");
  for (std::sregex_iterator i(svg.begin(), svg.end(), text), end; i != end; ++i)
    words += std::regex_replace((*i)[1].str(), std::regex("<[^>]*>"), "") + " ";
  return words;
}

std::vector<std::string> all(const std::string& json, const std::string& pattern) {
  std::vector<std::string> found;
  const std::regex one(pattern);
  for (std::sregex_iterator i(json.begin(), json.end(), one), end; i != end; ++i)
    found.push_back((*i)[1]);
  return found;
}

TEST(Explain, Draws_each_label_with_the_bounds_and_witnesses_of_the_report) {
  const support::Scratch scratch;
  const auto made = support::platewright(
      {"sheet", support::demo_svg("heart"), "--terms", support::demo_terms("heart"), "--set",
       "upper", "--kind", "poster", "--paper", "letter", "--out", scratch / "heart.pdf", "--report",
       scratch / "heart.json", "--explain", scratch / "why.svg"});
  ASSERT_EQ(made.code, 0) << made.said();
  const std::string report = support::bytes_of(scratch / "heart.json");
  const std::string svg = support::bytes_of(scratch / "why.svg"), words = text_words(svg);
  const auto anchors = all(report, "\"anchor\": *\"([^\"]+)\"");
  ASSERT_GE(anchors.size(), 20U);
  for (const std::string& anchor : anchors)
    EXPECT_NE(words.find(anchor + ", "), std::string::npos) << anchor << " in\n" << words;
  const auto costs = all(report, "\"cost\": *([0-9.]+)");
  ASSERT_FALSE(costs.empty());
  char cost[32];
  std::snprintf(cost, sizeof cost, "%.1f", std::stod(costs.front()));
  EXPECT_NE(words.find(std::string(cost).substr(0, std::string(cost).find('.') + 1)),
            std::string::npos)
      << cost << " in\n" << words;
  const auto witnesses = all(report, "\"witness\": *\"([^\"]+)\"");
  ASSERT_FALSE(witnesses.empty());
  for (const std::string& witness : witnesses)
    EXPECT_NE(words.find(witness.substr(0, 20)), std::string::npos) << witness << " in\n" << words;
}

TEST(Report, Says_why_lines_to_write_on_stand_in_a_list) {
  const support::Scratch scratch;
  const auto report_of = [&](const std::string& figure, const std::string& set,
                             const std::string& kind, const std::string& paper) {
    const auto made = support::platewright({"sheet", support::demo_svg(figure), "--terms",
                                            support::demo_terms(figure), "--set", set, "--kind",
                                            kind, "--paper", paper, "--out", scratch / "sheet.pdf",
                                            "--fresh", "--report", scratch / "sheet.json"});
    EXPECT_EQ(made.code, 0) << made.said();
    return support::bytes_of(scratch / "sheet.json");
  };
  const std::string heart = report_of("heart", "middle", "worksheet", "letter");
  EXPECT_NE(heart.find("\"ruled-list\""), std::string::npos);
  EXPECT_NE(heart.find("16 blanks, "), std::string::npos);
  EXPECT_NE(report_of("heart", "middle", "copywork", "letter").find("words to trace and copy"),
            std::string::npos);
  EXPECT_EQ(report_of("heart", "middle", "poster", "letter").find("ruled-list"), std::string::npos);
  // Lying, the blanks find room beside a tooth that is hardly smaller than on the upright page.
  const std::string tooth = report_of("tooth", "upper", "worksheet", "a3");
  EXPECT_EQ(tooth.find("ruled-list"), std::string::npos);
  EXPECT_NE(tooth.find("\"blanks_beside\":true"), std::string::npos);
  EXPECT_NE(tooth.find("\"width\":420"), std::string::npos);
}

}  // namespace
