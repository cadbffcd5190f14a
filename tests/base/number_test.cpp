#include "base/number.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace platewright {
namespace {

TEST(Number, Is_read_whole_or_not_at_all) {
  EXPECT_EQ(parse_number("212.5"), 212.5);
  EXPECT_EQ(parse_number("-1e-3"), -0.001);
  for (const char* bad : {"", " 1", "1 ", "1,5", "0x10", "1.2.3", "nan", "inf", "1e999", ".inf"})
    EXPECT_FALSE(parse_number(bad)) << bad;
  EXPECT_EQ(parse_integer("-7"), -7);
  for (const char* bad : {"", "7.0", "99999999999", "+7"}) EXPECT_FALSE(parse_integer(bad)) << bad;
}

TEST(Number, Is_written_plainly) {
  EXPECT_EQ(format_number(1.0), "1");
  EXPECT_EQ(format_number(0.1 + 0.2), "0.3");
  EXPECT_EQ(format_number(-0.0001), "0");
  EXPECT_EQ(format_number(1234567.891, 1), "1234567.9");
  EXPECT_EQ(format_number(100, 0), "100");
  EXPECT_EQ(format_number(std::numeric_limits<double>::max(), 3).size(), 309U);
}

}  // namespace
}  // namespace platewright
