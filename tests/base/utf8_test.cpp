#include "base/utf8.hpp"

#include <gtest/gtest.h>

namespace platewright {
namespace {

// RFC 3629, section 7.
TEST(Utf8, Reads_the_examples_of_its_standard) {
  EXPECT_EQ(utf8_at("A\u2262\u0391.", 1)->code, 0x2262U);
  EXPECT_EQ(utf8_at("\xf0\xa3\x8e\xb4", 0)->code, 0x233b4U);
  EXPECT_EQ(utf8_at("\xf0\xa3\x8e\xb4", 0)->bytes, 4U);
}

// RFC 3629, sections 3 and 10: overlong forms, surrogates, beyond U+10FFFF.
TEST(Utf8, Refuses_what_its_standard_forbids) {
  for (const char* bad :
       {"\xc0\x80", "\xc1\xbf", "\xe0\x80\x80", "\xed\xa0\x80", "\xf0\x80\x80\x80",
        "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff", "\x80", "\xe2\x82", "\xc3("})
    EXPECT_EQ(first_invalid_utf8(bad), 0U) << bad;
  EXPECT_EQ(first_invalid_utf8("abc\xe9"), 3U);
  EXPECT_FALSE(first_invalid_utf8("Großes Vieleckbein, κνήμη, قلب, 心"));
}

TEST(Utf8, Writes_back_every_character_it_reads) {
  for (char32_t code = 0; code <= 0x10ffff; ++code) {
    if (code >= 0xd800 && code < 0xe000) continue;
    std::string text;
    append_utf8(text, code);
    const auto character = utf8_at(text, 0);
    ASSERT_TRUE(character);
    ASSERT_EQ(character->code, code);
    ASSERT_EQ(character->bytes, text.size());
  }
}

TEST(Utf8, Counts_characters_not_bytes) {
  EXPECT_EQ(utf8_length("Füße"), 4U);
  EXPECT_EQ(utf8_length("a\xff b"), 4U);
  EXPECT_EQ(utf8_length(""), 0U);
}

}  // namespace
}  // namespace platewright
