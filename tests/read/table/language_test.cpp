#include "read/language.hpp"

#include <gtest/gtest.h>

namespace platewright::read {
namespace {

// RFC 5646, appendix A, examples of language tags; letter case by section 2.1.1.
TEST(Language, Takes_the_examples_of_its_standard) {
  for (const char* tag : {"de",
                          "fr",
                          "ja",
                          "zh-Hant",
                          "zh-Hans",
                          "sr-Cyrl",
                          "sr-Latn",
                          "zh-cmn-Hans-CN",
                          "cmn-Hans-CN",
                          "zh-yue-HK",
                          "yue-HK",
                          "zh-Hans-CN",
                          "sr-Latn-RS",
                          "sl-rozaj",
                          "sl-rozaj-biske",
                          "sl-nedis",
                          "de-CH-1901",
                          "sl-IT-nedis",
                          "hy-Latn-IT-arevela",
                          "de-DE",
                          "en-US",
                          "es-419",
                          "de-CH-x-phonebk",
                          "az-Arab-x-aze-derbend",
                          "x-whatever",
                          "qaa-Qaaa-QM-x-southern",
                          "de-Qaaa",
                          "sr-Latn-QM",
                          "sr-Qaaa-RS",
                          "en-US-u-islamcal",
                          "zh-CN-a-myext-x-private",
                          "en-a-myext-b-another"})
    EXPECT_EQ(language_tag(tag), tag);
}

// RFC 5646, appendix A, "some invalid tags", those that are not well formed.
TEST(Language, Refuses_the_bad_examples_of_its_standard) {
  EXPECT_FALSE(language_tag("de-419-DE"));
  EXPECT_FALSE(language_tag("a-DE"));
}

TEST(Language, Refuses_what_people_write_by_mistake) {
  for (const char* bad : {"", "e", "en_US", "english", "deutsch", "en-", "-en", "en--US", "en US",
                          "en-US.UTF-8", "../en", "x", "en-x", "en-a", "a1", "12"})
    EXPECT_FALSE(language_tag(bad)) << bad;
  EXPECT_FALSE(language_tag("en" + std::string(1000, '-')));
}

TEST(Language, Writes_the_usual_letter_case) {
  EXPECT_EQ(language_tag("EN-us"), "en-US");
  EXPECT_EQ(language_tag("ZH-hANT-tw"), "zh-Hant-TW");
  EXPECT_EQ(language_tag("DE"), "de");
}

}  // namespace
}  // namespace platewright::read
