// Versions of a figure: parts hidden and shown, classes tinted.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "read/read.hpp"

namespace {

using platewright::FigureVersion;

const std::string svg = R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">
<rect id="skin" class="skin pale" x="10" y="10" width="40" height="40" fill="#ffccaa" data-anchor="skin"/>
<g id="hair"><rect x="60" y="10" width="30" height="30" fill="#552200" data-anchor="hair"/>
<circle id="anchor-curl" cx="70" cy="20" r="1"/></g>
<g id="hat" display="none"><rect x="60" y="60" width="30" height="30" fill="#0000ff"/></g>
<rect id="shoe" x="10" y="70" width="20" height="20"/>
</svg>)";

platewright::Result<platewright::Figure> read(const FigureVersion& version,
                                              std::vector<platewright::AddedAnchor> added = {}) {
  return platewright::read::figure(svg, "f.svg", added, {}, &version);
}

// What a square of 2 units about a point prints in.
bool painted(const platewright::Figure& figure, double x, double y) {
  const platewright::FigureGrid& grid = figure.silhouette;
  return grid.at(static_cast<int>((x - grid.box.x) / grid.cell),
                 static_cast<int>((y - grid.box.y) / grid.cell)) != 0;
}

std::string code(const platewright::Findings& findings) {
  return findings.empty() ? "" : findings.front().code;
}

TEST(Figure_version, Hides_a_part_and_its_anchors_and_says_which) {
  FigureVersion version;
  version.hide = {{"hair", {}}};
  const auto figure = read(version);
  ASSERT_TRUE(figure.ok()) << to_text(figure.findings().front());
  EXPECT_FALSE(painted(*figure, 75, 25));
  EXPECT_TRUE(painted(*figure, 30, 30));
  EXPECT_THAT(figure->hidden, testing::ElementsAre("curl", "hair"));
  EXPECT_EQ(figure->find("hair"), nullptr);
  EXPECT_NE(figure->find("skin"), nullptr);
}

TEST(Figure_version, Hides_the_anchors_that_a_table_adds_to_a_hidden_part) {
  FigureVersion version;
  version.hide = {{"shoe", {}}};
  const auto figure = read(version, {{"boot", {}, "shoe", {}}});
  ASSERT_TRUE(figure.ok()) << to_text(figure.findings().front());
  EXPECT_THAT(figure->hidden, testing::ElementsAre("boot"));
}

TEST(Figure_version, Shows_what_the_figure_hides) {
  FigureVersion version;
  EXPECT_FALSE(painted(*read(version), 75, 75));
  version.show = {{"hat", {}}};
  EXPECT_TRUE(painted(*read(version), 75, 75));
}

TEST(Figure_version, Tints_a_class_and_nothing_else) {
  FigureVersion version;
  version.tints = {{{"skin", {}}, {0x8a, 0x5a, 0x3c}}};
  const auto plain = platewright::read::figure(svg, "f.svg", {});
  ASSERT_TRUE(plain.ok());
  const auto tinted = platewright::read::tinted_art(*plain, version, "f.svg");
  ASSERT_TRUE(tinted.ok());
  EXPECT_THAT(*tinted, testing::HasSubstr(".skin{fill:#8a5a3c !important}"));
  EXPECT_THAT(plain->svg, testing::Not(testing::HasSubstr("8a5a3c")));
}

TEST(Figure_version, Names_ids_and_classes_that_the_figure_lacks) {
  FigureVersion version;
  version.hide = {{"hare", {"p.yaml", 3, 4}}};
  const auto unknown = read(version);
  EXPECT_EQ(code(unknown.findings()), "version-id-unknown");
  EXPECT_EQ(unknown.findings().front().at.line, 3);
  EXPECT_THAT(unknown.findings().front().advice, testing::HasSubstr("hair"));
  version.hide.clear();
  version.tints = {{{"skn", {}}, {}}};
  EXPECT_EQ(code(read(version).findings()), "version-class-unknown");
}

TEST(Figure_version, Escapes_names_that_css_would_read_otherwise) {
  FigureVersion version;
  version.tints = {{{"pale}*{fill:red", {}}, {}}};
  EXPECT_EQ(code(read(version).findings()), "version-class-unknown");
}

}  // namespace
