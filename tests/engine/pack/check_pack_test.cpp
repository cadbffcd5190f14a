// What `check` says of a pack that only shows when its tables stand side by side.
#include "engine/check_pack.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "engine/pack_plan.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace {

using testing::HasSubstr;
using testing::Not;

const std::string svg = R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">
<rect class="skin" x="10" y="10" width="80" height="80" fill="#ffccaa"/>
<rect x="20" y="20" width="20" height="20" data-anchor="one"/>
<rect x="60" y="60" width="20" height="20" data-anchor="two"/>
</svg>)";

std::string table(const std::string& rows) {
  return "figure: f.svg\nsets:\n  en1: {ages: 7-10, language: en}\n"
         "  de1: {ages: 7-10, language: de}\nterms:\n" + rows;
}

const std::string manifest =
    "papers: a4\nkinds: poster\nfigures:\n  a: a.terms.yaml\n  b: b.terms.yaml\n";

struct Pack {
  support::Scratch scratch;
  Pack() {
    support::write(scratch / "f.svg", svg);
    support::write(scratch / "a.terms.yaml",
                   table("  one: {en1: Big toe, de1: Zehe}\n  two: {en1: Nail, de1: Nagel}\n"));
    support::write(scratch / "b.terms.yaml",
                   table("  one: {en1: Skin, de1: Haut}\n  two: {en1: Nail, de1: Nagel}\n"));
    support::write(scratch / "p.yaml", manifest);
  }
  std::string said() const {
    std::string text;
    for (const auto& f :
         platewright::check_pack(scratch / "p.yaml", platewright::usual_environment()))
      text += f.code + " " + f.message + "\n";
    return text;
  }
};

TEST(Check_pack, Says_nothing_of_a_pack_that_is_all_right) {
  EXPECT_EQ(Pack().said(), "");
}

TEST(Check_pack, Finds_a_term_that_a_language_lacks) {
  const Pack pack;
  support::write(pack.scratch / "a.terms.yaml",
                 table("  one: {en1: Big toe}\n  two: {en1: Nail, de1: Nagel}\n"));
  EXPECT_THAT(pack.said(), HasSubstr("term-untranslated term \"one\" is in set \"en1\" but not in "
                                     "\"de1\""));
}

TEST(Check_pack, Finds_anchors_without_a_term) {
  const Pack pack;
  support::write(pack.scratch / "a.terms.yaml", table("  one: {en1: Big toe, de1: Zehe}\n"));
  EXPECT_THAT(pack.said(), HasSubstr("anchor-unlabelled anchor \"two\""));
}

TEST(Check_pack, Finds_one_word_in_two_spellings) {
  const Pack pack;
  support::write(pack.scratch / "b.terms.yaml",
                 table("  one: {en1: Big-Toe, de1: Haut}\n  two: {en1: Nail, de1: Nagel}\n"));
  EXPECT_THAT(pack.said(),
              HasSubstr("spelling-differs set \"en1\" says \"Big-Toe\" here and \"Big toe\""));
}

TEST(Check_pack, Finds_terms_and_figures_that_no_edition_shows) {
  const Pack pack;
  support::write(pack.scratch / "a.terms.yaml",
                 "figure: f.svg\nsets:\n  en1: {ages: 7-10, language: en}\n"
                 "  fr1: {ages: 7-10, language: fr}\nterms:\n"
                 "  one: {en1: Toe}\n  two: {fr1: Ongle}\n");
  support::write(pack.scratch / "p.yaml", "sets: [en1, de1]\n" + manifest);
  const std::string said = pack.said();
  EXPECT_THAT(said, HasSubstr("term-unused term \"two\""));
  EXPECT_THAT(said, HasSubstr("set-missing"));
}

TEST(Check_pack, Finds_a_key_without_the_sheet_that_it_is_of) {
  const Pack pack;
  support::write(pack.scratch / "p.yaml",
                 "papers: a4\nkinds: [poster, key]\nfigures:\n  a: a.terms.yaml\n"
                 "  b: {terms: b.terms.yaml, kinds: [worksheet, key]}\n");
  EXPECT_THAT(pack.said(), HasSubstr("key-alone figure \"a\""));
  EXPECT_THAT(pack.said(), Not(HasSubstr("key-alone figure \"b\"")));
}

TEST(Check_pack, Finds_pages_that_an_edition_goes_without) {
  const Pack pack;
  support::write(pack.scratch / "r.txt", "# Title\ntext\n");
  support::write(pack.scratch / "p.yaml",
                 manifest + "pages: {r: {en: r.txt}}\nsections:\n  - {figures: [a, b], after: r}\n");
  EXPECT_THAT(pack.said(), HasSubstr("page-language page \"r\" has no text for set \"de1\""));
}

