// Blanks have room for the reader's hand: (letters of the longest answer + 1)
// times the pitch of the age. Pitch by age, common practice: 4-5 years 14 mm, 6
// 10 mm, 7 8 mm, 8 6.5 mm, 9-10 5.5 mm, from 11 4.5 mm.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <pugixml.hpp>

#include "engine/outcome.hpp"
#include "support/words.hpp"

namespace engine_test {
namespace {

struct Reader {
  int age;
  double pitch;    // mm
  double ruling;   // mm, baseline to top line: 1, 3/4, 5/8, 1/2, 3/8 in, wide ruling 11/32 in
};
const Reader readers[] = {{4, 14, 25.4},   {5, 14, 19.05},  {6, 10, 15.875}, {7, 8, 12.7},
                          {8, 6.5, 9.525}, {10, 5.5, 9.525}, {12, 4.5, 8.73125}};

struct Line {
  double left, right, y;
};

// Horizontal strokes within the groups of one class, straight off the path data.
void collect(const pugi::xml_node& node, bool inside, std::vector<Line>& lines) {
  for (const pugi::xml_node& child : node.children()) {
    const std::string role = child.attribute("class").value();
    if (role == "pw-figure") continue;
    if (inside && std::string(child.name()) == "path") {
      double x1, y1, x2, y2;
      if (std::sscanf(child.attribute("d").value(), "M%lf %lfL%lf %lf", &x1, &y1, &x2, &y2) == 4 &&
          y1 == y2)
        lines.push_back({std::min(x1, x2), std::max(x1, x2), y1});
    }
    collect(child, inside || role == "pw-ruling", lines);
  }
}

TEST(Blanks, Are_as_wide_as_the_longest_answer_needs_in_the_readers_hand) {
  // Ten letters are the longest; the umlaut is one letter, and so is the combining one.
  for (const Reader& reader : readers) {
    const Place place;
    support::write(place.figure("plain.svg"), plain_figure());
    support::write(place.figure("t.terms.yaml"),
                   "sets:\n  a: {ages: " + std::to_string(reader.age) + "-" +
                       std::to_string(reader.age) +
                       ", language: en}\nterms:\n  left-half: {a: \"Zehnbu\\u0308chst\"}\n"
                       "  right-half: {a: Arm}\n");
    const support::Finished done = support::platewright(
        {"sheet", place.figure("plain.svg"), "--terms", place.figure("t.terms.yaml"), "--kind",
         "worksheet", "--paper", "a2", "--out", place.out(""), "--format", "svg"});
    ASSERT_EQ(done.code, 0) << done.said();
    std::vector<Line> lines;
    for (const auto& [name, bytes] : support::contents(place.path() / "out")) {
      pugi::xml_document document;
      ASSERT_TRUE(document.load_string(bytes.c_str()));
      collect(document, false, lines);
    }
    ASSERT_FALSE(lines.empty()) << reader.age;
    for (const Line& line : lines)
      EXPECT_NEAR(line.right - line.left, 11 * reader.pitch, 0.01) << reader.age;
    if (reader.ruling < 12.69) continue;  // bigger hands write on a bare line
    // Baseline and dashed midline and top line: half a ruling apart.
    std::vector<double> heights;
    for (const Line& line : lines) heights.push_back(line.y);
    std::sort(heights.begin(), heights.end());
    ASSERT_GE(heights.size(), 3U) << reader.age;
    double least = 1e9;
    for (std::size_t i = 1; i < heights.size(); ++i)
      if (heights[i] - heights[i - 1] > 0.01) least = std::min(least, heights[i] - heights[i - 1]);
    EXPECT_NEAR(least, reader.ruling / 2, 0.01) << reader.age;
  }
}

}  // namespace
}  // namespace engine_test
