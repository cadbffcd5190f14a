// Tables that mean harm or are badly broken: findings, in bounded time and memory.
#include <gtest/gtest.h>

#include <random>

#include "finding_matchers.hpp"
#include "findings_of.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

std::string repeated(std::string_view part, std::size_t times) {
  std::string out;
  for (std::size_t i = 0; i < times; ++i) out += part;
  return out;
}

// The "billion laughs" of YAML: each line ten times the one before.
TEST(Hostile_terms, An_alias_bomb_is_refused) {
  std::string bomb = "a0: &a0 [x,x,x,x,x,x,x,x,x,x]\n";
  for (int i = 1; i < 12; ++i) {
    const std::string before = std::to_string(i - 1), here = std::to_string(i);
    bomb += "a" + here + ": &a" + here + " [" + repeated("*a" + before + ", ", 10) + "]\n";
  }
  EXPECT_TRUE(has_code(findings_of(bomb), "yaml-alias")) << all_text(findings_of(bomb));
}

TEST(Hostile_terms, An_alias_bomb_of_one_long_text_is_refused) {
  const std::string bomb =
      "a: &a \"" + std::string(1'000'000, 'x') + "\"\nb: [" + repeated("*a, ", 1000) + "]\n";
  EXPECT_TRUE(has_code(findings_of(bomb), "yaml-alias"));
}

TEST(Hostile_terms, An_alias_inside_itself_is_refused) {
  EXPECT_TRUE(has_code(findings_of("terms: &t {a: *t}\n"), "yaml-alias"));
  EXPECT_TRUE(has_code(findings_of("terms: *nowhere\n"), "yaml-syntax"));
}

TEST(Hostile_terms, Nesting_is_bounded_however_it_is_written) {
  for (const std::string& deep :
       {repeated("[", 100'000), repeated("{a: ", 100'000), repeated("- ", 100'000),
        repeated("? ", 100'000), repeated("{", 65) + repeated("}", 65),
        repeated("[", 1000) + repeated("]", 1000)}) {
    const auto findings = findings_of(deep);
    EXPECT_TRUE(has_error(findings)) << deep.substr(0, 20);
  }
  std::string indented;
  for (int i = 0; i < 300; ++i) indented += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
  EXPECT_TRUE(has_code(findings_of(indented), "yaml-depth"));
}

TEST(Hostile_terms, A_file_of_a_million_values_is_refused) {
  EXPECT_TRUE(has_code(findings_of("a: [" + repeated("1,", 1'000'000) + "]"), "yaml-large"));
  EXPECT_TRUE(has_code(findings_of(std::string((2u << 20) + 1, 'x')), "yaml-large"));
  EXPECT_EQ(places_and_codes(findings_of(std::string((8u << 20) + 1, 'x'), "t.csv")),
            "0:0 csv-large");
  EXPECT_TRUE(
      has_code(findings_of("anchor,m\n" + repeated(",,,,,,,,,\n", 100'000), "t.csv"), "csv-large"));
}

TEST(Hostile_terms, Endless_faults_are_told_up_to_a_limit) {
  std::string text = "sets: {m: {ages: 8, language: en}}\nterms:\n";
  for (int i = 0; i < 2000; ++i) text += "  a" + std::to_string(i) + ": {x: A}\n";
  const auto findings = findings_of(text);
  EXPECT_EQ(findings.size(), 501U);
  EXPECT_TRUE(has_code(findings, "findings-many"));
}

TEST(Hostile_terms, Latin1_says_where_and_what_to_do) {
  const auto findings = findings_of(
      "sets: {m: {ages: 8, language: de}}\nterms: {a: {m: F\xfc\xdf"
      "e}}\n");
  EXPECT_EQ(places_and_codes(findings), "2:17 not-utf8");
  EXPECT_EQ(findings[0].advice, "save it as UTF-8");
}

TEST(Hostile_terms, Control_characters_and_binary_files) {
  EXPECT_EQ(places_and_codes(findings_of(std::string("a: b\nc: \0d\n", 11))),
            "2:4 control-character");
  EXPECT_TRUE(has_code(findings_of("\x89PNG\r\n\x1a\n"), "not-utf8"));
  EXPECT_TRUE(has_code(findings_of("%PDF-1.4\n\x01\x02"), "control-character"));
}

TEST(Hostile_terms, Broken_yaml_says_where) {
  const auto quote = findings_of("sets: {m: {ages: 8, language: en}}\nterms:\n  a: {m: \"A}\n");
  EXPECT_TRUE(has_code(quote, "yaml-syntax"));
  const auto tab = findings_of("sets:\n\tm: {ages: 8}\n");
  EXPECT_EQ(places_and_codes(tab), "2:3 yaml-syntax");
  EXPECT_NE(tab[0].advice.find("spaces"), std::string::npos);
  EXPECT_TRUE(has_code(findings_of("a: b: c\n"), "yaml-syntax"));
  EXPECT_TRUE(has_code(findings_of("a: 'x\n"), "yaml-syntax"));
  EXPECT_EQ(places_and_codes(findings_of("terms:\n  a:\n    m: \"A\n  b:\n    m: \"B\"\n")),
            "5:9 yaml-syntax");
  EXPECT_EQ(places_and_codes(findings_of("terms:\n  a:\n    m: 'it''s\n  b:\n    m: x\n")),
            "3:8 yaml-syntax");
  EXPECT_TRUE(has_code(findings_of("%YAML 9.9.9\n---\na: b\n"), "yaml-syntax"));
}

TEST(Hostile_terms, Tags_and_further_documents_are_not_passed_over) {
  EXPECT_TRUE(has_code(findings_of("terms: !!python/object:os.system {a: b}\n"), "yaml-tag"));
  EXPECT_TRUE(
      has_code(findings_of("sets: {m: {ages: !!binary OA==, language: en}}\n"), "yaml-tag"));
  EXPECT_TRUE(has_code(findings_of("a: b\n---\nc: d\n"), "yaml-documents"));
  EXPECT_TRUE(has_code(findings_of("a: b\n---\n" + repeated("[", 1000)), "yaml-documents"));
}

// Whatever is cut off or flipped in a good file: a result, never a crash.
TEST(Hostile_terms, Damaged_files_never_crash) {
  const std::string yaml = R"(figure: heart.svg
sets:
  little: {ages: 4-6, language: en}
terms:
  aorta: {little: &x "Aorta\n", clue: {en: 'The largest.'}, side: left}
  b: {little: [A, *x], group: g}
anchors:
  apex: {at: [[212.5, 388], [1, 2]]}
  liver: {region: path-liver}
)";
  const std::string csv = "anchor;m;clue:en\r\na;\"A \"\"x\"\"\r\ny\";c\r\nb;B | C;\r\n";
  constexpr std::string_view signs("\n\t ,;:\"'[]{}&*!|>-?#\\\xff\0ax", 26);  // NUL among them
  std::mt19937 random(42);
  int good = 0;
  for (const auto& [text, path] : {std::pair{yaml, "t.yaml"}, std::pair{csv, "t.csv"}}) {
    for (std::size_t n = 0; n <= text.size(); ++n)
      good += read::terms(text.substr(0, n), path).ok();
    for (int i = 0; i < 3000; ++i) {
      std::string damaged = text;
      for (std::size_t flips = 1 + random() % 4; flips > 0; --flips)
        damaged[random() % damaged.size()] = signs[random() % signs.size()];
      good += read::terms(damaged, path).ok();
    }
  }
  EXPECT_GT(good, 10);
}

}  // namespace
}  // namespace platewright
