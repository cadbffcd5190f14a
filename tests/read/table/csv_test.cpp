#include "read/csv.hpp"

#include <gtest/gtest.h>

#include <random>

namespace platewright::read {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(std::string_view text, std::size_t expected_findings = 0) {
  Reading reading{"t.csv", {}};
  Rows rows;
  for (const CsvRow& row : parse_csv(text, reading)) {
    rows.emplace_back();
    for (const CsvField& field : row) rows.back().push_back(field.text);
  }
  EXPECT_EQ(reading.findings.size(), expected_findings);
  return rows;
}

// RFC 4180, section 2, rules 1 to 7, with its own examples.
TEST(Csv, Reads_the_examples_of_its_standard) {
  EXPECT_EQ(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(rows_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(rows_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(rows_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
}

TEST(Csv, Keeps_empty_fields_and_leaves_out_empty_rows) {
  EXPECT_EQ(rows_of("a,,b\n\n,,\n,x,\n"), (Rows{{"a", "", "b"}, {"", "x", ""}}));
  EXPECT_EQ(rows_of(""), Rows{});
  EXPECT_EQ(rows_of("a,\"\""), (Rows{{"a", ""}}));
}

TEST(Csv, Takes_every_kind_of_line_end) {
  EXPECT_EQ(rows_of("a,b\rc,d\re,f"), (Rows{{"a", "b"}, {"c", "d"}, {"e", "f"}}));
  EXPECT_EQ(rows_of("a,b\nc,d\r\ne,f\r"), (Rows{{"a", "b"}, {"c", "d"}, {"e", "f"}}));
}

TEST(Csv, Finds_the_separator_in_the_first_line_outside_quotes) {
  EXPECT_EQ(rows_of("a;b;c\n1,5;2;3\n"), (Rows{{"a", "b", "c"}, {"1,5", "2", "3"}}));
  EXPECT_EQ(rows_of("\"a,a,a\";b\n1;2\n"), (Rows{{"a,a,a", "b"}, {"1", "2"}}));
  EXPECT_EQ(rows_of("a\tb\n1,2\t3\n"), (Rows{{"a", "b"}, {"1,2", "3"}}));
  EXPECT_EQ(rows_of("sep=;\na;b,c,d\n"), (Rows{{"a", "b,c,d"}}));
}

TEST(Csv, Tells_the_place_of_each_field_in_lines_and_characters) {
  Reading reading{"t.csv", {}};
  const auto rows = parse_csv("ä,b\r\n\"x\ny\",z\nq,r", reading);
  ASSERT_EQ(rows.size(), 3U);
  const auto place = [&](std::size_t r, std::size_t c) {
    return std::pair{rows[r][c].place.line, rows[r][c].place.column};
  };
  EXPECT_EQ(place(0, 1), std::pair(1, 3));
  EXPECT_EQ(place(1, 0), std::pair(2, 1));
  EXPECT_EQ(place(1, 1), std::pair(3, 4));
  EXPECT_EQ(place(2, 1), std::pair(4, 3));
}

TEST(Csv, A_quote_inside_a_bare_field_is_a_quote) {
  EXPECT_EQ(rows_of("a,5\" nail\n"), (Rows{{"a", "5\" nail"}}));
}

TEST(Csv, Faults_in_quotes_are_findings) {
  rows_of("a,\"b", 1);
  rows_of("a,\"b\"c\n", 1);
  EXPECT_EQ(rows_of("a,\"b\"  ,c\n"), (Rows{{"a", "b", "c"}}));
}

// What a writer that follows RFC 4180 writes is read back the same.
TEST(Csv, Reads_back_whatever_is_written_by_the_standard) {
  std::mt19937 random(3);
  for (int i = 0; i < 2000; ++i) {
    Rows rows(1 + random() % 4);
    const std::size_t columns = 2 + random() % 4;
    std::string text;
    for (std::size_t r = 0; r < rows.size(); ++r) {
      for (std::size_t c = 0; c < columns; ++c) {
        std::string field(c == 0 ? 1 : 0, 'k');
        // The first row is plain, so that the separator is.
        for (std::size_t n = r == 0 ? 0 : random() % 5; n > 0; --n)
          field += "ab,\"\n\r ;\t"[random() % 9];
        text += c == 0 ? "\"" : ",\"";
        for (const char ch : field) text.append(ch == '"' ? 2 : 1, ch);
        text += '"';
        rows[r].push_back(field);
      }
      text += "\r\n";
    }
    ASSERT_EQ(rows_of(text), rows) << text;
  }
}

}  // namespace
}  // namespace platewright::read
