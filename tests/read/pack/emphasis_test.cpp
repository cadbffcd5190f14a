// Words that lean or are heavy, by their asterisks.
#include "read/emphasis.hpp"

#include <gtest/gtest.h>

namespace platewright::read {
namespace {

// The text as it comes out, with what stands out in <b> and <i>.
std::string shown(std::string text) {
  const std::vector<Emphasis> found = take_emphasis(text);
  std::string out;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    for (auto e = found.rbegin(); e != found.rend(); ++e)
      if (e->to == i) out += e->bold && e->italic ? "</bi>" : e->bold ? "</b>" : "</i>";
    for (const Emphasis& e : found)
      if (e.from == i) out += e.bold && e.italic ? "<bi>" : e.bold ? "<b>" : "<i>";
    if (i < text.size()) out += text[i];
  }
  return out;
}

TEST(Emphasis, Is_what_stands_between_asterisks) {
  EXPECT_EQ(shown("the bee *Apis mellifera* flies"), "the bee <i>Apis mellifera</i> flies");
  EXPECT_EQ(shown("**Wash** your hands"), "<b>Wash</b> your hands");
  EXPECT_EQ(shown("***both***"), "<bi>both</bi>");
  EXPECT_EQ(shown("**a *b* c**"), "<b>a <i>b</i> c</b>");
  EXPECT_EQ(shown("un*believ*able"), "un<i>believ</i>able");
  EXPECT_EQ(shown("*größe*"), "<i>größe</i>");
  EXPECT_EQ(shown("*a* and *b*"), "<i>a</i> and <i>b</i>");
}

TEST(Emphasis, Leaves_other_asterisks_alone) {
  for (const char* plain : {"2 * 3 = 6", "a footnote*", "*open", "**half*", "* * *", "****", ""})
    EXPECT_EQ(shown(plain), plain);
  EXPECT_EQ(shown("\\*not\\*"), "*not*");
  EXPECT_EQ(shown("*a **b* c"), "<i>a **b</i> c");
}

}  // namespace
}  // namespace platewright::read
