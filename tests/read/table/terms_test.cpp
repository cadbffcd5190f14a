// What a table of terms may say, and what comes of it.
#include <gtest/gtest.h>

#include "finding_matchers.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

Terms read_yaml(std::string_view text, const std::vector<LabelSet>& sets = {}) {
  const auto terms = read::terms(text, "t.yaml", sets);
  EXPECT_TRUE(terms) << all_text(terms.findings());
  return terms ? *terms : Terms{};
}

Terms read_csv(std::string_view text, const std::vector<LabelSet>& sets = {}) {
  const auto terms = read::terms(text, "t.csv", sets);
  EXPECT_TRUE(terms) << all_text(terms.findings());
  return terms ? *terms : Terms{};
}

const Term& term(const Terms& terms, std::string_view anchor) {
  static const Term none;
  for (const Term& t : terms.terms)
    if (t.anchor == anchor) return t;
  ADD_FAILURE() << "no term " << anchor;
  return none;
}

std::string label(const Terms& terms, std::string_view anchor, const std::string& set) {
  const auto& cells = term(terms, anchor).cells;
  const auto found = cells.find(set);
  return found == cells.end() ? "" : found->second.text;
}

constexpr std::string_view heart = R"(figure: heart.svg
title: {en: The heart, de: Das Herz}
credit: A. Painter
licence: CC BY 4.0
sets:
  little: {ages: 4-6,   language: en}
  middle: {ages: 7-10,  language: en}
  mitte:  {ages: 7-10,  language: DE}
terms:
  aorta:          {middle: Aorta, mitte: Aorta, clue: The largest artery.}
  left-ventricle: {little: Left pump, middle: Left ventricle, mitte: Linke Herzkammer, group: chambers, side: right}
anchors:
  apex:  {at: [212.5, 388]}
  lungs: {at: [[120, 90], [300, 90]]}
  liver: {region: path-liver}
)";

TEST(Terms_yaml, Reads_a_whole_file) {
  const Terms terms = read_yaml(heart);
  EXPECT_EQ(terms.file, "t.yaml");
  EXPECT_EQ(terms.figure, "heart.svg");
  EXPECT_EQ(terms.credit, "A. Painter");
  EXPECT_EQ(terms.licence, "CC BY 4.0");
  ASSERT_EQ(terms.sets.size(), 3U);
  EXPECT_EQ(terms.sets[0].name, "little");
  EXPECT_EQ(terms.sets[0].youngest, 4);
  EXPECT_EQ(terms.sets[0].oldest, 6);
  EXPECT_EQ(terms.sets[2].language, "de");
  EXPECT_EQ(terms.sets[2].declared, (SourcePosition{"t.yaml", 8, 3}));
  EXPECT_EQ(terms.title.text_for(terms.sets[2]), "Das Herz");
  ASSERT_EQ(terms.terms.size(), 2U);
  EXPECT_EQ(terms.terms[0].declared, (SourcePosition{"t.yaml", 10, 3}));
  EXPECT_EQ(label(terms, "aorta", "little"), "");
  EXPECT_EQ(label(terms, "left-ventricle", "mitte"), "Linke Herzkammer");
  EXPECT_EQ(term(terms, "left-ventricle").side, PreferredSide::right);
  EXPECT_EQ(term(terms, "aorta").clue.text_for(terms.sets[0]), "The largest artery.");
  EXPECT_EQ(term(terms, "left-ventricle").group.everywhere, "chambers");
}

TEST(Terms_yaml, May_say_another_note_for_the_footer) {
  const Terms terms = read_yaml(
      "figure: bee.svg\nnote: {en: Sizes are averages., de: Im Mittel.}\n"
      "sets:\n  a: {ages: 7-10, language: en}\n  b: {ages: 7-10, language: de}\n"
      "  c: {ages: 7-10, language: fr}\nterms:\n  wing: {a: Wing}\n");
  EXPECT_EQ(terms.note.text_for(terms.sets[0]), "Sizes are averages.");
  EXPECT_EQ(terms.note.text_for(terms.sets[1]), "Im Mittel.");
  EXPECT_EQ(terms.note.text_for(terms.sets[2]), "");
}

TEST(Terms_yaml, Adds_anchors_by_point_by_points_and_by_region) {
  const Terms terms = read_yaml(heart);
  ASSERT_EQ(terms.added.size(), 3U);
  EXPECT_EQ(terms.added[0].at, (std::vector<FigurePoint>{{212.5, 388}}));
  EXPECT_EQ(terms.added[1].at, (std::vector<FigurePoint>{{120, 90}, {300, 90}}));
  EXPECT_EQ(terms.added[2].region, "path-liver");
  EXPECT_TRUE(terms.added[2].at.empty());
  EXPECT_EQ(terms.added[0].declared, (SourcePosition{"t.yaml", 13, 3}));
}

