// Findings that no other test brings about; and that none goes without a test.
#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>

#include "platewright/engine.hpp"
#include "platewright/true_size.hpp"
#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;
using platewright::Environment;

std::set<std::string> codes(const platewright::Findings& findings) {
  std::set<std::string> all;
  for (const auto& finding : findings) all.insert(finding.code);
  return all;
}

// A figure of two marked points and two shapes, of which one paints nothing.
const std::string small_figure =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 100\">"
    "<rect data-anchor=\"bone\" x=\"20\" y=\"10\" width=\"60\" height=\"80\" fill=\"#a65\"/>"
    "<rect data-anchor=\"ghost\" x=\"30\" y=\"30\" width=\"20\" height=\"20\" fill=\"none\"/>"
    "<circle id=\"anchor-crown\" cx=\"50\" cy=\"10\" r=\"1\"/>"
    "<circle id=\"anchor-top\" cx=\"50\" cy=\"10\" r=\"1\"/>"
    "<circle id=\"anchor-sole\" cx=\"50\" cy=\"90\" r=\"1\"/></svg>";

class Codes : public testing::Test {
 protected:
  const support::Scratch scratch_;
  const Environment environment_ = platewright::usual_environment();
  platewright::TrueSizeRequest body_;
  platewright::PiecesRequest pieces_;
  void SetUp() override {
    support::write(scratch_ / "small.svg", small_figure);
    body_.figure = pieces_.figure = scratch_ / "small.svg";
    body_.out = pieces_.out = scratch_ / "out.pdf";
    body_.size.stature = pieces_.size.stature = "30cm";
  }
  std::set<std::string> of_body() const {
    return codes(platewright::make_true_size(body_, environment_).findings());
  }
  std::set<std::string> of_pieces() const {
    return codes(platewright::make_pieces(pieces_, environment_).findings());
  }
  using Set = std::set<std::string>;
};

TEST_F(Codes, Of_the_real_length) {
  body_.size = {};
  EXPECT_EQ(of_body(), Set{"size-missing"});
  body_.size.between = "crown-sole";
  EXPECT_EQ(of_body(), Set{"between-invalid"});
  body_.size.between = "crown,top=1m";
  EXPECT_EQ(of_body(), Set{"anchors-coincide"});
  body_.size.between = "crown,bone=20cm";
  EXPECT_EQ(of_body(), Set{"anchor-not-a-point"});
  body_.size = {};
  body_.size.age = 6;
  EXPECT_EQ(of_body(), Set{"stature-mean"});
  body_.size.sex = "child";
  EXPECT_EQ(of_body(), Set{"sex-unknown"});
  body_.size.sex = "girl";
  body_.size.percentile = 100;
  EXPECT_EQ(of_body(), Set{"percentile-range"});
}

TEST_F(Codes, Of_pieces) {
  pieces_.regions = {"ghost"};
  EXPECT_EQ(of_pieces(), Set{"region-empty"});
  support::write(scratch_ / "small.svg",
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 100\">"
                 "<rect x=\"20\" y=\"10\" width=\"60\" height=\"80\"/>"
                 "<circle id=\"anchor-crown\" cx=\"50\" cy=\"10\" r=\"1\"/>"
                 "<circle id=\"anchor-sole\" cx=\"50\" cy=\"90\" r=\"1\"/></svg>");
  pieces_.regions.clear();
  EXPECT_EQ(of_pieces(), Set{"regions-missing"});
}

// An L that fills three sheets of 2 x 2 to their edges: paper of 150 mm with 12.7 mm margins
// holds 124.6 mm, two of them with 12 mm of overlap 237.2 mm (computed).
TEST_F(Codes, Of_labels_at_true_size_that_take_a_sheet_of_their_own_a_join_or_find_no_room) {
  support::write(scratch_ / "small.svg",
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 236 236\">"
                 "<path data-anchor=\"bone\" d=\"M0 0H123V113H236V236H0Z\" fill=\"#a65\"/>"
                 "<circle id=\"anchor-crown\" cx=\"2\" cy=\"0\" r=\"1\"/>"
                 "<circle id=\"anchor-sole\" cx=\"2\" cy=\"236\" r=\"1\"/></svg>");
  body_.terms = scratch_ / "small.terms.yaml";
  body_.paper = "150x150mm";
  body_.size.stature = "236mm";
  const auto labelled = [&](const std::string& label) {
    support::write(body_.terms,
                   "figure: small.svg\nsets:\n  one: {ages: 4-6, language: en}\nterms:\n  bone: {one: " +
                       label + "}\n");
    return of_body();
  };
  EXPECT_EQ(labelled("Thighbone"), Set{"sheets-added"});
  EXPECT_TRUE(labelled("Thighboneabcdefghijklmnop").contains("label-across-join"));
  std::string sentence;
  for (int i = 0; i < 40; ++i) sentence += "word ";
  EXPECT_TRUE(labelled(sentence).contains("label-unplaced"));
}

