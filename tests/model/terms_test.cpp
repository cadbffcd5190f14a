#include "platewright/terms.hpp"

#include <gtest/gtest.h>

namespace platewright {
namespace {

LabelSet set_of(std::string name, std::string language) {
  LabelSet set;
  set.name = std::move(name);
  set.language = std::move(language);
  return set;
}

TEST(Text_by_set, Is_found_by_set_then_language_then_everywhere) {
  TextBySet text{"all", {{"middle", "by set"}, {"de", "by language"}}};
  EXPECT_EQ(text.text_for(set_of("middle", "de")), "by set");
  EXPECT_EQ(text.text_for(set_of("mitte", "de")), "by language");
  EXPECT_EQ(text.text_for(set_of("milieu", "fr")), "all");
  EXPECT_EQ(TextBySet{}.text_for(set_of("x", "en")), "");
  EXPECT_TRUE(TextBySet{}.empty());
  EXPECT_FALSE(text.empty());
}

// RFC 4647, section 3.4, lookup: zh-Hant-TW falls back to zh-Hant, then zh.
TEST(Text_by_set, Falls_back_from_a_regional_language) {
  TextBySet text{"", {{"de", "Deutsch"}, {"zh-Hant", "Han"}}};
  EXPECT_EQ(text.text_for(set_of("s", "de-AT")), "Deutsch");
  EXPECT_EQ(text.text_for(set_of("s", "zh-Hant-TW")), "Han");
  EXPECT_EQ(text.text_for(set_of("s", "zh")), "");
  EXPECT_EQ(text.text_for(set_of("s", "den")), "");
}

TEST(Terms, Finds_a_set_by_its_name) {
  Terms terms;
  terms.sets = {set_of("little", "en"), set_of("middle", "de")};
  ASSERT_NE(terms.find_set("middle"), nullptr);
  EXPECT_EQ(terms.find_set("middle")->language, "de");
  EXPECT_EQ(terms.find_set("upper"), nullptr);
}

}  // namespace
}  // namespace platewright