TEST(Terms_yaml, Sets_may_stand_after_the_terms_that_name_them) {
  const Terms terms = read_yaml("terms: {a: {m: A}}\nsets: {m: {ages: 8, language: en}}\n");
  EXPECT_EQ(label(terms, "a", "m"), "A");
  EXPECT_EQ(terms.sets[0].youngest, 8);
  EXPECT_EQ(terms.sets[0].oldest, 8);
}

TEST(Terms_yaml, Labels_are_text_as_written) {
  const Terms terms = read_yaml(R"(sets: {m: {ages: [4, 6], language: en}}
terms:
  a: {m: no}
  b: {m: on}
  c: {m: 007}
  d: {m: 1e3}
  e: {m: true}
  f: {m: "null"}
  g: {m: 2024-01-01}
)");
  const std::pair<const char*, const char*> expected[] = {
      {"a", "no"},   {"b", "on"},   {"c", "007"},       {"d", "1e3"},
      {"e", "true"}, {"f", "null"}, {"g", "2024-01-01"}};
  for (const auto& [anchor, text] : expected) EXPECT_EQ(label(terms, anchor, "m"), text);
}

TEST(Terms_yaml, An_empty_cell_is_not_labelled) {
  const auto result = read::terms(R"(sets: {m: {ages: 8, language: en}}
terms:
  a: {m: A}
  b: {m: ""}
  c: {m: }
  d: {m: "  "}
  e:
)",
                                  "t.yaml");
  ASSERT_TRUE(result);
  for (const char* anchor : {"b", "c", "d", "e"})
    EXPECT_TRUE(term(*result, anchor).cells.empty()) << anchor;
  EXPECT_EQ(places_and_codes(result.findings()),
            "4:3 term-empty\n5:3 term-empty\n6:3 term-empty\n7:3 term-empty");
}

TEST(Terms_yaml, A_starter_with_every_cell_empty_says_so_once_a_set) {
  const auto result =
      read::terms("sets: {m: {ages: 8, language: en}}\nterms:\n  a: {m: }\n  b: {m: }\n", "t.yaml");
  ASSERT_TRUE(result);
  EXPECT_EQ(places_and_codes(result.findings()), "1:8 set-empty");
}

TEST(Terms_yaml, Takes_other_wordings_as_a_list_or_a_map) {
  const Terms terms = read_yaml(R"(sets: {m: {ages: 8, language: en}}
terms:
  a: {m: [Left ventricle, L. ventricle, LV]}
  b: {m: {text: Left atrium, or: [L. atrium]}}
  c: {m: {or: LA, text: Left atrium}}
)");
  using Texts = std::vector<std::string>;
  EXPECT_EQ(label(terms, "a", "m"), "Left ventricle");
  EXPECT_EQ(term(terms, "a").cells.at("m").alternatives, (Texts{"L. ventricle", "LV"}));
  EXPECT_EQ(term(terms, "b").cells.at("m").alternatives, (Texts{"L. atrium"}));
  EXPECT_EQ(label(terms, "c", "m"), "Left atrium");
  EXPECT_EQ(term(terms, "c").cells.at("m").alternatives, (Texts{"LA"}));
}

TEST(Terms_yaml, Keeps_the_writers_line_breaks_and_soft_hyphens) {
  const Terms terms = read_yaml(
      "sets: {m: {ages: 8, language: en}}\n"
      "terms:\n"
      "  a: {m: \"Left\\nventricle\"}\n"
      "  b:\n"
      "    m: |\n"
      "      Left\n"
      "      ventricle\n"
      "  c: {m: \"Herz\u00ADkammer\"}\n"
      "  d: {m: \"  spaced \\n\\n out\\t\"}\n");
  EXPECT_EQ(label(terms, "a", "m"), "Left\nventricle");
  EXPECT_EQ(label(terms, "b", "m"), "Left\nventricle");
  EXPECT_EQ(label(terms, "c", "m"), "Herz\u00ADkammer");
  EXPECT_EQ(label(terms, "d", "m"), "spaced\nout");
}

TEST(Terms_yaml, Carries_every_script) {
  const Terms terms = read_yaml(
      "sets: {m: {ages: 8, language: ar}}\nterms: {a: {m: القلب}, b: {m: καρδιά}, c: {m: сердце}, "
      "d: {m: 心臓}, e: {m: לב}, f: {m: Großes Vieleckbein}}\n");
  EXPECT_EQ(label(terms, "a", "m"), "القلب");
  EXPECT_EQ(label(terms, "d", "m"), "心臓");
  EXPECT_EQ(label(terms, "f", "m"), "Großes Vieleckbein");
}

