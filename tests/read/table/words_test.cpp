#include "platewright/words.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "finding_matchers.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

const std::vector<std::string> shipped = {PW_SOURCE_DIR "/styles"};

class Words_files : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(::testing::TempDir()) /
              (std::string("pw-words-") +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  Findings findings_of(const std::string& text) {
    std::ofstream(folder_ / "words.en.yaml") << text;
    return read::words("en", {folder_.string()}).findings();
  }
  static std::string all_but(std::string_view left_out) {
    std::string text;
    for (const WordKey& key : word_keys()) {
      if (key.key == left_out) continue;
      text += std::string(key.key) + ": \"text";
      for (const auto placeholder : key.placeholders) text += " {" + std::string(placeholder) + "}";
      text += "\"\n";
    }
    return text;
  }
  std::filesystem::path folder_;
};

TEST(Words, Every_shipped_language_has_every_key) {
  for (const char* language : {"en", "de", "es", "fr"}) {
    const auto words = read::words(language, shipped);
    ASSERT_TRUE(words) << all_text(words.findings());
    EXPECT_TRUE(words.findings().empty()) << all_text(words.findings());
    EXPECT_EQ(words->language, language);
    for (const WordKey& key : word_keys()) EXPECT_FALSE(words->at(key.key).empty()) << key.key;
  }
}

TEST(Words, Languages_differ_where_they_must) {
  const auto en = read::words("en", shipped), de = read::words("de", shipped);
  EXPECT_EQ(de->at("worksheet"), "Arbeitsblatt");
  for (const char* key : {"instruction-worksheet", "learning-note", "page", "set-ages"})
    EXPECT_NE(en->at(key), de->at(key)) << key;
}

TEST(Words, A_regional_language_falls_back_to_its_language) {
  EXPECT_EQ(read::words("de-AT", shipped)->language, "de");
  EXPECT_EQ(read::words("ES-419", shipped)->language, "es");
}

TEST(Words, An_unknown_language_falls_back_to_english_with_a_warning) {
  const auto words = read::words("sw", shipped);
  ASSERT_TRUE(words);
  EXPECT_EQ(words->language, "en");
  EXPECT_TRUE(has_code(words.findings(), "words-fallback"));
}

TEST(Words, A_language_is_never_a_path) {
  EXPECT_TRUE(has_code(read::words("../../etc/passwd", shipped).findings(), "language-invalid"));
  EXPECT_TRUE(has_code(read::words("", shipped).findings(), "language-invalid"));
}

TEST_F(Words_files, A_missing_file_or_key_is_a_finding) {
  EXPECT_TRUE(has_code(read::words("en", {folder_.string()}).findings(), "words-missing"));
  EXPECT_EQ(places_and_codes(findings_of(all_but("poster"))), "0:0 words-missing");
  EXPECT_EQ(places_and_codes(findings_of(all_but("") + "posters: x\n")),
            std::to_string(word_keys().size() + 1) + ":1 key-unknown");
  EXPECT_TRUE(has_code(findings_of("[]"), "not-a-map"));
}

TEST_F(Words_files, Placeholders_must_be_those_of_the_key) {
  EXPECT_TRUE(
      has_code(findings_of(all_but("page") + "page: \"Page {page}\"\n"), "words-placeholder"));
  EXPECT_TRUE(
      has_code(findings_of(all_but("poster") + "poster: \"{size}\"\n"), "words-placeholder"));
  EXPECT_TRUE(findings_of(all_but("page") + "page: \"{pages}: {page}\"\n").empty());
}

}  // namespace
}  // namespace platewright
