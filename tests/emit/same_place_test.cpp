// The same text at the same place within 0.2 mm in PDF, PNG and SVG, for every script.
#include <gtest/gtest.h>

#include "base/number.hpp"
#include "ink.hpp"
#include "pages.hpp"

namespace platewright::emit {
namespace {

constexpr double tolerance = 0.2;  // mm
constexpr double dpi = 384;
constexpr double pixel = 25.4 / dpi;

struct Row {
  const char* words;
  const char* language;
};
const std::vector<Row> rows = {{"Left ventricle (sinister)", "en"},
                               {"Größe, Œsophage, ñ", "de"},
                               {"αριστερή κοιλία", "el"},
                               {"Левый желудочек", "ru"},
                               {"البطين الأيسر", "ar"},
                               {"حمض DNA النووي (12)", "ar"},
                               {"החדר השמאלי", "he"},
                               {"左心室和右心室", "zh"},
                               {"心臟 heart", "zh"},
                               {"e\u0301tude a\u030ang\u0303", "fr"}};

class SamePlace : public testing::Test {
 protected:
  SamePlace() {
    compose::Page& page = sheet.add_page();
    double y = 25;
    for (const Row& row : rows) {
      for (const double pt : {9.0, 24.0}) {
        const compose::TextItem item =
            sheet.text(row.words, {pt < 10 ? 20.0 : 80.0, y}, pt, row.language);
        page.items.push_back(item);
        lines.push_back(item);
      }
      y += 25;
    }
  }

  static PageBox measured(const compose::TextItem& item) {
    const text::Line& l = item.line;
    return {item.at.x + l.ink_left, item.at.y - l.ink_top, l.ink_right - l.ink_left,
            l.ink_top - l.ink_bottom};
  }

  void expect_ink_where_measured(const std::string& png_path, double slack) {
    const auto seen = picture(png_path);
    ASSERT_TRUE(seen) << png_path;
    for (const compose::TextItem& item : lines) {
      const PageBox promised = measured(item);
      const auto box = ink(*seen, 210, promised.grown(3));
      ASSERT_TRUE(box) << item.line.text;
      EXPECT_NEAR(box->left(), promised.left(), slack) << item.line.text;
      EXPECT_NEAR(box->right(), promised.right(), slack) << item.line.text;
      EXPECT_NEAR(box->top(), promised.top(), slack) << item.line.text;
      EXPECT_NEAR(box->bottom(), promised.bottom(), slack) << item.line.text;
    }
  }

  Sheet sheet;
  std::vector<compose::TextItem> lines;
};

TEST_F(SamePlace, Png_paints_where_it_was_measured) {
  sheet.context.png_dpi = dpi;
  const auto bytes = png(sheet.document, 0, sheet.context);
  ASSERT_TRUE(bytes);
  expect_ink_where_measured(saved("place.png", *bytes), 1.2 * pixel);
}

TEST_F(SamePlace, Pdf_paints_where_it_was_measured) {
  const auto bytes = pdf(sheet.document, sheet.context);
  ASSERT_TRUE(bytes);
  const std::string path = saved("place.pdf", *bytes);
  run("pdftoppm -r 384 -png -singlefile " + path + " " + path);
  expect_ink_where_measured(path + ".png", tolerance);
}

TEST_F(SamePlace, A_browser_paints_the_svg_where_it_was_measured) {
  if (!browser_installed()) GTEST_SKIP() << "chromium is not installed";
  const auto bytes = svg(sheet.document, 0, sheet.context);
  ASSERT_TRUE(bytes);
  const std::string path = saved("place.svg", *bytes), shot = path + ".png";
  const std::string said =
      browse("--force-device-scale-factor=4 --window-size=794,1123 --screenshot=" + shot +
             " file://" + path);
  auto seen = picture(shot);
  ASSERT_TRUE(seen) << said;
  // 794 CSS pixels are a little more than 210 mm.
  for (const compose::TextItem& item : lines) {
    const PageBox promised = measured(item);
    const auto box = ink(*seen, 794 * 25.4 / 96, promised.grown(3));
    ASSERT_TRUE(box) << item.line.text;
    EXPECT_NEAR(box->left(), promised.left(), tolerance) << item.line.text;
    EXPECT_NEAR(box->right(), promised.right(), tolerance) << item.line.text;
    EXPECT_NEAR(box->top(), promised.top(), tolerance) << item.line.text;
    EXPECT_NEAR(box->bottom(), promised.bottom(), tolerance) << item.line.text;
  }
}

TEST_F(SamePlace, Every_line_is_whole_in_the_text_of_the_pdf) {
  const auto bytes = pdf(sheet.document, sheet.context);
  ASSERT_TRUE(bytes);
  const std::string said = run("pdftotext -enc UTF-8 " + saved("text.pdf", *bytes) + " -");
  for (const Row& row : rows) {
    if (std::string_view(row.language) == "ar") continue;
    EXPECT_NE(said.find(row.words), std::string::npos) << row.words << said;
  }
}

// pdftotext writes right-to-left lines with marks of direction and turns the two
// letters of a ligature round; every letter must be there all the same.
TEST_F(SamePlace, Every_letter_of_an_arabic_line_is_in_the_text_of_the_pdf) {
  for (const Row& row : rows) {
    if (std::string_view(row.language) != "ar") continue;
    Sheet one;
    one.add_page().items.push_back(one.text(row.words, {20, 40}, 20, row.language));
    const auto bytes = pdf(one.document, one.context);
    ASSERT_TRUE(bytes);
    std::string said = run("pdftotext -enc UTF-8 " + saved("arabic.pdf", *bytes) + " -");
    std::string wanted = row.words;
    said.resize(said.find("exit"));
    for (const char* mark : {"\u202a", "\u202b", "\u202c", "\n", "\f"})
      for (std::size_t at; (at = said.find(mark)) != std::string::npos;)
        said.erase(at, std::string_view(mark).size());
    std::sort(said.begin(), said.end());
    std::sort(wanted.begin(), wanted.end());
    EXPECT_EQ(said, wanted) << row.words;
  }
}

// An outside reader's boxes (poppler's) against the measured ones.
TEST_F(SamePlace, Word_boxes_of_the_pdf_begin_and_end_with_the_line) {
  Sheet one;
  compose::Page& page = one.add_page();
  const compose::TextItem item = one.text("Left atrium of the heart", {25, 60}, 18);
  page.items.push_back(item);
  const auto bytes = pdf(one.document, one.context);
  ASSERT_TRUE(bytes);
  const std::string said = run("pdftotext -bbox-layout " + saved("box.pdf", *bytes) + " -");
  const std::size_t line = said.find("<line ");
  ASSERT_NE(line, std::string::npos) << said;
  const auto number = [&](const char* name) {
    const std::size_t at = said.find(name, line) + std::string_view(name).size() + 2;
    return *parse_number(said.substr(at, said.find('"', at) - at)) * 25.4 / 72;
  };
  EXPECT_NEAR(number("xMin"), item.at.x, 0.1);
  EXPECT_NEAR(number("xMax"), item.at.x + item.line.advance, 0.1);
  EXPECT_NEAR(number("yMin"), item.at.y - item.line.ascent, 0.3);
  EXPECT_NEAR(number("yMax"), item.at.y + item.line.descent, 0.3);
}

}  // namespace
}  // namespace platewright::emit
