// What review sheets say of tables that lack what they are made of.
#include <gtest/gtest.h>

#include "engine/composing.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace platewright {
namespace {

// Findings, as "error[code]" lines, of one kind made from a tooth with these rows.
std::string said(SheetKind kind, const std::string& rows, const std::string& more = "",
                 const std::string& style = "") {
  const support::Scratch scratch;
  support::write(scratch / "t.terms.yaml",
                 "sets: {middle: {ages: 8-10, language: en}}\n" + more + "terms:\n" + rows);
  const text::Typesetter typesetter;
  SheetRequest request;
  request.figure = support::demo_svg("tooth");
  request.terms = scratch / "t.terms.yaml";
  request.kinds = {kind};
  if (!style.empty()) {
    support::write(scratch / "own.yaml", "extends: classroom\n" + style);
    request.style = scratch / "own.yaml";
  }
  Findings findings;
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  findings = loaded.findings();
  if (loaded.ok()) findings = compose_figure(*loaded, request, typesetter, nullptr).findings();
  std::string all;
  for (const Finding& f : findings)
    all += (f.severity == Severity::error ? "error " : "warning ") + f.code + "\n";
  return all;
}

const std::string bare =
    "  crown: {middle: Crown}\n  root: {middle: Root}\n  enamel: {middle: Enamel}\n"
    "  gum: {middle: Gum}\n";
const std::string clued =
    "  crown: {middle: Crown, clue: What you chew with.}\n"
    "  root: {middle: Root, clue: It is hidden.}\n"
    "  enamel: {middle: Enamel, clue: The hardest.}\n"
    "  gum: {middle: Gum}\n";

TEST(Review_findings, A_table_without_clues_is_one_clear_error) {
  EXPECT_EQ(said(SheetKind::true_or_false, bare), "error clues-missing\n");
  EXPECT_EQ(said(SheetKind::fill_in, bare), "error clues-missing\n");
  // Words can still be matched with pictures.
  EXPECT_EQ(said(SheetKind::matching, bare), "warning clues-missing\n");
}

TEST(Review_findings, A_term_without_a_clue_is_left_out_with_a_warning) {
  EXPECT_EQ(said(SheetKind::true_or_false, clued), "warning clues-missing\n");
  EXPECT_EQ(said(SheetKind::fill_in, clued), "warning clues-missing\n");
  EXPECT_EQ(said(SheetKind::matching, clued), "warning clues-missing\n");
}

TEST(Review_findings, A_table_without_groups_is_one_clear_error) {
  EXPECT_EQ(said(SheetKind::sort, bare), "error groups-missing\n");
  EXPECT_EQ(said(SheetKind::odd_one_out, bare), "error groups-missing\n");
  const std::string one =
      "  crown: {middle: Crown, group: g}\n  root: {middle: Root, group: g}\n"
      "  enamel: {middle: Enamel, group: g}\n";
  EXPECT_EQ(said(SheetKind::sort, one), "error groups-missing\n");
  EXPECT_EQ(said(SheetKind::odd_one_out, one), "error groups-missing\n");
}

TEST(Review_findings, Too_few_terms_are_an_error) {
  EXPECT_EQ(said(SheetKind::matching, "  crown: {middle: Crown}\n  root: {middle: Root}\n"),
            "error terms-few\n");
}

TEST(Review_findings, Games_say_what_they_lack) {
  EXPECT_EQ(said(SheetKind::bingo, bare), "error terms-few\n");
  EXPECT_EQ(said(SheetKind::memory, "  crown: {middle: Crown}\n  root: {middle: Root}\n"),
            "error terms-few\n");
  EXPECT_EQ(said(SheetKind::quiz, bare), "error clues-missing\n");
  EXPECT_EQ(said(SheetKind::criss_cross, bare), "error clues-missing\n");
  const std::string strangers =
      "  crown: {middle: ABC, clue: One.}\n  root: {middle: DEF, clue: Two.}\n";
  EXPECT_EQ(said(SheetKind::criss_cross, strangers), "error terms-few\n");
  const std::string no_letters = "  crown: {middle: \"?!\"}\n  root: {middle: \"..\"}\n";
  for (const SheetKind kind :
       {SheetKind::word_search, SheetKind::scramble, SheetKind::missing_letters})
    EXPECT_EQ(said(kind, no_letters), "error terms-few\n");
}

TEST(Review_findings, A_word_that_crosses_no_other_is_left_out_with_a_warning) {
  EXPECT_EQ(said(SheetKind::criss_cross,
                 "  crown: {middle: ABC, clue: One.}\n  root: {middle: BCD, clue: Two.}\n"
                 "  gum: {middle: XYZ, clue: Three.}\n"),
            "warning words-left-out\n");
}

TEST(Review_findings, Fewer_bingo_cards_than_asked_are_a_warning) {
  const std::string six =
      "  crown: {middle: A}\n  root: {middle: B}\n  enamel: {middle: C}\n  gum: {middle: D}\n"
      "  pulp: {middle: E}\n  nerve: {middle: F}\n";
  EXPECT_EQ(said(SheetKind::bingo, six), "");
  EXPECT_EQ(said(SheetKind::bingo, six, "", "review: {bingo-cards: 200}\n"),
            "warning bingo-cards\n");
}

TEST(Review_findings, A_card_larger_than_the_paper_is_an_error) {
  EXPECT_EQ(said(SheetKind::cards, bare, "", "review: {card: 290x90mm}\n"),
            "error card-large\n");
  EXPECT_EQ(said(SheetKind::cards, bare, "", "review: {card: a7}\n"), "");
  EXPECT_EQ(said(SheetKind::cards, bare, "", "review: {card: a0}\n"), "error style-range\n");
  EXPECT_EQ(said(SheetKind::cards, bare, "", "review: {card: a77}\n"), "error paper-unknown\n");
}

TEST(Review_findings, A_route_names_rows_each_once) {
  EXPECT_EQ(said(SheetKind::paste, bare, "route: [crown, jaw]\n"), "error route-unknown\n");
  EXPECT_EQ(said(SheetKind::paste, bare, "route: [crown, root, crown]\n"), "error route-unknown\n");
  EXPECT_EQ(said(SheetKind::paste, bare, "route: crown\n"), "error route-shape\n");
  EXPECT_EQ(said(SheetKind::paste, bare, "route: [crown, root]\n"), "");
}

}  // namespace
}  // namespace platewright
