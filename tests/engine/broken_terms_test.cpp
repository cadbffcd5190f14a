// Tables of terms that are odd, broken or mean harm, given to the whole program.
#include <gtest/gtest.h>

#include "engine/outcome.hpp"
#include "support/repeated.hpp"
#include "support/words.hpp"

namespace engine_test {
namespace {

struct Table {
  std::string name;
  support::Late bytes;
  int wanted = 1;           // exit code
  std::string code = {};    // of a finding that must be among them
  std::string file = "t.terms.yaml";
};

std::string with_terms(const std::string& rows) {
  return "sets:\n  middle: {ages: 7-10, language: en}\nterms:\n" + rows;
}

std::vector<Table> tables() {
  std::string bomb = "a0: &a0 [x,x,x,x,x,x,x,x,x,x]\n";
  for (int i = 1; i < 12; ++i)
    bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" +
            support::repeated("*a" + std::to_string(i - 1) + ", ", 10) + "]\n";
  const auto many = [] {
    std::string rows;
    for (int i = 0; i < 3000; ++i) rows += "  t" + std::to_string(i) + ": {middle: T}\n";
    return with_terms(rows);
  };
  const std::string good = with_terms("  left-half: {middle: Left half}\n");
  return {
      {"good", good, 0},
      {"empty", ""},
      {"scalar", "just some words\n"},
      {"number", "42\n"},
      {"list", "- a\n- b\n"},
      {"null-byte", std::string("sets:\0x", 7)},
      {"bomb", bomb, 1, "yaml-alias"},
      {"ring", "terms: &t {a: *t}\n", 1, "yaml-alias"},
      {"deep", [] { return support::repeated("[", 100'000); }},
      {"deep-blocks", [] { return support::repeated("- ", 100'000); }},
      {"megabytes-of-text", [] { return "title: \"" + std::string(5u << 20, 'x') + "\"\n"; }},
      {"latin1", with_terms("  left-half: {middle: \"Gr\xf6\xdf" "e\"}\n")},
      {"utf16", std::string("\xff\xfes\0e\0t\0s\0:\0", 12)},
      {"bom", "\xef\xbb\xbf" + good, 0},
      {"crlf", support::replaced(good, "\n", "\r\n"), 0},
      {"tabs", "sets:\n\tmiddle: {ages: 7-10}\n"},
      {"unclosed", "sets: {middle: {ages: 7-10\n"},
      {"duplicate-set", "sets:\n  middle: {ages: 7-10}\n  middle: {ages: 4-6}\nterms: {}\n"},
      {"duplicate-row", with_terms("  left-half: {middle: A}\n  left-half: {middle: B}\n")},
      {"unknown-key", good + "colour: red\n"},
      {"unknown-set-in-a-row", with_terms("  left-half: {medium: A}\n")},
      {"unknown-anchor", with_terms("  left-halv: {middle: A}\n"), 1, "anchor-unknown"},
      {"empty-set", with_terms("  left-half: {middle: \"\"}\n"), 1, "set-empty"},
      {"no-terms", "sets:\n  middle: {ages: 7-10, language: en}\n"},
      {"no-sets", "terms:\n  left-half: {middle: A}\n"},
      {"ages-backwards", "sets:\n  middle: {ages: 10-7, language: en}\nterms:\n  left-half: {middle: A}\n"},
      {"ages-no-number", "sets:\n  middle: {ages: ten, language: en}\nterms:\n  left-half: {middle: A}\n"},
      {"ages-huge", "sets:\n  middle: {ages: 99999999999999, language: en}\nterms:\n  left-half: {middle: A}\n"},
      {"label-of-ten-thousand", with_terms("  left-half: {middle: " + std::string(10'000, 'w') + "}\n")},
      {"label-of-ten-thousand-words", with_terms("  left-half: {middle: " + support::repeated("word ", 2'000) + "}\n")},
      {"label-of-five-hundred", with_terms("  left-half: {middle: " + std::string(500, 'w') + "}\n"), -1},
      {"label-of-a-hundred-words", with_terms("  left-half: {middle: \"" + support::repeated("word ", 100) + "\"}\n"), -1},
      {"label-of-control-characters", with_terms("  left-half: {middle: \"a\\x01b\\x1b[31m\"}\n"), -1},
      {"label-of-markup", with_terms("  left-half: {middle: \"<b>&amp; </text><script>alert(1)</script>\"}\n"), 0},
      {"label-no-face-has", with_terms("  left-half: {middle: \"\xf0\x93\x82\x80\"}\n"), 1, "glyph-missing"},
      {"label-turns-direction", with_terms("  left-half: {middle: \"abc \xe2\x80\xae cba\"}\n"), -1},
      {"anchor-not-finite", with_terms("  p: {middle: P}\n") + "anchors:\n  p: {at: [.nan, .inf]}\n"},
      {"anchor-far-away", with_terms("  p: {middle: P}\n") + "anchors:\n  p: {at: [1e300, 5]}\n", -1},
      {"anchor-outside", with_terms("  p: {middle: P}\n") + "anchors:\n  p: {at: [900, 900]}\n", -1},
      {"anchor-of-no-region", with_terms("  p: {middle: P}\n") + "anchors:\n  p: {region: nowhere}\n"},
      {"anchor-of-no-number", with_terms("  p: {middle: P}\n") + "anchors:\n  p: {at: [a, b]}\n"},
      {"rows-three-thousand", many},
      {"csv-good", "anchor,middle\nleft-half,Left half\n", 0, {}, "t.csv"},
      {"csv-empty", "", 1, {}, "t.csv"},
      {"csv-no-anchor-column", "a,b\n1,2\n", 1, {}, "t.csv"},
      {"csv-unclosed-quote", "anchor,middle\nleft-half,\"Left\n", 1, {}, "t.csv"},
      {"csv-too-many-cells", "anchor,middle\nleft-half,A,B,C\n", 1, {}, "t.csv"},
      {"csv-duplicate-column", "anchor,middle,middle\nleft-half,A,B\n", 1, {}, "t.csv"},
      {"csv-null-bytes", std::string("anchor,middle\nleft\0half,A\n", 26), 1, {}, "t.csv"},
      {"csv-quotes-of-megabytes", [] { return "anchor,middle\nleft-half,\"" + support::repeated("\"\"", 3u << 20); }, 1, {}, "t.csv"},
  };
}

std::vector<std::string> names() {
  std::vector<std::string> all;
  for (const Table& table : tables()) all.push_back(table.name);
  return all;
}

class OddTerms : public testing::TestWithParam<std::string> {};

TEST_P(OddTerms, Give_a_sheet_or_findings) {
  for (const Table& table : tables()) {
    if (table.name != GetParam()) continue;
    const Place place;
    support::write(place.figure("plain.svg"), plain_figure());
    const std::string terms = place.figure(table.file);
    support::write(terms, table.bytes.text());
    std::vector<std::string> command{"sheet", place.figure("plain.svg"), "--terms", terms, "--set",
                                     "middle", "--kind", "poster,worksheet,copywork,key"};
    if (table.file.ends_with(".csv"))
      command.insert(command.end(), {"--ages", "7-10", "--language", "en"});
    command.insert(command.end(), {"--out", place.out("sheets.pdf")});
    const support::Finished done =
        expect_sheet_or_findings(place, command, place.out("sheets.pdf"));
    if (table.wanted >= 0) {
      EXPECT_EQ(done.code, table.wanted) << done.said();
    }
    if (!table.code.empty()) {
      EXPECT_TRUE(support::contains(done.err, "error[" + table.code + "]")) << done.said();
    }
    // A finding shows no raw control characters to a terminal.
    for (const char c : done.err) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20);
    command.back() = place.out("poster.svg");
    command[7] = "poster";
    expect_sheet_or_findings(place, command, place.out("poster.svg"));
    expect_sheet_or_findings(place, {"check", terms}, {});
  }
}

INSTANTIATE_TEST_SUITE_P(Tables, OddTerms, testing::ValuesIn(names()), [](const auto& test) {
  std::string name = test.param;
  for (char& c : name)
    if (c == '-') c = '_';
  return name;
});

// All faults of figure, table and request in one run, not the first alone.
TEST(Findings, Of_figure_terms_and_request_come_together_sorted_by_place) {
  const Place place;
  support::write(place.figure("plain.svg"), plain_figure("<circle data-anchor=\"left-half\" r=\"5\"/>"));
  const std::string terms = place.figure("t.terms.yaml");
  support::write(terms, with_terms("  left-halv: {middle: A}\n  rihgt-half: {middle: B}\n") + "colour: red\n");
  const support::Finished done = support::platewright(
      {"sheet", place.figure("plain.svg"), "--terms", terms, "--set", "midle", "--kind", "poster",
       "--paper", "a44", "--style", "clasroom", "--out", place.out("a.pdf")});
  EXPECT_EQ(done.code, 1);
  for (const char* part : {"--paper", "a44", "clasroom", "colour", "left-half"})
    EXPECT_TRUE(support::contains(done.err, part)) << part << " in:\n" << done.err;
}

}  // namespace
}  // namespace engine_test
