// Finished games: files and their order, backs behind fronts, odds in the report.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "engine/composing.hpp"
#include "page_ink.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace platewright {
namespace {

SheetRequest request_of(SheetKind kind, const std::string& set) {
  SheetRequest request;
  request.figure = support::demo_svg("tooth");
  request.terms = support::demo_terms("tooth");
  request.set = set;
  request.paper = "letter";
  request.kinds = {kind};
  return request;
}

ComposedSheet composed(const SheetRequest& request) {
  const text::Typesetter typesetter;
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  EXPECT_TRUE(loaded.ok());
  auto made = compose_figure(*loaded, request, typesetter, nullptr);
  EXPECT_TRUE(made.ok());
  return made->sheets.front();
}

// "Answer 7" lies behind the front that bears a 7: seen through the paper, in the same card.
TEST(Quiz_cards, Have_their_answers_behind_them_for_both_flips) {
  for (const bool short_edge : {false, true})
    for (const Orientation way : {Orientation::portrait, Orientation::landscape}) {
      const support::Scratch scratch;
      support::write(scratch / "own.yaml", std::string("extends: classroom\nreview: {short-edge: ") +
                                               (short_edge ? "yes" : "no") + "}\n");
      SheetRequest request = request_of(SheetKind::quiz, "upper");
      request.style = scratch / "own.yaml";
      request.orientation = way;
      const ComposedSheet sheet = composed(request);
      ASSERT_EQ(sheet.pages.size() % 2, 0U);
      std::size_t pairs = 0;
      for (std::size_t p = 0; p < sheet.pages.size(); p += 2) {
        const double width = sheet.pages[p].width, height = sheet.pages[p].height;
        std::map<std::string, PagePoint> fronts;
        for (const Ink& ink : ink_of(sheet.pages[p])) fronts[ink.text] = ink.box.centre();
        for (const Ink& ink : ink_of(sheet.pages[p + 1])) {
          if (!ink.text.starts_with("Answer ")) continue;
          const auto front = fronts.find(ink.text.substr(7));
          ASSERT_NE(front, fronts.end()) << ink.text;
          // A long-edge flip turns upright paper over its vertical edge, wide paper over its
          // horizontal one.
          const bool horizontal = (width > height) != short_edge;
          const PagePoint c = ink.box.centre();
          const PagePoint seen =
              horizontal ? PagePoint{c.x, height - c.y} : PagePoint{width - c.x, c.y};
          // Both stand at the head of one card of 63.5 x 88.9 mm: the number left, the answer
          // in the middle; no other card's number is so near.
          EXPECT_LT(std::abs(seen.x - front->second.x), 0.6 * 63.5) << ink.text;
          EXPECT_LT(std::abs(seen.y - front->second.y), 0.5 * 88.9) << ink.text;
          for (const auto& [text, at] : fronts)
            if (text.size() <= 2 && text[0] >= '0' && text[0] <= '9' && text != front->first) {
              EXPECT_GT(std::abs(seen.x - at.x) / 63.5 + std::abs(seen.y - at.y) / 88.9,
                        std::abs(seen.x - front->second.x) / 63.5 +
                            std::abs(seen.y - front->second.y) / 88.9)
                  << ink.text << " lies nearer to " << text;
            }
          ++pairs;
        }
      }
      EXPECT_EQ(pairs, 12U);  // every term of the set
    }
}

// The texts of one role on a page, as they are set.
std::vector<compose::TextItem> texts_of(const compose::Page& page, compose::Role role) {
  std::vector<compose::TextItem> texts;
  for (const compose::Item& item : page.items)
    if (const auto* group = std::get_if<compose::Group>(&item); group && group->role == role)
      for (const compose::Item& inner : group->items)
        if (const auto* text = std::get_if<compose::TextItem>(&inner)) texts.push_back(*text);
  return texts;
}

// The highest that the lines of the cards on a page reach.
double top_of_cards(const compose::Page& page) {
  double top = page.height;
  for (const compose::Item& item : page.items)
    if (const auto* group = std::get_if<compose::Group>(&item))
      for (const compose::Item& inner : group->items)
        if (const auto* path = std::get_if<compose::PathItem>(&inner))
          for (const compose::PathStep& step : path->steps)
            if (const auto* line = std::get_if<compose::LineTo>(&step))
              top = std::min(top, line->to.y);
  return top;
}

// No smaller than 14 pt to 6 years, 10 pt to 10 and 8 pt above (common practice), above the cards.
TEST(Card_pages, Say_what_to_do_in_letters_as_large_as_their_readers_need) {
  for (const auto& [set, floor] : {std::pair{"klein", 14.0}, {"middle", 10.0}, {"upper", 8.0}})
    for (const SheetKind kind : {SheetKind::cards, SheetKind::memory}) {
      const ComposedSheet sheet = composed(request_of(kind, set));
      for (std::size_t p = 0; p < sheet.pages.size(); p += 2) {
        const compose::Page& page = sheet.pages[p];
        const auto lines = texts_of(page, compose::Role::instruction);
        ASSERT_FALSE(lines.empty());
        const double top = top_of_cards(page);
        ASSERT_LT(top, page.height / 2);
        for (const compose::TextItem& line : lines) {
          EXPECT_GE(line.line.font.size.pt(), floor - 0.01) << set;
          EXPECT_LE(line.line.advance, page.width);
          EXPECT_LT(line.at.y - line.line.ink_bottom, top);
        }
      }
    }
}

// Eight of 63.5 x 88.9 mm lie on A4 and on letter with no words above them: seven terms on
// one sheet, twelve on two.
TEST(Card_pages, Hold_as_many_cards_as_without_words_above_them) {
  for (const std::string paper : {"a4", "letter"})
    for (const auto& [set, pages] : {std::pair{"klein", 2U}, {"upper", 4U}}) {
      SheetRequest request = request_of(SheetKind::cards, set);
      request.paper = paper;
      EXPECT_EQ(composed(request).pages.size(), pages) << paper << " " << set;
    }
}

TEST(Card_pages, Bear_the_check_code_of_their_key_at_the_foot) {
  const ComposedSheet sheet = composed(request_of(SheetKind::cards, "middle"));
  const auto coded = [&](const compose::Page& page) {
    const auto foot = texts_of(page, compose::Role::footer);
    return std::any_of(foot.begin(), foot.end(), [&](const compose::TextItem& item) {
      return item.line.text == "Check code " + sheet.check_code;
    });
  };
  EXPECT_TRUE(coded(sheet.keys.front()));
  for (std::size_t p = 0; p < sheet.pages.size(); p += 2) EXPECT_TRUE(coded(sheet.pages[p]));
}

// Squares of 13 mm have room for 14 pt, the floor to six years (common practice).
TEST(Criss_cross, Numbers_large_squares_in_letters_that_its_readers_can_read) {
  SheetRequest request = request_of(SheetKind::criss_cross, "little");
  request.figure = support::demo_svg("child");
  request.terms = support::demo_terms("child");
  request.paper = "a4";
  int numbers = 0;
  for (const compose::TextItem& text :
       texts_of(composed(request).pages.front(), compose::Role::blank_list)) {
    if (text.line.text.size() > 2 || text.line.font.bold || text.line.text.front() < '0' ||
        text.line.text.front() > '9')
      continue;
    EXPECT_GE(text.line.font.size.pt(), 13.9);
    ++numbers;
  }
  EXPECT_GT(numbers, 2);
}

int dashed_lines(const std::vector<compose::Item>& items) {
  int count = 0;
  for (const compose::Item& item : items) {
    if (const auto* group = std::get_if<compose::Group>(&item)) count += dashed_lines(group->items);
    if (const auto* path = std::get_if<compose::PathItem>(&item))
      count += path->pen && !path->pen->dashes.empty();
  }
  return count;
}

// One clue of this set ends with a short line; its blank is ruled as the others are.
TEST(Fill_in, Rules_all_blanks_of_a_small_hand_alike) {
  SheetRequest request = request_of(SheetKind::fill_in, "little");
  request.figure = support::demo_svg("honeybee");
  request.terms = support::demo_terms("honeybee");
  for (const std::uint64_t seed : {1, 2, 3, 4}) {
    request.seed = seed;
    const ComposedSheet sheet = composed(request);
    int dashed = 0;
    for (const compose::Page& page : sheet.pages) dashed += dashed_lines(page.items);
    EXPECT_EQ(dashed, 6) << seed;  // as many questions
  }
}

TEST(Play_mats, Have_lines_of_two_millimetres) {
  const ComposedSheet sheet = composed(request_of(SheetKind::mat, "little"));
  EXPECT_EQ(sheet.pages.size(), 7U);  // one part a mat
  for (const compose::Page& page : sheet.pages) {
    int thick = 0;
    for (const compose::Item& item : page.items)
      if (const auto* group = std::get_if<compose::Group>(&item))
        for (const compose::Item& inner : group->items)
          if (const auto* path = std::get_if<compose::PathItem>(&inner))
            thick += path->pen && path->pen->width >= 2;
    EXPECT_EQ(thick, 2);  // the outline and the box
  }
}

TEST(Review_keys, Are_files_beside_their_sheets_and_come_last_in_one_pdf) {
  const support::Scratch scratch;
  SheetRequest request = request_of(SheetKind::scramble, "middle");
  request.kinds = {SheetKind::scramble, SheetKind::poster, SheetKind::matching};
  request.out = scratch / "s/";
  const auto folder = make_sheets(request, usual_environment());
  ASSERT_TRUE(folder.ok());
  std::vector<std::string> names;
  for (const std::string& file : folder->files)
    names.push_back(std::filesystem::path(file).filename().string());
  EXPECT_EQ(names, (std::vector<std::string>{
                       "tooth-middle-letter-scramble.pdf", "tooth-middle-letter-scramble-key.pdf",
                       "tooth-middle-letter-poster.pdf", "tooth-middle-letter-matching.pdf",
                       "tooth-middle-letter-matching-key.pdf"}));
  request.out = scratch / "all.svg";
  const auto pages = make_sheets(request, usual_environment());
  ASSERT_TRUE(pages.ok());
  // The title of each file tells whether it is a key's.
  for (const std::string& file : pages->files) {
    const bool key = file.find("-key") != std::string::npos;
    EXPECT_EQ(support::bytes_of(file).find("Answer key</title>") != std::string::npos, key) << file;
  }
}

TEST(Bingo_report, Tells_the_chance_and_the_mean_number_of_calls) {
  const support::Scratch scratch;
  SheetRequest request = request_of(SheetKind::bingo, "upper");  // twelve terms
  request.out = scratch / "b.pdf";
  request.report = scratch / "b.json";
  ASSERT_TRUE(make_sheets(request, usual_environment()).ok());
  const std::string report = support::bytes_of(scratch / "b.json");
  // Twelve words on cards of nine: 6.201 calls (computed from the formula elsewhere).
  const std::size_t at = report.find("\"mean_calls\":");
  ASSERT_NE(at, std::string::npos) << report;
  EXPECT_NEAR(std::stod(report.substr(at + 13)), 6.201, 0.001);
  EXPECT_NE(report.find("\"chance_by_3\":"), std::string::npos);
}

TEST(Review_files, Are_the_same_bytes_by_one_seed_and_others_by_another) {
  const support::Scratch scratch;
  SheetRequest request = request_of(SheetKind::paste, "middle");
  request.kinds.clear();
  for (const SheetKindInfo& info : sheet_kinds())
    if (info.kind >= SheetKind::paste) request.kinds.push_back(info.kind);
  const auto bytes = [&](std::uint64_t seed, const char* name) {
    request.seed = seed;
    request.out = scratch / name;
    EXPECT_TRUE(make_sheets(request, usual_environment()).ok());
    return support::bytes_of(scratch / name);
  };
  const std::string first = bytes(5, "a.pdf");
  EXPECT_GT(first.size(), 100'000U);
  EXPECT_EQ(first, bytes(5, "b.pdf"));
  EXPECT_NE(first, bytes(6, "c.pdf"));
}

// Few of these words cross: of STING's letters only WING, LEG and TONGUE have any.
TEST(Criss_cross_sheet, Takes_other_words_for_those_that_cannot_be_joined) {
  const text::Typesetter typesetter;
  SheetRequest request = request_of(SheetKind::criss_cross, "little");
  request.figure = support::demo_svg("honeybee");
  request.terms = support::demo_terms("honeybee");
  auto loaded = load_to_compose(request, usual_environment(), typesetter);
  ASSERT_TRUE(loaded.ok());
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    request.seed = seed;
    const auto made = compose_figure(*loaded, request, typesetter, nullptr);
    ASSERT_TRUE(made.ok());
    EXPECT_TRUE(made.findings().empty()) << seed;
    EXPECT_EQ(made->sheets.front().facts.front().second, 6) << seed;  // words
  }
}

TEST(Criss_cross_report, Says_how_near_the_crossings_come_to_their_bound) {
  const support::Scratch scratch;
  SheetRequest request = request_of(SheetKind::criss_cross, "upper");
  request.out = scratch / "c.pdf";
  request.report = scratch / "c.json";
  ASSERT_TRUE(make_sheets(request, usual_environment()).ok());
  const std::string report = support::bytes_of(scratch / "c.json");
  const auto value = [&](const std::string& name) {
    const std::size_t at = report.find("\"" + name + "\":");
    return at == std::string::npos ? -1.0 : std::stod(report.substr(at + name.size() + 3));
  };
  // All joined: each word but the first crosses another.
  EXPECT_GE(value("crossings"), value("words") - 1);
  EXPECT_LE(value("crossings"), value("most_crossings"));
  EXPECT_GT(value("words"), 5);
}

TEST(Puzzles_of_letters, Keep_accents_or_fold_them_as_the_style_says) {
  for (const bool fold : {false, true}) {
    const support::Scratch scratch;
    support::write(scratch / "own.yaml", std::string("extends: classroom\nreview: {fold-accents: ") +
                                             (fold ? "yes" : "no") + "}\n");
    support::write(scratch / "t.terms.yaml",
                   "sets: {moyen: {ages: 8-10, language: fr}}\nterms:\n"
                   "  crown: {moyen: émaüç, clue: Un.}\n  root: {moyen: éçü, clue: Deux.}\n");
    SheetRequest request = request_of(SheetKind::criss_cross, "moyen");
    request.terms = scratch / "t.terms.yaml";
    request.style = scratch / "own.yaml";
    const text::Typesetter typesetter;
    auto loaded = load_to_compose(request, usual_environment(), typesetter);
    ASSERT_TRUE(loaded.ok());
    auto made = compose_figure(*loaded, request, typesetter, nullptr);
    ASSERT_TRUE(made.ok());
    std::multiset<std::string> squares;  // the key's letters
    for (const compose::Page& page : made->sheets.front().keys)
      for (const Ink& ink : ink_of(page)) squares.insert(ink.text);
    EXPECT_EQ(squares.contains("É"), !fold);
    EXPECT_EQ(squares.contains("Ç"), !fold);
    EXPECT_EQ(squares.contains("C"), fold);
  }
}

}  // namespace
}  // namespace platewright
