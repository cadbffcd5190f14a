#include "read/encoding.hpp"

#include <gtest/gtest.h>

#include "finding_matchers.hpp"

namespace platewright::read {
namespace {

TEST(Encoding, Drops_the_byte_order_mark) {
  EXPECT_EQ(*text_from("\xef\xbb\xbf"
                       "abc",
                       "f"),
            "abc");
  EXPECT_EQ(*text_from("", "f"), "");
}

// U+1F600 in both byte orders, by The Unicode Standard, table 3-5.
TEST(Encoding, Converts_utf16_that_has_a_mark) {
  EXPECT_EQ(*text_from(std::string_view("\xff\xfe"
                                        "a\0\x3d\xd8\x00\xde",
                                        8),
                       "f"),
            "a\U0001F600");
  EXPECT_EQ(*text_from(std::string_view("\xfe\xff\0a\xd8\x3d\xde\x00", 8), "f"), "a\U0001F600");
  EXPECT_EQ(*text_from(std::string_view("\xff\xfe\x3d\xd8"
                                        "a\0",
                                        6),
                       "f"),
            "\uFFFDa");
  EXPECT_EQ(*text_from(std::string_view("\xff\xfe"
                                        "a\0b",
                                        5),
                       "f"),
            "a\uFFFD");
}

TEST(Encoding, Says_where_a_file_is_not_utf8) {
  const auto text = text_from("ab\nä\xe9", "f.csv");
  ASSERT_FALSE(text);
  EXPECT_EQ(
      to_text(text.findings().front()),
      "f.csv:2:2: error[not-utf8]: the file is not UTF-8 text from here on; save it as UTF-8");
}

TEST(Encoding, Tells_control_characters_once_a_line) {
  EXPECT_EQ(places_and_codes(text_from("a\x01\x02\nb\x03\tc\r\n", "f").findings()),
            "1:2 control-character\n2:2 control-character");
  EXPECT_TRUE(text_from("tab\t, cr\r, lf\n, nel \xc2\x85", "f"));
  EXPECT_EQ(text_from(std::string(1000, '\x01') + std::string(1000, '\n'), "f").findings().size(),
            1U);
}

}  // namespace
}  // namespace platewright::read