TEST(Check_pack, Finds_classes_that_a_version_tints_in_vain) {
  const Pack pack;
  support::write(pack.scratch / "p.yaml",
                 "papers: a4\nkinds: poster\nfigures:\n  a: {terms: a.terms.yaml, versions: dark}\n"
                 "versions:\n  dark: {tints: {sking: \"#000000\"}}\n");
  EXPECT_THAT(pack.said(), HasSubstr("version-class-unknown"));
}

TEST(Check_pack, Says_where_a_named_file_is_missing_and_which_set_is_unknown) {
  const Pack pack;
  support::write(pack.scratch / "p.yaml",
                 "sets: [en1, en9]\npapers: a4\nkinds: poster\nfigures:\n  a: a.terms.yaml\n"
                 "  c: c.terms.yaml\n");
  const std::string said = pack.said();
  EXPECT_THAT(said, HasSubstr("file-missing"));
  EXPECT_THAT(said, HasSubstr("set-unknown"));
}

TEST(Check_pack, Refuses_one_set_in_two_languages) {
  const Pack pack;
  support::write(pack.scratch / "b.terms.yaml",
                 "figure: f.svg\nsets:\n  en1: {ages: 7-10, language: fr}\nterms:\n"
                 "  one: {en1: Orteil}\n  two: {en1: Ongle}\n");
  EXPECT_THAT(pack.said(), HasSubstr("set-differs"));
}

TEST(Check_pack, Wants_a_figure_for_every_table) {
  const Pack pack;
  support::write(pack.scratch / "b.terms.yaml",
                 "sets:\n  en1: {ages: 7-10, language: en}\nterms:\n  one: {en1: Toe}\n");
  EXPECT_THAT(pack.said(), HasSubstr("terms-figure"));
}

TEST(Check_pack, Says_when_nothing_is_left_of_an_edition) {
  const Pack pack;
  support::write(pack.scratch / "p.yaml", manifest + "except:\n  - {sets: de1}\n");
  EXPECT_THAT(pack.said(), HasSubstr("edition-empty edition \"de1-a4\""));
}

TEST(Check_pack, Compares_words_without_case_spaces_and_ligatures) {
  EXPECT_EQ(platewright::spelling_key("Oesophagus"), platewright::spelling_key("œsophagus"));
  EXPECT_EQ(platewright::spelling_key("Wind pipe"), platewright::spelling_key("windpipe"));
  EXPECT_NE(platewright::spelling_key("Vein"), platewright::spelling_key("Veins"));
}

TEST(Part_key, Changes_with_a_word_of_its_set_and_not_with_one_of_another) {
  const Pack pack;
  const auto keys = [&] {
    const auto plan =
        platewright::plan_pack(pack.scratch / "p.yaml", platewright::usual_environment());
    std::map<std::string, std::string> all;
    for (const auto& part : plan->parts) all[part.id] = part.key;
    return all;
  };
  const auto before = keys();
  ASSERT_EQ(before.size(), 4U);
  support::write(pack.scratch / "a.terms.yaml",
                 table("  one: {en1: Large toe, de1: Zehe}\n  two: {en1: Nail, de1: Nagel}\n"));
  const auto after = keys();
  EXPECT_NE(after.at("a/en1/a4"), before.at("a/en1/a4"));
  EXPECT_EQ(after.at("a/de1/a4"), before.at("a/de1/a4"));
  EXPECT_EQ(after.at("b/en1/a4"), before.at("b/en1/a4"));
  // Mazes are drawn along the table's route.
  support::write(pack.scratch / "a.terms.yaml",
                 table("  one: {en1: Large toe, de1: Zehe}\n  two: {en1: Nail, de1: Nagel}\n") +
                     "route: [one, two]\n");
  EXPECT_NE(keys().at("a/en1/a4"), after.at("a/en1/a4"));
  support::write(pack.scratch / "p.yaml", "one-layout: yes\n" + manifest);
  const auto joint = keys();
  support::write(pack.scratch / "a.terms.yaml",
                 table("  one: {en1: Great toe, de1: Zehe}\n  two: {en1: Nail, de1: Nagel}\n"));
  EXPECT_NE(keys().at("a/de1/a4"), joint.at("a/de1/a4"));
  EXPECT_EQ(keys().at("b/de1/a4"), joint.at("b/de1/a4"));
  support::write(pack.scratch / "p.yaml", manifest);
  support::write(pack.scratch / "f.svg", svg + "\n");
  for (const auto& [id, key] : keys()) EXPECT_NE(key, before.at(id)) << id;
}

}  // namespace
