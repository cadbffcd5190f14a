// Where things lie in a figure's file.
#include <gtest/gtest.h>

#include "base/utf8.hpp"
#include "read/svg_source.hpp"

namespace platewright::read {
namespace {

TEST(Svg_source, Tells_line_and_column_in_characters_as_counting_them_one_by_one_does) {
  // Lines of many lengths, one of them of several blocks, with characters of one to four bytes.
  std::string text = "<svg>";
  for (int i = 0; i < 6000; ++i) {
    text += i % 7 == 0 ? "\xc3\xa4" : i % 11 == 0 ? "\xf0\x9f\xab\x80" : i % 5 == 0 ? "\xe5\xbf\x83" : "x";
    if (i < 1500 && i % 97 == 0) text += i % 2 ? "\r\n" : "\n";
  }
  const auto source = decode_svg(text, "f.svg");
  ASSERT_TRUE(source.ok());
  int line = 1, column = 1;
  for (std::size_t at = 0; at < text.size();) {
    const SourcePosition place = source->at(at);
    ASSERT_EQ(place.line, line) << at;
    ASSERT_EQ(place.column, column) << at;
    if (text[at] == '\n') ++line, column = 0;
    at += utf8_at(text, at)->bytes;
    ++column;
  }
  EXPECT_EQ(source->at(text.size() + 99).column, column);
}

}  // namespace
}  // namespace platewright::read
