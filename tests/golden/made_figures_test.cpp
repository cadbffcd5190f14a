// Figures from a seed, 5 to 120 anchors, as a browser shows their posters: a
// sheet that keeps every promise and says every word, or a clear finding.
#include <gmock/gmock.h>

#include <algorithm>
#include <cstdio>
#include <map>

#include "golden/browser.hpp"
#include "golden/rules.hpp"
#include "platewright/engine.hpp"
#include "support/made_figure.hpp"
#include "support/scratch.hpp"
#include "support/share.hpp"
#include "support/words.hpp"

namespace golden {
namespace {

namespace fs = std::filesystem;
using support::Outline;

struct FigurePaper {
  std::string name;
  double shorter, longer;  // mm: ISO 216, ASME Y14.1
};
const FigurePaper figure_papers[] = {{"letter", 215.9, 279.4}, {"a4", 210, 297}, {"a3", 297, 420}};

const std::vector<Outline> outlines = {Outline::round, Outline::wide, Outline::tall,
                                       Outline::clustered};

std::string name_of(Outline outline) {
  switch (outline) {
    case Outline::round: return "round";
    case Outline::wide: return "wide";
    case Outline::tall: return "tall";
    case Outline::clustered: return "clustered";
  }
  return "";
}

struct Made {
  support::MadeFigure figure;
  Promises promises;
  std::vector<std::string> pages;  // names of what was shown of it
};

// Words that neither stand beside a leader nor in the list of the numbers.
std::vector<std::string> lost_words(const Made& made, const std::vector<const SeenSheet*>& pages) {
  std::map<std::string, std::string> beside;
  std::string lists;
  for (const SeenSheet* page : pages)
    for (const SeenText& text : page->texts) {
      if (text.role == "pw-label") beside[text.anchor] += text.text + " ";
      if (text.role == "pw-list") lists += text.text + " ";
    }
  std::vector<std::string> lost;
  lists = support::folded(lists);
  for (const auto& [anchor, text] : made.figure.words) {
    const std::string shown = support::folded(beside[anchor]);
    if (shown == text) continue;
    // A number, and its words in the list.
    if (!shown.empty() && shown.find_first_not_of("0123456789") == std::string::npos &&
        support::contains(lists, shown + " " + text))
      continue;
    lost.push_back(anchor + ": \"" + text + "\" is shown as \"" + shown + "\"");
  }
  return lost;
}

class MadeFigures : public testing::TestWithParam<int> {};

TEST_P(MadeFigures, Come_out_right_or_are_refused_with_a_reason) {
  const support::Scratch scratch;
  const platewright::Environment environment = platewright::usual_environment();
  std::vector<Made> all;
  std::vector<Shown> shown;
  int refused = 0;
  for (const Outline outline : support::first_of(outlines))
    for (const FigurePaper& paper :
         support::first_of(std::vector(std::begin(figure_papers), std::end(figure_papers)))) {
      const std::string name = name_of(outline) + "-" + paper.name;
      Made made;
      made.figure = support::made_figure({GetParam(), outline, 3, false, 0});
      support::write(scratch / (name + "/made.svg"), made.figure.svg);
      support::write(scratch / (name + "/made.terms.yaml"), made.figure.terms);
      platewright::SheetRequest request;
      request.figure = scratch / (name + "/made.svg");
      request.terms = scratch / (name + "/made.terms.yaml");
      request.paper = paper.name;
      request.kinds = {platewright::SheetKind::poster};
      request.out = scratch / (name + "/out/");
      request.format = "svg";
      const auto sheets = platewright::make_sheets(request, environment);
      if (!sheets.ok()) {
        ++refused;
        EXPECT_FALSE(fs::exists(request.out)) << name;
        for (const platewright::Finding& finding : sheets.findings()) {
          EXPECT_EQ(finding.code, "does-not-fit") << name << ": " << to_text(finding);
          EXPECT_FALSE(finding.advice.empty()) << name;
        }
        continue;
      }
      made.promises.text_floor_pt = made.figure.youngest <= 6 ? 14 : made.figure.youngest <= 10 ? 10 : 8;
      made.promises.width = paper.shorter;
      made.promises.height = paper.longer;
      for (const std::string& file : sheets->files) {
        made.pages.push_back(name + "/" + fs::path(file).filename().string());
        shown.push_back({made.pages.back(), support::bytes_of(file), true});
      }
      all.push_back(std::move(made));
    }
  // So many labels fit on letter and A4, some of them as numbers.
  if (GetParam() <= 72) { EXPECT_EQ(refused, 0); }
  RecordProperty("refused", refused);
  const std::vector<SeenSheet> seen = look_at(shown);
  for (const Made& made : all) {
    std::vector<const SeenSheet*> pages;
    for (const SeenSheet& sheet : seen)
      if (std::find(made.pages.begin(), made.pages.end(), sheet.name) != made.pages.end())
        pages.push_back(&sheet);
    for (const SeenSheet* sheet : pages) {
      Promises promises = made.promises;
      double width = 0;
      ASSERT_EQ(std::sscanf(sheet->width.c_str(), "%lf", &width), 1);
      if (width > promises.width + 0.001) std::swap(promises.width, promises.height);
      EXPECT_THAT(broken(*sheet, promises), testing::IsEmpty());
    }
    EXPECT_THAT(lost_words(made, pages), testing::IsEmpty()) << made.pages.front();
  }
}

// 120 numbers of 6 mm need 726 mm of edge; an A3 page has 1,200 mm around the figure.
TEST(MadeFigures, A_hundred_and_twenty_anchors_fit_on_a3_at_least_as_numbers) {
  const support::Scratch scratch;
  for (const Outline outline : support::first_of(outlines)) {
    const support::MadeFigure made = support::made_figure({120, outline, 3, false, 0});
    support::write(scratch / "made.svg", made.svg);
    support::write(scratch / "made.terms.yaml", made.terms);
    platewright::SheetRequest request;
    request.figure = scratch / "made.svg";
    request.terms = scratch / "made.terms.yaml";
    request.paper = "a3";
    request.kinds = {platewright::SheetKind::poster};
    request.out = scratch / "made.pdf";
    const auto sheets = platewright::make_sheets(request, platewright::usual_environment());
    EXPECT_TRUE(sheets.ok()) << name_of(outline) << ": " << to_text(sheets.findings().front());
  }
}

TEST(MadeFigures, That_do_not_fit_are_told_which_paper_they_fit_on) {
  const support::Scratch scratch;
  const support::MadeFigure made = support::made_figure({120, Outline::round, 3, false, 0});
  support::write(scratch / "made.svg", made.svg);
  support::write(scratch / "made.terms.yaml", made.terms);
  platewright::SheetRequest request;
  request.figure = scratch / "made.svg";
  request.terms = scratch / "made.terms.yaml";
  request.kinds = {platewright::SheetKind::poster};
  request.out = scratch / "made.pdf";
  const std::vector<std::pair<std::string, std::string>> next = {{"a4", "a3"},
                                                                 {"letter", "tabloid"}};
  for (const auto& [paper, larger] : support::first_of(next)) {
    request.paper = paper;
    const auto refused = platewright::make_sheets(request, platewright::usual_environment());
    ASSERT_FALSE(refused.ok()) << paper;
    EXPECT_THAT(refused.findings().front().advice, testing::StartsWith("it fits on " + larger));
    request.paper = larger;
    EXPECT_TRUE(platewright::make_sheets(request, platewright::usual_environment()).ok()) << larger;
  }
}

INSTANTIATE_TEST_SUITE_P(Anchors, MadeFigures,
                         testing::ValuesIn(support::first_of(std::vector{25, 5, 12, 40, 72, 120})),
                         testing::PrintToStringParamName());

}  // namespace
}  // namespace golden
