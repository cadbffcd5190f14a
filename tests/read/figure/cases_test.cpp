// Each file in cases/ is named for what it is; here stands what becomes of it.
#include <filesystem>
#include <map>

#include "reading.hpp"

namespace platewright::read {
namespace {

using Codes = std::vector<std::string>;

const std::map<std::string, Codes>& expected() {
  static const std::map<std::string, Codes> table = {
      {"anchor-in-unused-defs.svg", {"anchor-unseen"}},
      {"anchor-name-with-space.svg", {"anchor-name"}},
      {"anchor-twice.svg", {"anchor-duplicate"}},
      {"animation.svg", {"svg-animation"}},
      {"blur-without-measure.svg", {"svg-filter"}},
      {"control-character.svg", {"xml-malformed"}},
      {"convolution-of-a-thousand.svg", {"svg-filter"}},
      {"coordinates-huge.svg", {}},
      {"css-reaches-outside.svg", {"css-import", "css-rule", "css-value"}},
      {"css-targets-text.svg", {}},
      {"dashes-without-end.svg", {}},
      {"duplicate-ids.svg", {"id-duplicate"}},
      {"empty.svg", {"svg-empty"}},
      {"entity-bomb.svg", {"entity-bomb"}},
      {"entity-external-file.svg", {"entity-external"}},
      {"entity-holds-elements.svg", {"entity-markup"}},
      {"entity-namespace.svg", {"svg-foreign"}},
      {"entity-parameter.svg", {}},
      {"entity-quadratic.svg", {"entity-bomb"}},
      {"entity-recursive.svg", {"entity-bomb"}},
      {"entity-unknown.svg", {"entity-unknown"}},
      {"gzip.svgz", {"svg-compressed"}},
      {"html-root.svg", {"svg-missing"}},
      {"image-absolute.svg", {"image-outside"}},
      {"image-beside.svg", {}},
      {"image-climbs-out.svg", {"image-outside"}},
      {"image-embedded-svg.svg", {"image-svg"}},
      {"image-embedded.svg", {}},
      {"image-encoded-climb.svg", {"image-outside"}},
      {"image-file-address.svg", {"image-outside"}},
      {"image-http.svg", {"image-remote", "image-remote"}},
      {"image-missing.svg", {"image-missing"}},
      {"image-ten-thousand-million-pixels.svg", {"image-large"}},
      {"image-text-as-png.svg", {"image-broken"}},
      {"latin1-undeclared.svg", {"encoding-invalid"}},
      {"latin1.svg", {}},
      {"mask-of-itself.svg", {}},
      {"mask-on-thousands.svg", {"figure-heavy"}},
      {"morphology-without-measure.svg", {"svg-filter"}},
      {"no-namespace.svg", {"svg-namespace"}},
      {"no-viewbox-millimetres.svg", {}},
      {"no-viewbox-no-size.svg", {}},
      {"no-viewbox-percent.svg", {}},
      {"not-xml.svg", {"xml-malformed"}},
      {"only-outside-viewbox.svg", {"figure-empty"}},
      {"paints-nothing.svg", {"figure-empty"}},
      {"path-of-nonsense.svg", {}},
      {"pattern-explosion.svg", {"use-explosion"}},
      {"pattern-of-ten-thousand.svg", {"figure-undrawable"}},
      {"plain.svg", {}},
      {"prefixed-namespace.svg", {}},
      {"script-and-handlers.svg", {"svg-handler", "svg-link", "svg-script"}},
      {"script-in-cdata-style.svg", {"css-rule"}},
      {"script-in-xhtml.svg", {"svg-foreign", "svg-script"}},
      {"shift-jis.svg", {"encoding-unknown"}},
      {"size-no-length.svg", {"figure-size"}},
      {"stylesheet-instruction.svg", {"svg-instruction"}},
      {"turbulence-of-a-million-octaves.svg", {"svg-filter"}},
      {"two-roots.svg", {"xml-malformed"}},
      {"unclosed-tag.svg", {"xml-malformed"}},
      {"use-cycle-of-three.svg", {"use-cycle"}},
      {"use-explosion.svg", {"use-explosion"}},
      {"use-external.svg", {"svg-reference"}},
      {"use-itself.svg", {"use-cycle"}},
      {"use-of-nothing.svg", {"use-missing"}},
      {"utf16-be.svg", {}},
      {"utf16-le.svg", {}},
      {"utf8-bom.svg", {}},
      {"viewbox-huge.svg", {"figure-size"}},
      {"viewbox-infinite.svg", {"viewbox-invalid"}},
      {"viewbox-nan.svg", {"viewbox-invalid"}},
      {"viewbox-negative.svg", {"figure-size"}},
      {"viewbox-of-words.svg", {"viewbox-invalid"}},
      {"viewbox-thread.svg", {"figure-size"}},
      {"viewbox-zero.svg", {"figure-size"}},
  };
  return table;
}

const std::string cases_folder = PW_SOURCE_DIR "/tests/read/figure/cases/";

std::vector<std::string> files() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(cases_folder))
    if (entry.is_regular_file()) names.push_back(entry.path().filename().string());
  std::ranges::sort(names);
  return names;
}

