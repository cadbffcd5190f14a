#include "platewright/finding.hpp"

#include <gtest/gtest.h>

#include "base/quote.hpp"
#include "platewright/result.hpp"

namespace platewright {
namespace {

TEST(Finding, Reads_like_a_compiler_message_with_notes_below) {
  Finding f = error("anchor-duplicate", {"heart.svg", 41, 9}, "anchor \"aorta\" is used twice",
                    "rename one");
  f.notes.push_back({{"heart.svg", 17, 9}, "first used here"});
  EXPECT_EQ(to_text(f),
            "heart.svg:41:9: error[anchor-duplicate]: anchor \"aorta\" is used twice; rename one\n"
            "  heart.svg:17:9: note: first used here");
}

TEST(Finding, Leaves_out_what_is_unknown_of_its_place) {
  EXPECT_EQ(to_text(warning("w", {"a.yaml", 3, 0}, "m")), "a.yaml:3: warning[w]: m");
  EXPECT_EQ(to_text(warning("w", {"--paper", 0, 0}, "m")), "--paper: warning[w]: m");
  EXPECT_EQ(to_text(error("w", {}, "m", "do")), "error[w]: m; do");
}

TEST(Finding, Stays_on_one_line_and_harmless_to_a_terminal) {
  const std::string text =
      to_text(error("x", {"a\nb", 1, 1}, "evil \x1b[31m\nname \u202e", "do\tit"));
  EXPECT_EQ(text, "a\\nb:1:1: error[x]: evil \\u001b[31m\\nname \\u202e; do\\tit");
}

TEST(Finding, Sorts_by_place_then_code_and_drops_exact_duplicates) {
  const Finding late = error("a", {"b.yaml", 1, 1}, "m");
  const Finding line2 = error("a", {"a.yaml", 2, 1}, "m");
  const Finding column2 = error("a", {"a.yaml", 1, 2}, "m");
  const Finding code_b = error("b", {"a.yaml", 1, 1}, "m");
  const Finding code_a = error("a", {"a.yaml", 1, 1}, "m");
  const Finding other = error("a", {"a.yaml", 1, 1}, "n");
  EXPECT_EQ(sorted({late, line2, code_a, column2, code_b, other, code_a}),
            (Findings{code_a, other, code_b, column2, line2, late}));
}

// Escapes of RFC 8259, section 7.
TEST(Finding, Is_written_as_json_that_escapes_what_it_must) {
  Finding f = error("x", {"a\"b\\c", 1, 2}, "line\nbell\x07 tab\t caf\xc3\xa9 \xff", "");
  f.notes.push_back({{"n", 3, 4}, "note"});
  EXPECT_EQ(
      to_json({f}),
      "[\n  {\"severity\": \"error\", \"code\": \"x\", \"file\": \"a\\\"b\\\\c\", \"line\": 1, "
      "\"column\": 2, \"message\": \"line\\nbell\\u0007 tab\\u0009 caf\xc3\xa9 \xef\xbf\xbd\", "
      "\"advice\": \"\", \"notes\": [{\"file\": \"n\", \"line\": 3, \"column\": 4, "
      "\"message\": \"note\"}]}\n]\n");
  EXPECT_EQ(to_json({}), "[]\n");
}

TEST(Finding, Has_an_error_only_when_one_is_an_error) {
  EXPECT_FALSE(has_error({}));
  EXPECT_FALSE(has_error({warning("w", {}, "m")}));
  EXPECT_TRUE(has_error({warning("w", {}, "m"), error("e", {}, "m")}));
}

TEST(Result, Carries_a_value_with_warnings_or_the_errors) {
  const Result<int> good{7, {warning("w", {}, "m")}};
  EXPECT_TRUE(good.ok());
  EXPECT_EQ(*good, 7);
  EXPECT_EQ(good.findings().size(), 1U);
  const Result<int> bad{error("e", {}, "m")};
  EXPECT_FALSE(bad.ok());
  EXPECT_TRUE(has_error(bad.findings()));
}

TEST(Quote, Cuts_long_texts_between_characters) {
  EXPECT_EQ(in_quotes("abc"), "\"abc\"");
  EXPECT_EQ(in_quotes("ääääää", 3), "\"äää…\"");
  EXPECT_EQ(in_quotes(std::string(100, 'x'), 4), "\"xxxx…\"");
}

TEST(Quote, Lists_names_as_a_sentence_does) {
  const std::vector<std::string_view> names = {"a", "b", "c"};
  EXPECT_EQ(listed(names), "\"a\", \"b\" or \"c\"");
  EXPECT_EQ(listed(std::vector<std::string_view>{"a"}), "\"a\"");
  const std::vector<std::string_view> many(20, "a");
  EXPECT_TRUE(listed(many).ends_with("\"a\" or one of 8 more"));
}

}  // namespace
}  // namespace platewright
