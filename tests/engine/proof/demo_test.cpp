// The demo's sheets, as PDF and as SVG, have nothing that proof finds.
#include "support/demo.hpp"

#include <gtest/gtest.h>

#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/share.hpp"

namespace {

// What the program makes passes, or the program is at fault.
class ProofOfDemo : public testing::TestWithParam<std::string> {};

TEST_P(ProofOfDemo, Finds_nothing) {
  const support::Scratch scratch;
  const std::string figure = GetParam();
  for (const std::string& set :
       support::first_of(std::vector<std::string>{"klein", "middle", "upper"}))
    for (const std::string ending : {"pdf", "svg"}) {
      const auto made = support::platewright(
          {"sheet", support::demo_svg(figure), "--terms", support::demo_terms(figure), "--set", set,
           "--kind", "poster,worksheet,copywork,key,numbered,colouring", "--word-bank", "--paper",
           "letter", "--format", ending, "--out", scratch / (set + "/")});
      ASSERT_EQ(made.code, 0) << made.said();
      const std::string age = set == "klein" ? "4" : set == "middle" ? "7" : "11";
      const auto looked = support::platewright({"proof", scratch / set, "--age", age});
      EXPECT_EQ(looked.code, 0) << looked.said();
      EXPECT_EQ(looked.err, "") << set << " " << ending;
    }
}

// Small pictures of a figure keep lines that print.
TEST_P(ProofOfDemo, Finds_nothing_in_review_pages_and_games) {
  const support::Scratch scratch;
  const std::string figure = GetParam();
  const auto made = support::platewright(
      {"sheet", support::demo_svg(figure), "--terms", support::demo_terms(figure), "--set", "gross",
       "--kind",
       support::share > 1
           ? "matching,criss-cross,cards"
           : "matching,sort,odd-one-out,true-or-false,fill-in,word-search,criss-cross,scramble,"
             "missing-letters,maze,cards,memory,bingo,quiz,track,mat,locate",
       "--paper", "a4", "--out", scratch / "review.pdf"});
  ASSERT_EQ(made.code, 0) << made.said();
  const auto looked = support::platewright({"proof", scratch / "review.pdf", "--age", "11"});
  EXPECT_EQ(looked.code, 0) << looked.said();
  EXPECT_EQ(looked.err, "");
}

// A level leader is a stripe of one smoothed grey, which was taken for a part of the figure.
TEST(ProofOfPosters, Finds_nothing_where_a_level_leader_runs_over_a_part) {
  const support::Scratch scratch;
  const auto made = support::platewright({"sheet", support::demo_svg("heart"), "--terms",
                                          support::demo_terms("heart"), "--set", "gross", "--kind",
                                          "poster", "--paper", "a3", "--out", scratch / "a3.pdf"});
  ASSERT_EQ(made.code, 0) << made.said();
  const auto looked = support::platewright({"proof", scratch / "a3.pdf"});
  EXPECT_EQ(looked.code, 0) << looked.said();
  EXPECT_EQ(looked.err, "");
}

INSTANTIATE_TEST_SUITE_P(Figures, ProofOfDemo,
                         testing::ValuesIn(support::first_of(support::demo_figures())),
                         [](const auto& each) { return each.param; });

}  // namespace
