#include "platewright/words.hpp"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>

namespace platewright {
namespace {

TEST(Words, Fill_replaces_every_placeholder_and_never_inside_the_value) {
  EXPECT_EQ(fill("Page {page} of {pages}", "page", "3"), "Page 3 of {pages}");
  EXPECT_EQ(fill("{a}{a}", "a", "{a}"), "{a}{a}");
  EXPECT_EQ(fill("none", "a", "x"), "none");
}

TEST(Words, Keys_are_unique) {
  std::set<std::string_view> keys;
  for (const WordKey& key : word_keys()) EXPECT_TRUE(keys.insert(key.key).second) << key.key;
}

TEST(Words, Asking_for_a_key_that_does_not_exist_is_a_fault_of_the_program) {
  const Words words{"en", {{"poster", "Poster"}}};
  EXPECT_EQ(words.at("poster"), "Poster");
  EXPECT_THROW(words.at("posters"), std::logic_error);
}

}  // namespace
}  // namespace platewright
