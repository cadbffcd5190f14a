// Every finding that a table of terms can give, each triggered once, with its place.
#include <gtest/gtest.h>

#include "finding_matchers.hpp"
#include "findings_of.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

// A file whose set and term are right, so that only what is added is at fault.
std::string with_rows(const std::string& rows) {
  return "sets: {middle: {ages: 8, language: en}}\nterms:\n" + rows;
}

std::string faults_in_rows(const std::string& rows) {
  return places_and_codes(findings_of(with_rows(rows)));
}

std::string faults_in_set(const std::string& set) {
  return places_and_codes(findings_of("terms: {a: {m: A}}\nsets: {m: " + set + "}\n"));
}

TEST(Terms_faults, A_file_that_is_no_table) {
  EXPECT_EQ(places_and_codes(findings_of("just a text\n")), "1:1 terms-shape");
  EXPECT_EQ(places_and_codes(findings_of("- a\n- b\n")), "1:1 terms-shape");
  EXPECT_TRUE(has_code(findings_of(""), "terms-shape"));
  EXPECT_TRUE(has_code(findings_of("# only a comment\n"), "terms-shape"));
  EXPECT_TRUE(has_code(findings_of("", "t.csv"), "terms-shape"));
}

TEST(Terms_faults, Missing_sets_and_missing_terms) {
  EXPECT_EQ(places_and_codes(findings_of("figure: a.svg\n")),
            "1:1 sets-missing\n1:1 terms-missing");
  EXPECT_EQ(places_and_codes(findings_of("sets:\nterms: {}\n")),
            "1:1 sets-missing\n2:8 terms-missing");
  EXPECT_EQ(places_and_codes(findings_of("anchor,clue\na,b\n", "t.csv")), "1:1 sets-missing");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m\n", "t.csv")), "1:1 terms-missing");
}

TEST(Terms_faults, An_unknown_key_comes_with_the_nearest_known_one) {
  const auto findings = findings_of(with_rows("  a: {midle: A}\n") + "licens: x\n");
  EXPECT_EQ(places_and_codes(findings), "3:7 key-unknown\n4:1 key-unknown");
  EXPECT_EQ(findings[0].advice, "did you mean \"middle\"");
  EXPECT_EQ(findings[1].advice, "did you mean \"licence\"");
}

TEST(Terms_faults, A_set_that_was_not_declared_lists_those_that_were) {
  const auto findings = findings_of(with_rows("  a: {toddlers: A}\n"));
  EXPECT_EQ(places_and_codes(findings), "3:7 key-unknown");
  EXPECT_NE(findings[0].advice.find("\"middle\""), std::string::npos);
}

TEST(Terms_faults, Duplicates_tell_where_the_first_is) {
  const auto anchors =
      findings_of(with_rows("  a: {middle: A}\n  b: {middle: B}\n  a: {middle: C}\n"));
  EXPECT_EQ(places_and_codes(anchors), "5:3 anchor-duplicate");
  ASSERT_EQ(anchors[0].notes.size(), 1U);
  EXPECT_EQ(anchors[0].notes[0].at.line, 3);
  EXPECT_EQ(faults_in_rows("  a: {middle: A, middle: B}\n"), "3:18 key-duplicate");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m\na,A\na,B\n", "t.csv")), "3:1 anchor-duplicate");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m,m\na,A,B\n", "t.csv")), "1:10 key-duplicate");
  EXPECT_EQ(faults_in_rows("  a: {middle: A}\nanchors: {x: {at: [1, 2]}, x: {at: [1, 2]}}\n"),
            "4:28 anchor-duplicate");
}

TEST(Terms_faults, Wrong_shapes) {
  EXPECT_EQ(faults_in_rows("  a: Aorta\n"), "3:6 term-shape");
  EXPECT_EQ(faults_in_rows("  a: {middle: [[A]]}\n"), "3:16 not-a-text");
  EXPECT_EQ(faults_in_rows("  a: {middle: {or: [A]}}\n"), "3:15 label-text");
  EXPECT_EQ(faults_in_rows("  a: {middle: A, group: [x]}\n"), "3:25 not-a-text");
  EXPECT_EQ(faults_in_rows("  [1, 2]: {middle: A}\n"), "3:3 key-invalid");
  EXPECT_EQ(places_and_codes(findings_of("sets: {m: {ages: 8, language: en}}\nterms: [a]\n")),
            "2:8 not-a-map");
}

