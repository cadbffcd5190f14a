#include "compose/review/answers.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "compose/plan.hpp"

namespace platewright::compose {
namespace {

std::vector<std::string> shown(const std::vector<std::string>& names, std::size_t most,
                               bool single_words, std::size_t longest = 12) {
  const Style style;
  SheetInput input;
  input.style = &style;
  input.matter.language = "en";
  std::vector<StudyTerm> terms;
  for (const std::string& name : names) {
    StudyTerm term;
    term.anchor = name;
    term.text = name;
    terms.push_back(term);
  }
  std::vector<std::string> all;
  for (const Answer& a : separate_answers(input, terms, 3, longest, most, single_words))
    all.push_back(a.shown);
  return all;
}

using Shown = std::vector<std::string>;

TEST(Separate_answers, Of_single_words_are_whole_terms_before_parts_of_others) {
  const Shown names = {"Hind wing", "Middle leg", "Thorax", "Sting", "Hair"};
  EXPECT_EQ(shown(names, 3, true), (Shown{"THORAX", "STING", "HAIR"}));
  EXPECT_EQ(shown(names, 5, true), (Shown{"THORAX", "STING", "HAIR", "HIND", "MIDDLE"}));
}

TEST(Separate_answers, Of_several_words_are_whole_where_they_are_short_enough) {
  const Shown names = {"Anterior chamber", "Hind leg", "Iris"};
  EXPECT_EQ(shown(names, 2, false), (Shown{"HIND LEG", "IRIS"}));
  EXPECT_EQ(shown(names, 3, false), (Shown{"HIND LEG", "IRIS", "ANTERIOR"}));
  EXPECT_EQ(shown(names, 3, false, 15), (Shown{"ANTERIOR CHAMBER", "HIND LEG", "IRIS"}));
}

TEST(Separate_answers, Never_hide_one_another_forwards_or_backwards) {
  EXPECT_EQ(shown({"Eye", "Eyelid", "Lid"}, 3, true), (Shown{"EYE", "LID"}));
  EXPECT_EQ(shown({"Part", "Trap"}, 2, true), (Shown{"PART"}));
  // The long word of the second is taken, so its other one stands for it.
  EXPECT_EQ(shown({"Lens", "Lens capsule"}, 2, true), (Shown{"LENS", "CAPSULE"}));
}

}  // namespace
}  // namespace platewright::compose
