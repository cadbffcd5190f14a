#include "read/yaml.hpp"

#include <gtest/gtest.h>

#include "finding_matchers.hpp"

namespace platewright::read {
namespace {

YamlNode parsed(std::string_view text) {
  Reading reading{"t.yaml", {}};
  YamlNode node = parse_yaml(text, reading);
  EXPECT_TRUE(reading.findings.empty()) << all_text(reading.findings);
  return node;
}

TEST(Yaml, Is_a_tree_of_texts_with_places) {
  const YamlNode root = parsed("a: [x, {b: y}]\nc:\n  - z\n");
  ASSERT_TRUE(root.is_map());
  ASSERT_EQ(root.entries.size(), 2U);
  EXPECT_EQ(root.entries[0].key.text, "a");
  const YamlNode& list = root.entries[0].value;
  ASSERT_TRUE(list.is_list());
  EXPECT_EQ(list.items[0].text, "x");
  EXPECT_EQ(list.items[1].entries[0].value.text, "y");
  EXPECT_EQ(list.items[1].entries[0].value.place.column, 12);
  EXPECT_EQ(root.entries[1].value.items[0].place.line, 3);
  EXPECT_EQ(root.entries[1].value.items[0].place.column, 5);
}

TEST(Yaml, Keeps_duplicate_keys_and_their_order) {
  const YamlNode root = parsed("b: 1\na: 2\nb: 3\n");
  ASSERT_EQ(root.entries.size(), 3U);
  EXPECT_EQ(root.entries[2].value.text, "3");
}

TEST(Yaml, Tells_nothing_from_an_empty_text) {
  const YamlNode root = parsed("a:\nb: ~\nc: \"\"\nd: \"~\"\n");
  EXPECT_TRUE(root.entries[0].value.is_null());
  EXPECT_TRUE(root.entries[1].value.is_null());
  EXPECT_TRUE(root.entries[2].value.is_scalar());
  EXPECT_EQ(root.entries[3].value.text, "~");
  EXPECT_TRUE(parsed("").is_null());
}

TEST(Yaml, Expands_aliases_of_texts_lists_and_maps) {
  const YamlNode root = parsed("a: &l [1, &t two]\nb: *l\nc: {*t : *t}\n");
  EXPECT_EQ(root.entries[1].value.items[1].text, "two");
  EXPECT_EQ(root.entries[2].value.entries[0].key.text, "two");
}

TEST(Yaml, Reads_every_way_of_quoting) {
  const YamlNode root = parsed(
      "a: 'it''s'\nb: \"a \\\"b\\\" \\\\\"\nc: &x 'y'\nd: !!str \"z\"\ne: |\n  \"open\nf: >-\n  "
      "one\n  'two\n"
      "\"g\": {'h': \"i\", \"j\": ['k', \"l\"]}\nm: \"two\n  lines\"\nn: no \"quote\n");
  const std::vector<std::string> texts = {"it's", "a \"b\" \\", "y", "z", "\"open\n", "one 'two"};
  for (std::size_t i = 0; i < texts.size(); ++i) EXPECT_EQ(root.entries[i].value.text, texts[i]);
  EXPECT_EQ(root.entries[6].value.entries[1].value.items[1].text, "l");
  EXPECT_EQ(root.entries[7].value.text, "two lines");
  EXPECT_EQ(root.entries[8].value.text, "no \"quote");
}

TEST(Yaml, Reads_windows_line_ends) {
  const YamlNode root = parsed("a: x\r\nb: y\r\n");
  EXPECT_EQ(root.entries[0].value.text, "x");
  EXPECT_EQ(root.entries[1].key.place.line, 2);
}

TEST(Yaml, A_map_calls_each_reader_once_and_tells_the_rest) {
  Reading reading{"t.yaml", {}};
  const YamlNode root = parse_yaml("alpha: 1\nbeta: 2\nalpha: 3\ngama: 4\n", reading);
  std::string calls;
  const std::vector<YamlField> fields = {
      {"alpha", [&](const YamlNode& n) { calls += "a" + n.text; }},
      {"beta", [&](const YamlNode& n) { calls += "b" + n.text; }},
      {"gamma", [&](const YamlNode& n) { calls += "g" + n.text; }}};
  read_map(root, "the file", fields, reading);
  EXPECT_EQ(calls, "a1b2");
  EXPECT_EQ(places_and_codes(reading.findings), "3:1 key-duplicate\n4:1 key-unknown");
  EXPECT_EQ(reading.findings[1].advice, "did you mean \"gamma\"");
}

}  // namespace
}  // namespace platewright::read
