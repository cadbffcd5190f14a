// Forms that draw forms: none is drawn in itself, and they are opened so often at most.
#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <vector>

#include "read/finished_commands.hpp"

namespace platewright::read {
namespace {

// A page that draws the first of these forms, each with the names of all, as resources of its own
// or as the page's. Readers make the table of where objects begin themselves (ISO 32000-1, 7.5).
std::string document(const std::vector<std::string>& forms, bool own_resources) {
  std::string names = "<</XObject <<";
  for (std::size_t i = 0; i < forms.size(); ++i)
    names += "/F" + std::to_string(i) + " " + std::to_string(10 + i) + " 0 R ";
  names += ">>>>";
  std::string text = "%PDF-1.4\n";
  const auto object = [&](std::size_t number, const std::string& body) {
    text += std::to_string(number) + " 0 obj\n" + body + "\nendobj\n";
  };
  const auto stream = [](const std::string& keys, const std::string& body) {
    return "<<" + keys + " /Length " + std::to_string(body.size()) + ">>\nstream\n" + body +
           "\nendstream";
  };
  for (std::size_t i = 0; i < forms.size(); ++i)
    object(10 + i, stream("/Type /XObject /Subtype /Form /BBox [0 0 99 99]" +
                              (own_resources ? " /Resources " + names : std::string()),
                          forms[i]));
  object(3, "<</Type /Page /Parent 2 0 R /MediaBox [0 0 500 700] /Contents 4 0 R /Resources " +
                names + ">>");
  object(4, stream("", "/F0 Do"));
  object(2, "<</Type /Pages /Count 1 /Kids [3 0 R]>>");
  object(1, "<</Type /Catalog /Pages 2 0 R>>");
  return text + "trailer <</Root 1 0 R>>\n%%EOF\n";
}

struct Read {
  Findings findings;
  std::optional<std::size_t> strokes;
};
Read read(const std::string& bytes) {
  Read out;
  out.findings =
      each_page_commands(bytes, "nested.pdf", [&](PageCommands&& page, std::size_t, std::size_t) {
        out.strokes = page.strokes.size();
        return Findings{};
      });
  return out;
}

TEST(Nested_forms, Are_not_drawn_in_themselves) {
  for (const bool own : {false, true}) {
    const auto itself = read(document({"0 0 m 9 9 l S /F0 Do /F0 Do"}, own));
    EXPECT_TRUE(itself.findings.empty());
    EXPECT_EQ(itself.strokes, 1U);
    // The second draws the third twice; neither draws the first again.
    const auto in_turn = read(document(
        {"0 0 m 9 9 l S /F1 Do", "1 1 m 9 9 l S /F2 Do /F2 Do", "2 2 m 9 9 l S /F0 Do /F1 Do"},
        own));
    EXPECT_TRUE(in_turn.findings.empty());
    EXPECT_EQ(in_turn.strokes, 4U);
  }
}

// What lies in a form that is left out is not taken for the form's own elsewhere.
TEST(Nested_forms, Are_whole_again_beside_the_one_that_they_were_cut_in) {
  const auto beside = read(
      document({"/F1 Do /F3 Do", "0 0 m 9 9 l S /F2 Do", "1 1 m 9 9 l S /F1 Do", "/F2 Do"}, true));
  EXPECT_TRUE(beside.findings.empty());
  EXPECT_EQ(beside.strokes, 4U);  // F1 and F2 in it; F2 and F1 in it
}

TEST(Nested_forms, That_double_at_every_level_are_too_many_to_be_opened) {
  std::vector<std::string> forms;
  for (int level = 0; level < 15; ++level) {
    const std::string next = "/F" + std::to_string(level + 1) + " Do ";
    forms.push_back(next + next);
  }
  forms.emplace_back("0 0 m 9 9 l S");
  const auto opened = read(document(forms, false));
  ASSERT_EQ(opened.findings.size(), 1U);
  EXPECT_EQ(opened.findings.front().code, "pdf-large");
  EXPECT_FALSE(opened.strokes);
  // Those that have all they need are known after the first time.
  const auto known = read(document(forms, true));
  EXPECT_TRUE(known.findings.empty());
  EXPECT_EQ(known.strokes, std::size_t{1} << 15);
}

}  // namespace
}  // namespace platewright::read