TEST(Terms_faults, Texts_by_set_need_a_set_or_a_language) {
  EXPECT_EQ(faults_in_rows("  a: {middle: A, clue: {middl!: x}}\n"), "3:25 text-key");
  EXPECT_EQ(faults_in_rows("  a: {middle: A, clue: {english: x}}\n"), "3:25 text-key");
  EXPECT_TRUE(has_code(findings_of("anchor,m,clue:english\na,A,x\n", "t.csv"), "text-key"));
}

TEST(Terms_faults, Sides_other_than_left_and_right) {
  EXPECT_EQ(faults_in_rows("  a: {middle: A, side: top}\n"), "3:24 side-unknown");
  EXPECT_EQ(faults_in_rows("  a: {middle: A, inside: perhaps}\n"), "3:26 inside-unknown");
}

TEST(Terms_faults, Anchor_names_that_no_figure_has) {
  EXPECT_EQ(faults_in_rows("  \"a\\nb\": {middle: A}\n"), "3:3 anchor-name");
  EXPECT_EQ(faults_in_rows("  ? " + std::string(201, 'x') + "\n  : {middle: A}\n"),
            "3:5 anchor-name");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m\n,A\n", "t.csv")), "2:1 anchor-name");
}

TEST(Terms_faults, Ages_and_languages_of_sets) {
  for (const char* ages : {"6-4", "old", "-1", "4-6-8", "4.5", "7-130", "[4]", "[4, x]", "{a: 1}"})
    EXPECT_TRUE(has_code(findings_of("terms: {a: {m: A}}\nsets: {m: {ages: " + std::string(ages) +
                                     ", language: en}}\n"),
                         "set-ages"))
        << ages;
  EXPECT_EQ(faults_in_set("{ages: 8, language: en_US}"), "2:31 set-language");
  EXPECT_EQ(faults_in_set("{ages: 8, language: german}"), "2:31 set-language");
  EXPECT_EQ(faults_in_set("{ages: 8, language: [en]}"), "2:31 set-language");
  EXPECT_EQ(faults_in_set("{ages: 8, language: en, lang: en}"), "2:35 key-unknown");
  EXPECT_EQ(faults_in_set("7-10"), "2:11 not-a-map");
}

TEST(Terms_faults, Set_names_that_cannot_be_columns) {
  for (const char* name : {"clue", "side", "inside", "anchor", "a b", "a/b", "../x", "a:b", "a.b"}) {
    std::string text = "sets: {\"";
    text.append(name).append("\": {ages: 8, language: en}}\nterms: {a: {}}\n");
    EXPECT_TRUE(has_code(findings_of(text), "set-name")) << name;
  }
  EXPECT_TRUE(has_code(findings_of("anchor,a b\nx,A\n", "t.csv"), "set-name"));
}

TEST(Terms_faults, Missing_properties_of_a_set_are_a_warning) {
  EXPECT_EQ(faults_in_set("{ages: 8}"), "2:8 set-properties");
  EXPECT_EQ(faults_in_set("{language: en}"), "2:8 set-properties");
  EXPECT_EQ(faults_in_set(""), "2:8 set-properties");
}

TEST(Terms_faults, A_set_and_a_term_without_labels_are_warnings) {
  const std::string text =
      "sets: {m: {ages: 8, language: en}, n: {ages: 9, language: en}}\nterms: {a: {m: A}, b: {}}\n";
  EXPECT_EQ(places_and_codes(findings_of(text)), "1:36 set-empty\n2:20 term-empty");
}

