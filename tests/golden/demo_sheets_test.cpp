// All demo figures, all label sets, on three papers, as a browser shows them.
#include <gmock/gmock.h>

#include "golden/browser.hpp"
#include "golden/rules.hpp"
#include "platewright/engine.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"
#include "support/share.hpp"

namespace golden {
namespace {

namespace fs = std::filesystem;
using platewright::SheetKind;

// Least type by the reader's age, points. Common practice; TRADE facts, "Placement" rules.
double floor_of(const std::string& set) {
  if (set == "little" || set == "klein") return 14;  // 4 to 6 years
  if (set == "middle" || set == "mitte") return 10;  // 7 to 10
  return 8;
}

struct Sheet {
  std::string paper;
  double shorter, longer;  // mm: ISO 216, ASME Y14.1
};
const Sheet papers[] = {{"letter", 215.9, 279.4}, {"a4", 210, 297}, {"a3", 297, 420}};

class DemoSheets : public testing::TestWithParam<std::string> {};

TEST_P(DemoSheets, Keep_every_promise_in_a_browser) {
  const std::string figure = GetParam();
  const support::Scratch scratch;
  const platewright::Environment environment = platewright::usual_environment();
  std::vector<Shown> shown;
  std::vector<Promises> promises;
  const auto sets = support::first_of(support::demo_sets(figure));
  for (const std::string& set : sets)
    for (const Sheet& paper :
         support::first_of(std::vector(std::begin(papers), std::end(papers)))) {
      platewright::SheetRequest request;
      request.figure = support::demo_svg(figure);
      request.terms = support::demo_terms(figure);
      request.set = set;
      request.paper = paper.paper;
      request.kinds = {SheetKind::poster, SheetKind::worksheet, SheetKind::key};
      request.out = scratch / (set + "-" + paper.paper);
      request.format = "svg";
      const auto made = platewright::make_sheets(request, environment);
      for (const platewright::Finding& finding : made.findings())
        ADD_FAILURE() << set << " on " << paper.paper << ": " << to_text(finding);
      if (!made.ok()) continue;
      for (const std::string& file : made->files) {
        shown.push_back({fs::path(file).filename().string(), support::bytes_of(file), true});
        Promises p;
        p.text_floor_pt = floor_of(set);
        p.width = paper.shorter;
        p.height = paper.longer;
        promises.push_back(p);
      }
    }
  ASSERT_GE(shown.size(), support::share == 1 ? 6U * 3U * 3U : 3U);
  std::vector<SeenSheet> seen = look_at(shown);
  for (std::size_t i = 0; i < seen.size(); ++i) {
    // Either way round.
    double width = 0;
    ASSERT_EQ(std::sscanf(seen[i].width.c_str(), "%lf", &width), 1);
    if (width > promises[i].width + 0.001) std::swap(promises[i].width, promises[i].height);
    EXPECT_THAT(broken(seen[i], promises[i]), testing::IsEmpty());
  }
}

INSTANTIATE_TEST_SUITE_P(Figures, DemoSheets,
                         testing::ValuesIn(support::first_of(support::demo_figures())),
                         [](const auto& each) { return each.param; });

}  // namespace
}  // namespace golden
