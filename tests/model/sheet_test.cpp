#include "platewright/sheet.hpp"

#include <gtest/gtest.h>

namespace platewright {
namespace {

TEST(Sheet_kinds, Are_found_by_the_name_that_they_are_listed_with) {
  EXPECT_EQ(sheet_kinds().size(), 24U);
  for (const SheetKindInfo& info : sheet_kinds()) {
    EXPECT_EQ(*find_sheet_kind(info.name), info.kind);
    EXPECT_EQ(name_of(info.kind), info.name);
    EXPECT_FALSE(info.summary.empty());
  }
}

TEST(Sheet_kinds, An_unknown_one_is_a_finding_with_what_was_meant) {
  const auto kind = find_sheet_kind("worksheets");
  ASSERT_FALSE(kind);
  EXPECT_EQ(kind.findings().front().code, "kind-unknown");
  EXPECT_EQ(kind.findings().front().advice, "did you mean \"worksheet\"");
  EXPECT_NE(find_sheet_kind("xxxxxxxxxx").findings().front().advice.find("\"numbered\""),
            std::string::npos);
}

}  // namespace
}  // namespace platewright
