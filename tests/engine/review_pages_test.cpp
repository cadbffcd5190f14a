// Every review kind on every demo figure, label set and two papers: composed, and read
// page by page from its drawing items.
#include <gtest/gtest.h>

#include <memory>

#include "compose/page.hpp"
#include "engine/composing.hpp"
#include "page_ink.hpp"
#include "support/demo.hpp"
#include "support/share.hpp"

namespace platewright {
namespace {

std::vector<SheetKind> review_kinds() {
  std::vector<SheetKind> kinds;
  for (const SheetKindInfo& info : sheet_kinds())
    if (is_review(info.kind)) kinds.push_back(info.kind);
  return kinds;
}

SheetRequest request_of(const std::string& figure, const std::string& set,
                        const std::string& paper) {
  SheetRequest request;
  request.figure = support::demo_svg(figure);
  request.terms = support::demo_terms(figure);
  request.set = set;
  request.paper = paper;
  request.kinds = review_kinds();
  return request;
}

Result<ComposedFigure> composed(const SheetRequest& request, const text::Typesetter& typesetter) {
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  if (!loaded.ok()) return loaded.findings();
  return compose_figure(*loaded, request, typesetter, nullptr);
}

class Review_pages : public testing::TestWithParam<std::string> {};

TEST_P(Review_pages, Keep_their_type_apart_and_inside_the_margins) {
  const std::string figure = GetParam();
  const text::Typesetter typesetter;
  // ISO 216 and ASME Y14.1.
  const std::pair<std::string, std::pair<double, double>> papers[] = {{"letter", {215.9, 279.4}},
                                                                      {"a4", {210, 297}}};
  for (const std::string& set : support::first_of(support::demo_sets(figure)))
    for (const auto& [paper, size] : papers) {
      if (support::share > 1 && paper == "a4") continue;
      SheetRequest request = request_of(figure, set, paper);
      // Placing is tested elsewhere; once a set will do.
      if (paper == "a4") std::erase(request.kinds, SheetKind::paste);
      const auto made = composed(request, typesetter);
      for (const Finding& finding : made.findings())
        ADD_FAILURE() << set << " on " << paper << ": " << to_text(finding);
      if (!made.ok()) continue;
      ASSERT_EQ(made->sheets.size(), request.kinds.size());
      const std::size_t labels = made->loaded->labels.size();
      for (const ComposedSheet& sheet : made->sheets) {
        const std::string what = figure + " " + set + " " + paper + " " +
                                 std::string(name_of(sheet.kind));
        EXPECT_GE(sheet.pages.size(), 1U) << what;
        EXPECT_LE(sheet.pages.size(), labels + 12) << what;
        EXPECT_LE(sheet.keys.size(), labels + 12) << what;
        for (const auto* pages : {&sheet.pages, &sheet.keys})
          for (std::size_t p = 0; p < pages->size(); ++p) {
            const compose::Page& page = (*pages)[p];
            const std::string where =
                what + (pages == &sheet.keys ? " key" : "") + " page " + std::to_string(p + 1);
            EXPECT_NEAR(std::min(page.width, page.height), size.first, 0.001) << where;
            EXPECT_NEAR(std::max(page.width, page.height), size.second, 0.001) << where;
            const std::vector<Ink> ink = ink_of(page);
            EXPECT_FALSE(ink.empty()) << where;
            for (std::size_t i = 0; i < ink.size(); ++i) {
              const PageBox& b = ink[i].box;
              // The title's letters may rise a little into the margin.
              EXPECT_GE(b.left(), 12.1) << where << ": " << ink[i].text;
              EXPECT_LE(b.right(), page.width - 12.1) << where << ": " << ink[i].text;
              EXPECT_GE(b.top(), 10.5) << where << ": " << ink[i].text;
              EXPECT_LE(b.bottom(), page.height - 12.0) << where << ": " << ink[i].text;
              for (std::size_t j = 0; j < i; ++j)
                EXPECT_FALSE(overlap(b.grown(-0.15), ink[j].box.grown(-0.15)))
                    << where << ": \"" << ink[i].text << "\" on \"" << ink[j].text << '"';
            }
          }
      }
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, Review_pages,
                         testing::ValuesIn(support::first_of(support::demo_figures())),
                         [](const auto& each) { return each.param; });

std::string dump_of(const ComposedFigure& made) {
  std::string all;
  for (const ComposedSheet& sheet : made.sheets)
    for (const auto* pages : {&sheet.pages, &sheet.keys})
      for (const compose::Page& page : *pages) all += compose::dump(page);
  return all;
}

TEST(Review_seed, Deals_the_same_pages_again_and_others_by_another_seed) {
  const text::Typesetter typesetter;
  SheetRequest request = request_of("tooth", "upper", "a4");
  int number = 0;
  for (const SheetKind kind : review_kinds()) {
    if (number++ % 5 != 0 && support::share > 1) continue;
    if (kind == SheetKind::locate || kind == SheetKind::cards ||
        kind == SheetKind::mat)
      continue;  // nothing is dealt
    request.kinds = {kind};
    request.seed = 3;
    const auto first = composed(request, typesetter);
    const auto again = composed(request, typesetter);
    request.seed = 4;
    const auto other = composed(request, typesetter);
    ASSERT_TRUE(first.ok() && again.ok() && other.ok()) << name_of(kind);
    EXPECT_EQ(dump_of(*first), dump_of(*again)) << name_of(kind);
    EXPECT_NE(dump_of(*first), dump_of(*other)) << name_of(kind);
  }
}

// A language that is read from right to left: nothing leaves the page.
TEST(Review_pages_right_to_left, Keep_inside_the_margins) {
  const text::Typesetter typesetter;
  SheetRequest request = request_of("tooth", "middle", "a4");
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  ASSERT_TRUE(loaded.ok());
  auto turned = std::make_shared<Loaded>(**loaded);
  turned->matter.direction = text::Direction::right_to_left;
  for (SetLabel& label : turned->labels) {
    const auto term = std::find_if(turned->terms.terms.begin(), turned->terms.terms.end(),
                                   [&](const Term& t) { return t.anchor == label.anchor; });
    label.wording = &term->cells.at("middle");
  }
  const auto made = compose_figure(turned, request, typesetter, nullptr);
  ASSERT_TRUE(made.ok());
  for (const ComposedSheet& sheet : made->sheets)
    for (const auto* pages : {&sheet.pages, &sheet.keys})
      for (const compose::Page& page : *pages)
        for (const Ink& ink : ink_of(page)) {
          EXPECT_GE(ink.box.left(), 12.1) << name_of(sheet.kind) << ": " << ink.text;
          EXPECT_LE(ink.box.right(), page.width - 12.1) << name_of(sheet.kind) << ": " << ink.text;
        }
}

}  // namespace
}  // namespace platewright