TEST_F(Codes, Of_a_request_for_sheets) {
  platewright::SheetRequest request;
  request.figure = support::demo_svg("tooth");
  request.terms = support::demo_terms("tooth");
  request.out = scratch_ / "out.pdf";
  const auto found = [&] { return codes(platewright::make_sheets(request, environment_).findings()); };
  EXPECT_EQ(found(), Set{"kind-missing"});
  request.kinds = {platewright::SheetKind::poster};
  request.kinds = {platewright::SheetKind::poster, platewright::SheetKind::key,
                   platewright::SheetKind::poster};
  EXPECT_EQ(found(), Set{"kind-twice"});
  request.kinds = {platewright::SheetKind::poster};
  request.explain = scratch_ / "why.pdf";
  EXPECT_EQ(found(), Set{"explain-ending"});
  request.explain = scratch_ / "why.svg";
  request.kinds = {platewright::SheetKind::colouring};
  EXPECT_EQ(found(), Set{"explain-nothing"});
  EXPECT_FALSE(fs::exists(request.out) || fs::exists(request.explain));
  request.kinds = {platewright::SheetKind::poster};
  request.out = "";
  EXPECT_EQ(found(), Set{"out-missing"});
  request.out = scratch_ / "folder";
  request.format = "doc";
  EXPECT_EQ(found(), Set{"format-unknown"});
  support::write(scratch_ / "notes.doc", "notes");
  EXPECT_EQ(codes(platewright::check_files({scratch_ / "notes.doc"}, environment_)),
            Set{"file-unknown"});
}

TEST_F(Codes, Of_a_face_that_is_not_installed) {
  support::write(scratch_ / "plain.yaml", "extends: classroom\ntype:\n  face: No Such Face\n");
  const auto done = support::platewright(
      {"sheet", support::demo_svg("tooth"), "--terms", support::demo_terms("tooth"), "--kind",
       "poster", "--style", scratch_ / "plain.yaml", "--out", body_.out});
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_TRUE(support::contains(done.err, "error[face-missing]")) << done.err;
}

TEST_F(Codes, Of_options_that_are_no_numbers) {
  const auto said = [&](std::vector<std::string> arguments) {
    const auto done = support::platewright(std::move(arguments));
    EXPECT_EQ(done.code, 1) << done.said();
    return done.err;
  };
  EXPECT_TRUE(support::contains(
      said({"truesize", body_.figure, "--age", "6", "--percentile", "half", "--out", body_.out}),
      "error[percentile-invalid]"));
  support::write(scratch_ / "t.csv", "anchor,one\nbone,Bone\n");
  EXPECT_TRUE(support::contains(said({"sheet", body_.figure, "--terms", scratch_ / "t.csv", "--ages",
                                      "young", "--kind", "poster", "--out", body_.out}),
                                "error[ages-invalid]"));
}

TEST_F(Codes, Of_a_figure_that_takes_too_long_to_draw) {
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1000 1000\">";
  for (int i = 0; i < 20000; ++i)  // 125,000 dashes each
    svg += "<circle cx=\"500\" cy=\"500\" r=\"" + std::to_string(100 + i % 400) +
           "\" fill=\"none\" stroke=\"#000\" stroke-dasharray=\"0.01\"/>";
  support::write(scratch_ / "slow.svg", svg + "</svg>");
  const auto done = support::platewright({"anchors", scratch_ / "slow.svg"});
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_TRUE(support::contains(done.err, "error[figure-slow]")) << done.said();
}

// Every code that the source can give, as it stands in the source.
std::set<std::string> codes_in_source() {
  std::set<std::string> all;
  const std::regex call("\\b(?:error|warning)\\((?:[a-z_.>()-]+, )?\\s*\"([a-z0-9]+(?:-[a-z0-9]+)+)\"");
  for (const auto& entry : fs::recursive_directory_iterator(support::source("src"))) {
    if (!entry.is_regular_file()) continue;
    const std::string text = support::bytes_of(entry.path());
    for (std::sregex_iterator i(text.begin(), text.end(), call), end; i != end; ++i)
      all.insert((*i)[1]);
  }
  return all;
}

TEST(Findings_codes, Are_each_named_by_a_test) {
  // What no input brings about: the libraries beneath would have to fail, or take minutes.
  const std::set<std::string> without = {"pdf-failed", "png-failed", "proof-slow"};
  std::string tests;
  for (const auto& entry : fs::recursive_directory_iterator(support::source("tests")))
    if (entry.is_regular_file() && entry.path().extension() == ".cpp")
      tests += support::bytes_of(entry.path());
  const auto all = codes_in_source();
  EXPECT_GE(all.size(), 120U);
  for (const std::string& code : all) {
    if (without.contains(code)) continue;
    EXPECT_TRUE(support::contains(tests, code)) << code;
  }
}

}  // namespace