class Case : public testing::TestWithParam<std::string> {};

TEST_P(Case, Ends_as_foretold_and_leaves_nothing_that_runs_or_reaches_out) {
  const std::string path = cases_folder + GetParam();
  const auto bytes = file_bytes(path, 64u << 20);
  ASSERT_TRUE(bytes.ok()) << texts(bytes.findings());
  const auto result = figure(*bytes, path, {});
  const auto outcome = expected().find(GetParam());
  ASSERT_NE(outcome, expected().end()) << "write down what is to become of it";
  EXPECT_EQ(codes(result.findings()), outcome->second) << texts(result.findings());
  EXPECT_EQ(result.ok(), !has_error(result.findings()));
  // No message shows what a foreign file holds.
  EXPECT_EQ(texts(result.findings()).find("secret-content"), std::string::npos);
  EXPECT_EQ(texts(result.findings()).find("root:"), std::string::npos);
  if (!result.ok()) return;
  for (const char* word :
       {"<script", "javascript", "onclick", "onload", "ONLOAD", "foreignObject", "http://127",
        "file:", "@import", "<!", "<?", "anchor-", "animate", "expression", "secret"})
    EXPECT_EQ(result->svg.find(word), std::string::npos) << word << " in " << result->svg;
}

INSTANTIATE_TEST_SUITE_P(Figure, Case, testing::ValuesIn(files()), [](const auto& one) {
  std::string name = one.param.substr(0, one.param.find('.'));
  std::ranges::replace(name, '-', '_');
  return name;
});

TEST(Figure_cases, All_files_that_are_named_here_are_there) {
  const std::vector<std::string> there = files();
  for (const auto& [name, outcome] : expected())
    EXPECT_TRUE(std::ranges::binary_search(there, name)) << name;
}

TEST(Figure_cases, Titles_survive_every_encoding) {
  for (const char* name : {"utf16-le.svg", "utf16-be.svg", "latin1.svg"}) {
    const auto bytes = file_bytes(cases_folder + name, 1 << 20);
    const auto result = figure(*bytes, name, {});
    ASSERT_TRUE(result.ok()) << name;
    EXPECT_EQ(result->title, "Größe") << name;
  }
}

TEST(Figure_cases, A_place_counts_lines_and_characters) {
  const auto result = read_svg(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 "
      "9\">\r\n<title>Größe</title><g></h></svg>");
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.findings().front().at.line, 2);
  // By hand: <title>Größe</title><g></h> has its "</h" at characters 24 to 26, the name at 26.
  EXPECT_NEAR(result.findings().front().at.column, 25, 1);
}

}  // namespace
}  // namespace platewright::read
