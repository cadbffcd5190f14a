// Poster, worksheet, copywork and key lie on each other, and say the same.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <pugixml.hpp>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

struct Read {
  std::map<std::string, std::string> leaders;  // path data by anchor
  std::map<std::string, std::string> texts;    // text of each label
  std::string figure;                          // place and size of the nested figure
  std::string all_text;
};

void walk(const pugi::xml_node& node, Read& read) {
  for (const pugi::xml_node& child : node.children()) {
    const std::string role = child.attribute("class").value();
    const std::string anchor = child.attribute("data-anchor").value();
    if (role == "pw-figure") {
      const pugi::xml_node figure = child.child("svg");
      for (const char* name : {"x", "y", "width", "height", "viewBox"})
        read.figure += std::string(figure.attribute(name).value()) + " ";
      continue;
    }
    if (role == "pw-leader") read.leaders[anchor] = child.attribute("d").value();
    if (role == "pw-label")
      for (const pugi::xml_node& text : child.children("text"))
        read.texts[anchor] += std::string(text.child_value()) + " ";
    if (std::string(child.name()) == "text") read.all_text += std::string(child.child_value()) + " ";
    walk(child, read);
  }
}

Read read_svg(const std::string& path) {
  pugi::xml_document document;
  EXPECT_TRUE(document.load_file(path.c_str())) << path;
  Read read;
  walk(document, read);
  for (auto& [anchor, text] : read.texts) text = support::folded(text);
  return read;
}

std::string code_in(const std::string& text) {
  const auto found = support::between(text + " ", "Check code ", " ");
  return found.empty() ? "" : found.front();
}

void make(const std::string& folder, const std::string& figure, const std::string& set,
          const std::string& paper, const std::string& terms) {
  const auto done = support::platewright(
      {"sheet", support::demo_svg(figure), "--terms", terms, "--set", set, "--kind",
       "poster,worksheet,copywork,key", "--paper", paper, "--out", folder, "--format", "svg"});
  ASSERT_EQ(done.code, 0) << done.said();
}

class Family : public testing::TestWithParam<std::string> {};

TEST_P(Family, Shares_figure_and_leaders_to_the_last_digit_and_the_words_to_the_letter) {
  const std::string figure = GetParam();
  for (const std::string set : {"little", "upper"}) {
    for (const std::string paper : {"letter", "a3"}) {
      const support::Scratch scratch;
      make(scratch / "s/", figure, set, paper, support::demo_terms(figure));
      const std::string stem = scratch / ("s/" + figure + "-" + set + "-" + paper);
      const Read poster = read_svg(stem + "-poster.svg");
      ASSERT_FALSE(poster.leaders.empty());
      for (const std::string kind : {"worksheet", "copywork", "key"}) {
        const Read other = read_svg(stem + "-" + kind + ".svg");
        EXPECT_EQ(other.figure, poster.figure) << stem << kind;
        EXPECT_EQ(other.leaders, poster.leaders) << stem << kind;
      }
      // The key's words, beside the figure or on the page of its numbers, are the poster's.
      std::string key_text = read_svg(stem + "-key.svg").all_text;
      for (int page = 2; std::filesystem::exists(stem + "-key-" + std::to_string(page) + ".svg");
           ++page)
        key_text += read_svg(stem + "-key-" + std::to_string(page) + ".svg").all_text;
      for (const auto& [anchor, text] : poster.texts)
        EXPECT_TRUE(support::contains(support::folded(key_text), text)) << anchor << ": " << text;
      const std::string worksheet_code = code_in(read_svg(stem + "-worksheet.svg").all_text);
      EXPECT_EQ(worksheet_code.size(), 6U);
      EXPECT_EQ(worksheet_code, code_in(read_svg(stem + "-key.svg").all_text));
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Demo, Family, testing::ValuesIn(support::demo_figures()));

TEST(Check_code, Changes_when_one_word_changes) {
  const support::Scratch scratch;
  const std::string terms = support::bytes_of(support::demo_terms("tooth"));
  support::write(scratch / "tooth.svg", support::bytes_of(support::demo_svg("tooth")));
  std::string first, second;
  for (const bool changed : {false, true}) {
    support::write(scratch / "t.terms.yaml",
                   changed ? support::replaced(terms, "upper: Enamel", "upper: Enamelx") : terms);
    const auto done = support::platewright({"sheet", scratch / "tooth.svg", "--terms",
                                            scratch / "t.terms.yaml", "--set", "upper", "--kind",
                                            "worksheet", "--out", scratch / "w.svg"});
    ASSERT_EQ(done.code, 0) << done.said();
    const bool alone = std::filesystem::exists(scratch / "w.svg");
    (changed ? second : first) =
        code_in(read_svg(alone ? scratch / "w.svg" : scratch / "w-1.svg").all_text);
  }
  EXPECT_EQ(first.size(), 6U);
  EXPECT_NE(first, second);
}

}  // namespace