TEST(Terms_faults, Long_labels_are_a_warning_and_very_long_ones_an_error) {
  const std::string long_label(121, 'x');
  const auto warned = read::terms(with_rows("  a: {middle: " + long_label + "}\n"), "t.yaml");
  EXPECT_TRUE(warned.ok());
  EXPECT_EQ(places_and_codes(warned.findings()), "3:15 label-long");
  EXPECT_EQ(faults_in_rows("  a: {middle: " + std::string(120, 'x') + "}\n"), "");
  EXPECT_EQ(faults_in_rows("  a: {middle: " + std::string(10'000, 'x') + "}\n"),
            "3:15 text-too-long");
}

TEST(Terms_faults, Control_characters_by_escape) {
  EXPECT_EQ(faults_in_rows("  a: {middle: \"A\\x07\"}\n"), "3:15 text-control");
  EXPECT_EQ(faults_in_rows("  a: {middle: \"A\\0B\"}\n"), "3:15 text-control");
}

TEST(Terms_faults, Places_of_added_anchors) {
  const auto faults = [](const std::string& anchor) {
    return places_and_codes(
        findings_of(with_rows("  a: {middle: A}\nanchors:\n  x: ") + anchor + "\n"));
  };
  EXPECT_EQ(faults("{at: [1, 2], region: p}"), "5:3 anchor-shape");
  EXPECT_EQ(faults("{}"), "5:3 anchor-shape");
  EXPECT_EQ(faults("{region: }"), "5:7 anchor-shape");
  EXPECT_EQ(faults("[1, 2]"), "5:6 not-a-map");
  EXPECT_EQ(faults("{at: [1]}"), "5:11 anchor-point");
  EXPECT_EQ(faults("{at: [1, 2, 3]}"), "5:11 anchor-point");
  EXPECT_EQ(faults("{at: []}"), "5:11 anchor-point");
  EXPECT_EQ(faults("{at: 12}"), "5:11 anchor-point");
  EXPECT_EQ(faults("{at: [[1, 2], 3]}"), "5:20 anchor-point");
  for (const char* number : {".nan", "nan", ".inf", "-.inf", "inf", "1e999", "1e8", "12mm", "x"})
    EXPECT_EQ(faults("{at: [" + std::string(number) + ", 2]}"), "5:12 anchor-number") << number;
  EXPECT_EQ(faults("{at: [1, 2], size: 3}"), "5:19 key-unknown");
  std::string many = "{at: [";
  for (int i = 0; i < 101; ++i) many += "[1, 2], ";
  EXPECT_EQ(faults(many + "]}"), "5:11 anchor-point");
}

TEST(Terms_faults, Csv_rows_that_do_not_fit_the_header) {
  EXPECT_EQ(places_and_codes(findings_of("anchor,m,n\na,A,B,C\n", "t.csv")), "2:7 csv-ragged");
  EXPECT_TRUE(read::terms("anchor,m,n\na,A,B,,\n", "t.csv").ok());
  const auto few = read::terms("anchor,m,n\na,A\nb,B,B\n", "t.csv");
  EXPECT_TRUE(few.ok());
  EXPECT_TRUE(has_code(few.findings(), "csv-ragged"));
}

TEST(Terms_faults, Csv_headers_without_meaning) {
  EXPECT_EQ(places_and_codes(findings_of("name,m\na,A\n", "t.csv")), "1:1 csv-header");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m,\na,A,x\n", "t.csv")), "1:10 csv-header");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m,cleu\na,A,x\n", "t.csv")), "1:10 csv-header");
}

TEST(Terms_faults, Csv_quotes_that_do_not_end) {
  EXPECT_EQ(places_and_codes(findings_of("anchor,m\na,\"A\nb,B\n", "t.csv")), "2:3 csv-quote");
  EXPECT_EQ(places_and_codes(findings_of("anchor,m\na,\"A\" B\nb,B\n", "t.csv")), "2:6 csv-quote");
}

TEST(Terms_faults, Too_many_terms_and_sets) {
  std::string rows = "anchor,m\n";
  for (int i = 0; i < 2001; ++i) rows += std::to_string(i) + ",A\n";
  EXPECT_EQ(places_and_codes(findings_of(rows, "t.csv")), "0:0 terms-many");
  std::string sets = "terms: {a: {}}\nsets:\n";
  for (int i = 0; i < 65; ++i) sets += "  s" + std::to_string(i) + ": {ages: 8, language: en}\n";
  EXPECT_TRUE(has_code(findings_of(sets), "sets-many"));
  std::string header = "anchor";
  for (int i = 0; i < 65; ++i) header += ",s" + std::to_string(i);
  EXPECT_TRUE(has_code(findings_of(header + "\na\n", "t.csv"), "sets-many"));
}

TEST(Terms_faults, All_are_reported_at_once_in_the_order_of_the_file) {
  const auto findings = findings_of(R"(sets:
  middle: {ages: x, language: en_US}
terms:
  a: {midle: A, side: up}
  a: {}
colour: red
)");
  EXPECT_EQ(places_and_codes(findings),
            "2:18 set-ages\n2:31 set-language\n4:7 key-unknown\n4:23 side-unknown\n"
            "5:3 anchor-duplicate\n6:1 key-unknown");
}

TEST(Terms_faults, Columns_count_characters_not_bytes) {
  EXPECT_EQ(places_and_codes(findings_of("sets: {größe: {ages: 8, language: en}}\n"
                                         "terms: {ä: {größe: Füße, x: A}}\n")),
            "2:26 key-unknown");
  EXPECT_EQ(places_and_codes(findings_of("anchor,größe,x,\nö,A,B,C\n", "t.csv")),
            "1:16 csv-header");
}

}  // namespace
}  // namespace platewright