TEST(Terms_yaml, Ages_are_written_in_several_ways) {
  const Terms terms = read_yaml(R"(sets:
  a: {ages: 4-6, language: en}
  b: {ages: 4–6, language: en}
  c: {ages: 9, language: en}
  d: {ages: [4, 6], language: en}
  e: {ages: 14+, language: en}
  f: {ages: "4 - 6", language: en}
terms: {x: {a: A, b: A, c: A, d: A, e: A, f: A}}
)");
  const std::pair<int, int> expected[] = {{4, 6}, {4, 6}, {9, 9}, {4, 6}, {14, 99}, {4, 6}};
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(terms.sets[i].youngest, expected[i].first) << i;
    EXPECT_EQ(terms.sets[i].oldest, expected[i].second) << i;
  }
}

TEST(Terms_yaml, Properties_from_outside_override_those_of_the_file) {
  LabelSet given;
  given.name = "m";
  given.youngest = 12;
  given.oldest = 14;
  given.language = "fr";
  const Terms terms =
      read_yaml("sets: {m: , n: {ages: 5, language: en}}\nterms: {a: {m: A, n: A}}\n", {given});
  EXPECT_EQ(terms.sets[0].youngest, 12);
  EXPECT_EQ(terms.sets[0].language, "fr");
  EXPECT_EQ(terms.sets[1].youngest, 5);
}

TEST(Terms_yaml, An_alias_repeats_a_text) {
  const Terms terms = read_yaml(
      "sets: {m: {ages: 8, language: en}, n: {ages: 9, language: en}}\n"
      "terms: {a: {m: &word Aorta, n: *word}}\n");
  EXPECT_EQ(label(terms, "a", "n"), "Aorta");
}

TEST(Terms_csv, Reads_the_same_table_as_yaml) {
  LabelSet middle, mitte;
  middle.name = "middle";
  mitte.name = "mitte";
  mitte.language = "de";
  const Terms terms = read_csv(
      "anchor,middle,mitte,clue,clue:de,group,pronunciation,side\n"
      "aorta,Aorta,Aorta,\"The largest, thickest artery.\",Die größte Schlagader.,,ay-OR-tuh,left\n"
      "left-ventricle,Left ventricle | LV,,,,chambers,,\n",
      {middle, mitte});
  ASSERT_EQ(terms.sets.size(), 2U);
  EXPECT_EQ(terms.sets[1].language, "de");
  EXPECT_EQ(term(terms, "aorta").clue.text_for(terms.sets[0]), "The largest, thickest artery.");
  EXPECT_EQ(term(terms, "aorta").clue.text_for(terms.sets[1]), "Die größte Schlagader.");
  EXPECT_EQ(term(terms, "aorta").side, PreferredSide::left);
  EXPECT_EQ(label(terms, "left-ventricle", "middle"), "Left ventricle");
  EXPECT_EQ(term(terms, "left-ventricle").cells.at("middle").alternatives,
            std::vector<std::string>{"LV"});
  EXPECT_FALSE(term(terms, "left-ventricle").cells.contains("mitte"));
  EXPECT_EQ(term(terms, "left-ventricle").declared, (SourcePosition{"t.csv", 3, 1}));
}

TEST(Terms_csv, Reads_what_spreadsheets_write) {
  LabelSet any;  // without a name: for every column
  const std::string rows = "anchor;m\r\na;\"two\r\nlines\"\r\nb;\"a \"\"quoted\"\" word\"\r\n\r\n";
  for (const std::string& text : {rows, "\xef\xbb\xbf" + rows, "sep=;\r\n" + rows}) {
    const Terms terms = read_csv(text, {any});
    EXPECT_EQ(label(terms, "a", "m"), "two\nlines");
    EXPECT_EQ(label(terms, "b", "m"), "a \"quoted\" word");
  }
  EXPECT_EQ(label(read_csv("anchor\tm\na\tA, B; C\n", {any}), "a", "m"), "A, B; C");
}

TEST(Terms_csv, Reads_a_spreadsheets_unicode_text) {
  LabelSet any;
  std::string utf16 = "\xff\xfe";
  for (const char c : std::string("anchor\tm\r\na\tA\r\n")) {
    utf16 += c;
    utf16 += '\0';
  }
  EXPECT_EQ(label(read_csv(utf16, {any}), "a", "m"), "A");
}

TEST(Terms_csv, Sets_without_properties_are_taken_as_the_middle_with_a_warning) {
  const auto result = read::terms("anchor,m\na,A\n", "t.csv");
  ASSERT_TRUE(result);
  EXPECT_EQ(result->sets[0].youngest, 7);
  EXPECT_EQ(places_and_codes(result.findings()), "1:8 set-properties");
  EXPECT_NE(all_text(result.findings()).find("--ages 7-10 --language en"), std::string::npos);
}

}  // namespace
}  // namespace platewright
