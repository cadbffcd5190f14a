#include "platewright/length.hpp"

#include <gtest/gtest.h>

#include <clocale>

namespace platewright {
namespace {

std::string message_of(std::string_view text) {
  const auto length = parse_length(text);
  return length ? "" : to_text(length.findings().front());
}

// 1 in = 25.4 mm (international inch, 1959), 1 pt = 1/72 in (PDF 32000-1, 8.3.2.3).
TEST(Length, Reads_every_unit_the_trade_uses) {
  EXPECT_DOUBLE_EQ(parse_length("12mm")->mm(), 12.0);
  EXPECT_DOUBLE_EQ(parse_length("118 cm")->mm(), 1180.0);
  EXPECT_DOUBLE_EQ(parse_length("2 m")->mm(), 2000.0);
  EXPECT_DOUBLE_EQ(parse_length("1.5 in")->mm(), 38.1);
  EXPECT_DOUBLE_EQ(parse_length("3ft")->mm(), 914.4);
  EXPECT_DOUBLE_EQ(parse_length("72pt")->mm(), 25.4);
  EXPECT_DOUBLE_EQ(parse_length("\t 9pt ")->pt(), 9.0);
  EXPECT_DOUBLE_EQ(parse_length(".5in")->mm(), 12.7);
  EXPECT_DOUBLE_EQ(parse_length("-3mm")->mm(), -3.0);
  EXPECT_DOUBLE_EQ(parse_length("1e3mm")->mm(), 1000.0);
}

TEST(Length, Converts_back_to_the_unit_it_came_in) {
  EXPECT_DOUBLE_EQ(Length::in(11).in(), 11.0);
  EXPECT_DOUBLE_EQ(Length::pt(9).pt(), 9.0);
  EXPECT_DOUBLE_EQ(Length::cm(118).cm(), 118.0);
  EXPECT_DOUBLE_EQ(Length::ft(1) / Length::in(1), 12.0);
  EXPECT_LT(Length::mm(25), Length::in(1));
}

TEST(Length, Says_what_a_text_lacks) {
  EXPECT_EQ(
      message_of("12"),
      "error[length-invalid]: \"12\" is not a length: it has no unit; add mm, cm, m, in, ft or "
      "pt");
  EXPECT_NE(message_of("1,5 cm").find("it has a comma"), std::string::npos);
  EXPECT_NE(message_of("12 furlongs").find("unknown unit \"furlongs\""), std::string::npos);
  EXPECT_NE(message_of("").find("it has no number"), std::string::npos);
  EXPECT_NE(message_of("mm").find("it has no number"), std::string::npos);
  EXPECT_NE(message_of("12 MM").find("unknown unit"), std::string::npos);
}

TEST(Length, Refuses_what_is_not_finite) {
  for (const char* text : {"inf mm", "nan mm", "NaN mm", "1e999 mm", "1e307 m", "infinity pt"})
    EXPECT_FALSE(parse_length(text)) << text;
}

TEST(Length, Reads_and_writes_alike_in_every_locale) {
  const char* const german = std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_DOUBLE_EQ(parse_length("1.5 cm")->mm(), 15.0);
  EXPECT_EQ(format_mm(Length::mm(1.5)), "1.5 mm");
  if (german != nullptr) std::setlocale(LC_ALL, "C");
}

TEST(Length, Is_written_without_trailing_zeros) {
  EXPECT_EQ(format_mm(Length::mm(12)), "12 mm");
  EXPECT_EQ(format_mm(Length::mm(12.345), 2), "12.35 mm");
  EXPECT_EQ(format_mm(Length::in(11), 1), "279.4 mm");
  EXPECT_EQ(format_mm(Length::mm(-0.01)), "0 mm");
  EXPECT_EQ(format_mm(Length::mm(100), 0), "100 mm");
}

}  // namespace
}  // namespace platewright
