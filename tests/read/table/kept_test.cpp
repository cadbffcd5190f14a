#include "read/kept.hpp"

#include <gtest/gtest.h>

namespace platewright::read {
namespace {

const std::string report = R"({
"figure": "heart.svg",
"sheets": [{"set": "upper", "fallbacks": [{"step": "rows", "witness": "full"}],
"kept": {"style": "classroom", "paper": [210, 297], "scale": 0.25, "origin": [10.5, -3],
"text_pt": 12, "blanks_beside": false, "copy_beside": false, "blank_lines": 1, "list_height": 0,
"optimal": true, "cost": 5, "bound": 5, "gap": 0, "polished_cost": 4, "continuous_bound": 3,
"continuous_gap": 0.25, "labels": [{"anchor": "aorta", "text": "Aorta: \"great\"", "side": "left",
"port": [30, 0.1000000000000000055], "target": [90, 55.25], "size": [20, 6], "as_number": false}]}}]})";

TEST(Kept, Reads_a_report_back_to_the_last_digit) {
  const auto kept = kept_sheet(report);
  ASSERT_TRUE(kept);
  EXPECT_EQ(kept->figure, "heart.svg");
  EXPECT_EQ(kept->set, "upper");
  EXPECT_EQ(kept->figure_to_page, (FigureToPage{0.25, {10.5, -3}}));
  EXPECT_EQ(kept->certificate.status, SolveStatus::optimal);
  EXPECT_EQ(kept->fallbacks.front().witness, "full");
  ASSERT_EQ(kept->labels.size(), 1u);
  EXPECT_EQ(kept->labels[0].text, "Aorta: \"great\"");
  EXPECT_EQ(kept->labels[0].port, (PagePoint{30, 0.1}));
  EXPECT_EQ(kept->labels[0].targets.front(), (PagePoint{90, 55.25}));
}

TEST(Kept, Takes_nothing_from_what_is_no_report) {
  for (const std::string other : {"", "[]", "{}", "not: a report", "{\"sheets\": [1, 2]}", "\xff\xfe",
                                  "{\"sheets\": [{\"kept\": {}}]}"})
    EXPECT_FALSE(kept_sheet(other)) << other;
  // Cut short anywhere, it is none either.
  for (std::size_t end = 0; end + 1 < report.size(); end += 7)
    EXPECT_FALSE(kept_sheet(report.substr(0, end))) << end;
}

TEST(Kept, Takes_nothing_from_a_report_with_a_field_of_the_wrong_kind) {
  for (const auto& [from, to] :
       {std::pair<std::string, std::string>{"\"scale\": 0.25", "\"scale\": 0"},
        {"\"scale\": 0.25", "\"scale\": \"wide\""}, {"[10.5, -3]", "[10.5]"},
        {"\"side\": \"left\"", "\"side\": \"nowhere\""}, {"\"size\": [20, 6], ", ""}}) {
    std::string wrong = report;
    wrong.replace(wrong.find(from), from.size(), to);
    EXPECT_FALSE(kept_sheet(wrong)) << to;
  }
}

}  // namespace
}  // namespace platewright::read
