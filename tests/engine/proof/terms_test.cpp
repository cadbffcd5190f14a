// Words of labels against word lists; leaders and labels that finished PDFs tell.
#include <gtest/gtest.h>

#include <fstream>
#include <map>

#include "engine/proof/faulty.hpp"
#include "platewright/engine.hpp"
#include "platewright/proof.hpp"
#include "read/finished.hpp"
#include "read/word_list.hpp"
#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace proof_test {
namespace {

using Words = std::vector<std::string>;
namespace read = platewright::read;

read::WordList list_of(const std::string& text) {
  read::WordList list;
  EXPECT_TRUE(read::add_words(list, text, "words.txt").empty());
  return list;
}

TEST(WordList, Knows_its_words_their_plurals_and_both_sides_of_the_ocean) {
  const auto list = list_of("# parts\noesophagus\nhemoglobin\ncaecum\nfiber\ncolor\nleft ventricle\nartery\ncalf\nfoot/S\n3\n");
  for (const char* good : {"Esophagus", "\u0153sophagus", "haemoglobin", "h\u00e6moglobin", "Cecum",
                           "fibre", "colour", "Left ventricle", "left ven\u00adtricle", "Arteries",
                           "calves", "feet", "artery, calf", "foot (pes)"})
    EXPECT_EQ(read::unknown_words(list, good), Words{}) << good;
  EXPECT_EQ(read::unknown_words(list, "Left ventrickle"), Words{"ventrickle"});
  EXPECT_EQ(read::unknown_words(list, "Artry and VIEN"), (Words{"artry", "and", "vien"}));
}

TEST(WordList, Says_what_is_wrong_with_it) {
  read::WordList list;
  const auto code = [&](const std::string& text) {
    const auto findings = read::add_words(list, text, "w.txt");
    return findings.size() == 1 ? findings[0].code : "";
  };
  EXPECT_EQ(code(""), "word-list");
  EXPECT_EQ(code("# nothing\n"), "word-list");
  EXPECT_EQ(code("caf\xe9\n"), "word-list");
  EXPECT_EQ(read::add_words(list, "/no/such/list").at(0).code, "file-missing");
}

// Debian's wordnet-base; lexicographer file 08 is noun.body.
TEST(WordList, Takes_the_nouns_of_the_body_of_WordNet_as_they_are) {
  std::ifstream file("/usr/share/wordnet/data.noun");
  if (!file) GTEST_SKIP() << "wordnet-base is not installed";
  std::string nouns;
  for (std::string line; std::getline(file, line);)
    if (line.size() > 12 && line.compare(8, 4, " 08 ") == 0) nouns += line + '\n';
  const auto list = list_of(nouns);
  EXPECT_GT(list.phrases.size(), 3000U);
  for (const char* good : {"Aorta", "Left ventricle", "oesophagus", "Esophagus", "Spleen", "femur",
                           "Kneecap", "Caecum", "Small intestine", "Lungs"})
    EXPECT_EQ(read::unknown_words(list, good), Words{}) << good;
  for (const char* bad : {"Aorrta", "Femer", "Splean", "oesophogus"})
    EXPECT_EQ(read::unknown_words(list, bad).size(), 1U) << bad;
}

class FinishedSheet : public testing::Test {
 protected:
  const support::Scratch scratch_;
  std::string made(const std::string& kind, const std::string& ending) {
    const std::string out = scratch_ / (kind + "." + ending);
    const auto done = support::platewright({"sheet", support::demo_svg("tooth"), "--terms",
                                            support::demo_terms("tooth"), "--set", "middle", "--kind",
                                            kind, "--out", out});
    EXPECT_EQ(done.code, 0) << done.said();
    return out;
  }
};

TEST_F(FinishedSheet, Tells_the_same_leaders_and_labels_as_a_PDF_and_as_an_SVG) {
  for (const std::string kind : {"poster", "worksheet", "key"}) {
    const auto pdf = read::finished_pdf(support::bytes_of(made(kind, "pdf")), "p.pdf");
    const auto svg = read::finished_svg(support::bytes_of(made(kind, "svg")), "p.svg");
    ASSERT_TRUE(pdf.ok() && svg.ok());
    const auto &a = pdf->pages[0], &b = svg->pages[0];
    ASSERT_GE(b.leaders.size(), 10U);
    ASSERT_EQ(a.leaders.size(), b.leaders.size());
    for (std::size_t i = 0; i < a.leaders.size(); ++i) {
      EXPECT_EQ(a.leaders[i].anchor, b.leaders[i].anchor);
      EXPECT_EQ(a.leaders[i].colour, b.leaders[i].colour);
      EXPECT_NEAR(a.leaders[i].width_pt, b.leaders[i].width_pt, 0.01);
      ASSERT_EQ(a.leaders[i].points.size(), b.leaders[i].points.size());
      for (std::size_t k = 0; k < a.leaders[i].points.size(); ++k)
        EXPECT_LT(distance(a.leaders[i].points[k], b.leaders[i].points[k]), 0.01);
    }
    const auto labels = [](const read::FinishedPage& page) {
      std::map<std::string, std::string> texts;
      for (const auto& word : page.words)
        if (!word.anchor.empty()) texts[word.anchor] += support::replaced(word.text, " ", "");
      return texts;
    };
    EXPECT_EQ(labels(a), labels(b)) << kind;
    EXPECT_TRUE(kind == "worksheet" || labels(a).size() == a.leaders.size());
  }
}

TEST_F(FinishedSheet, Is_spelt_as_its_word_list_asks_for_in_PDF_and_SVG) {
  support::write(scratch_ / "words.txt",
                 "crown\npulp\nroot canal\ntooth ligament\nblood vessel\nnerve\ndentin\ndentine\n"
                 "enamel\njawbone\ncementum\nneck\nroot\n");
  for (const std::string ending : {"pdf", "svg"}) {
    platewright::ProofRequest request;
    request.paths = {made("poster", ending)};
    request.words = {scratch_ / "words.txt"};
    const auto looked = platewright::proof(request, platewright::usual_environment());
    ASSERT_TRUE(looked.ok());
    ASSERT_EQ(looked->found.size(), 1U) << ending;  // the gum alone is in no list
    EXPECT_EQ(looked->found[0].finding.code, "proof-spelling");
    EXPECT_TRUE(support::contains(looked->found[0].finding.message, "\"gum\""))
        << looked->found[0].finding.message;
  }
}

TEST_F(FinishedSheet, Needs_lists_and_rules_that_are_there) {
  platewright::ProofRequest request;
  request.paths = {made("poster", "svg")};
  request.words = {scratch_ / "none.txt"};
  auto looked = platewright::proof(request, platewright::usual_environment());
  ASSERT_FALSE(looked.ok());
  EXPECT_EQ(looked.findings()[0].code, "file-missing");
  request.words = {};
  request.style = scratch_ / "odd.yaml";
  support::write(request.style, "extends: classroom\nproof:\n  leave: [proof-inks]\n");
  looked = platewright::proof(request, platewright::usual_environment());
  ASSERT_FALSE(looked.ok());
  EXPECT_EQ(looked.findings()[0].code, "proof-rule-unknown");
  EXPECT_TRUE(support::contains(looked.findings()[0].advice, "proof-ink"));
}

}  // namespace
}  // namespace proof_test
