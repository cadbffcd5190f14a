// Pages of plain text, block by block.
#include <gtest/gtest.h>

#include "read/read.hpp"

namespace {

using platewright::PageBlock;
using Kind = PageBlock::Kind;

platewright::PageText page(const std::string& text) {
  auto read = platewright::read::page_text(text, "p.txt");
  EXPECT_TRUE(read.ok()) << (read.ok() ? "" : to_text(read.findings().front()));
  return read.ok() ? *read : platewright::PageText{};
}

std::string fault(const std::string& text) {
  const auto read = platewright::read::page_text(text, "p.txt");
  if (read.ok()) return "none";
  const platewright::Finding& f = read.findings().front();
  return f.code + "@" + std::to_string(f.at.line) + ":" + std::to_string(f.at.column);
}

TEST(Page_text, Joins_the_lines_of_a_paragraph_and_parts_them_at_an_empty_line) {
  const auto text = page("# T\none\ntwo\n\nthree\n");
  EXPECT_EQ(text.title, "T");
  ASSERT_EQ(text.blocks.size(), 2U);
  EXPECT_EQ(text.blocks[0].text, "one two");
  EXPECT_EQ(text.blocks[1].text, "three");
}

TEST(Page_text, Knows_headings_items_cautions_and_new_pages) {
  const auto text = page("# T\n## H\n- a\n- b\n  still b\n! hot\n---\n3) third\n");
  ASSERT_EQ(text.blocks.size(), 6U);
  EXPECT_EQ(text.blocks[0].kind, Kind::heading);
  EXPECT_EQ(text.blocks[1].kind, Kind::bullet);
  EXPECT_EQ(text.blocks[2].text, "b still b");
  EXPECT_EQ(text.blocks[3].kind, Kind::caution);
  EXPECT_EQ(text.blocks[4].kind, Kind::new_page);
  EXPECT_EQ(text.blocks[5].number, 3);
  EXPECT_EQ(text.blocks[5].text, "third");
}

TEST(Page_text, Counts_the_lines_to_write_on_below_a_question) {
  const auto text = page("# T\n1. Why?\n___\n  ______\nAfter.\n");
  ASSERT_EQ(text.blocks.size(), 2U);
  EXPECT_EQ(text.blocks[0].lines, 2);
  EXPECT_EQ(text.blocks[1].text, "After.");
}

TEST(Page_text, Makes_a_code_of_each_link_and_keeps_the_words_of_those_inside_a_text) {
  const auto text = page(
      "# T\n[The library](https://a.example/x)\n\nSee [here](https://b.example) and "
      "<https://c.example/y>.\n");
  ASSERT_EQ(text.blocks.size(), 4U);
  EXPECT_EQ(text.blocks[0].kind, Kind::link);
  EXPECT_EQ(text.blocks[0].text, "The library");
  EXPECT_EQ(text.blocks[0].link, "https://a.example/x");
  EXPECT_EQ(text.blocks[1].text, "See here and https://c.example/y.");
  EXPECT_EQ(text.blocks[2].link, "https://b.example");
  EXPECT_EQ(text.blocks[2].text, "");
  EXPECT_EQ(text.blocks[3].link, "https://c.example/y");
}

TEST(Page_text, Finds_each_fault_where_it_is) {
  EXPECT_EQ(fault("text\n"), "page-title@1:1");
  EXPECT_EQ(fault("# A\ntext\n# B\n"), "page-title@3:1");
  EXPECT_EQ(fault("# A\n"), "page-empty@1:1");
  EXPECT_EQ(fault("# A\ntext\n  ###no\n"), "page-line@3:3");
  EXPECT_EQ(fault("# A\n[x](marlpit)\n"), "page-link@2:1");
  EXPECT_EQ(fault("# A\n\n[x](https://a.example/" + std::string(400, 'a') + ")\n"),
            "page-link@3:1");
  EXPECT_EQ(fault("# A\nt\xff\n"), "not-utf8@2:2");
}

TEST(Page_text, Leaves_brackets_that_are_no_link_alone) {
  EXPECT_EQ(page("# T\na [b] c (d) < e\n").blocks[0].text, "a [b] c (d) < e");
}

}  // namespace
