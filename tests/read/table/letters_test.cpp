// The letters files: what is shipped, what is wrong in one of one's own.
#include "platewright/letters.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "base/utf8.hpp"
#include "finding_matchers.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

const std::vector<std::string> shipped = {PW_SOURCE_DIR "/styles"};

TEST(Letters, Are_shipped_for_the_languages_that_have_words) {
  for (const std::string language : {"en", "de", "es", "fr"}) {
    const auto letters = read::letters(language, shipped);
    ASSERT_TRUE(letters.ok()) << all_text(letters.findings());
    EXPECT_TRUE(letters.findings().empty());
    double sum = 0, e = 0, most = 0;
    for (const auto& [letter, share] : letters->frequency) {
      EXPECT_EQ(utf8_length(letter), 1U);
      sum += share;
      most = std::max(most, share);
      if (letter == "E") e = share;
    }
    // Percent of running text; E leads in all four languages (common tables, from memory).
    EXPECT_NEAR(sum, 100, 1.5) << language;
    EXPECT_EQ(e, most) << language;
    EXPECT_GE(letters->unwanted.size(), 10U) << language;
    for (const std::string& word : letters->unwanted) EXPECT_GE(utf8_length(word), 3U) << word;
  }
}

TEST(Letters, Of_a_region_are_its_language_s_and_of_others_none) {
  EXPECT_FALSE(read::letters("de-AT", shipped)->frequency.empty());
  EXPECT_TRUE(read::letters("he", shipped)->frequency.empty());
}

TEST(Letters, Faults_are_found_where_they_stand) {
  const std::filesystem::path folder =
      std::filesystem::path(::testing::TempDir()) / "pw-letters-faults";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "letters.en.yaml") << "letters: {A: 3, B: none, C: -1}\n"
                                               "unwanted: [AB, ABC]\n";
  const auto letters = read::letters("en", {folder.string()});
  EXPECT_FALSE(letters.ok());
  EXPECT_EQ(places_and_codes(letters.findings()),
            "1:20 letters-share\n1:29 letters-share\n2:12 letters-unwanted");
  std::ofstream(folder / "letters.en.yaml") << "unwanted: AB\n";
  EXPECT_TRUE(has_code(read::letters("en", {folder.string()}).findings(), "letters-unwanted"));
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace platewright
