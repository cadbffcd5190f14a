// Finished PDFs as other programs see them: poppler's tools and qpdf (Debian's
// poppler-utils and qpdf), which share no code with ours.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using support::between;
using support::contains;
using support::folded;
using support::number;
using support::run;

constexpr double point = 25.4 / 72;  // mm

struct Word {
  double left, top, right, bottom;  // mm
  std::string text;
};

std::vector<Word> words_of(const std::string& pdf) {
  const auto done = run({"pdftotext", "-bbox", "-f", "1", "-l", "1", pdf, "-"});
  EXPECT_EQ(done.code, 0) << done.said();
  std::vector<Word> words;
  for (const std::string& line : between(done.out, "<word ", "</word>")) {
    const auto value = [&](const std::string& name) {
      return number(between(line, name + "=\"", "\"").front()) * point;
    };
    words.push_back({value("xMin"), value("yMin"), value("xMax"), value("yMax"),
                     support::decoded_xml(line.substr(line.find('>') + 1))});
  }
  return words;
}

class Pdf : public testing::TestWithParam<std::string> {};

TEST_P(Pdf, Is_sound_embeds_its_fonts_and_holds_every_label_whole) {
  const std::string figure = GetParam();
  for (const std::string set : {"little", "gross"}) {
    const support::Scratch scratch;
    const std::string pdf = scratch / "p.pdf", report = scratch / "p.json";
    const auto made = support::platewright({"sheet", support::demo_svg(figure), "--terms",
                                            support::demo_terms(figure), "--set", set, "--kind",
                                            "poster", "--paper", "letter", "--out", pdf,
                                            "--report", report});
    ASSERT_EQ(made.code, 0) << made.said();
    EXPECT_EQ(run({"qpdf", "--check", pdf}).code, 0);

    const auto fonts = support::split(run({"pdffonts", pdf}).out, '\n');
    ASSERT_GE(fonts.size(), 3U);
    for (std::size_t i = 2; i < fonts.size(); ++i) {
      if (fonts[i].empty()) continue;
      // Columns: name, type, encoding, emb, sub, uni, object.
      EXPECT_TRUE(contains(fonts[i], " yes ")) << fonts[i];
      EXPECT_FALSE(contains(folded(fonts[i]), " no yes ")) << fonts[i];
    }

    const std::string size = between(run({"pdfinfo", pdf}).out, "Page size:", "pts").front();
    const auto sides = support::split(folded(size), ' ');
    const double a = number(sides[0]), b = number(sides[2]);
    EXPECT_NEAR(std::min(a, b), 612, 0.1);  // ANSI letter, 8.5 x 11 in
    EXPECT_NEAR(std::max(a, b), 792, 0.1);

    const std::string text = folded(run({"pdftotext", pdf, "-"}).out);
    const std::vector<Word> words = words_of(pdf);
    for (const std::string& label : between(support::bytes_of(report), "{\"anchor\":", "]]")) {
      const std::string whole = between(label, "\"text\":\"", "\"").front();
      EXPECT_TRUE(contains(text, whole)) << figure << " " << set << ": " << whole;
      const auto box = support::split(between(label, "\"box\":[", "]").front(), ',');
      const double x = number(box[0]), y = number(box[1]), w = number(box[2]), h = number(box[3]);
      // The words whose middle lies in the reported box make up its box.
      double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
      for (const Word& word : words) {
        const double mx = (word.left + word.right) / 2, my = (word.top + word.bottom) / 2;
        if (mx < x || mx > x + w || my < y || my > y + h) continue;
        left = std::min(left, word.left);
        top = std::min(top, word.top);
        right = std::max(right, word.right);
        bottom = std::max(bottom, word.bottom);
      }
      EXPECT_NEAR(left, x, 0.3) << whole;
      EXPECT_NEAR(top, y, 0.3) << whole;
      EXPECT_NEAR(right, x + w, 0.3) << whole;
      EXPECT_NEAR(bottom, y + h, 0.3) << whole;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Demo, Pdf, testing::ValuesIn(support::demo_figures()));

TEST(Pdf_bytes, Are_the_same_for_the_same_input_and_carry_a_date_only_when_asked) {
  const support::Scratch scratch;
  const auto make = [&](const std::string& out, const std::string& epoch) {
    support::Limits limits;
    if (!epoch.empty()) limits.environment = {{"SOURCE_DATE_EPOCH", epoch}};
    const auto done = support::platewright(
        {"sheet", support::demo_svg("eye"), "--terms", support::demo_terms("eye"), "--set", "upper",
         "--kind", "poster,worksheet,key", "--out", out},
        limits);
    EXPECT_EQ(done.code, 0) << done.said();
    return support::bytes_of(out);
  };
  const std::string first = make(scratch / "a.pdf", "");
  EXPECT_EQ(first, make(scratch / "b.pdf", ""));
  EXPECT_FALSE(contains(run({"pdfinfo", scratch / "a.pdf"}).out, "CreationDate"));
  make(scratch / "c.pdf", "1000000000");
  EXPECT_TRUE(contains(run({"pdfinfo", scratch / "c.pdf"}).out, "2001"));  // 2001-09-09 UTC
}

TEST(Pdf_of_press, Has_trim_and_bleed_boxes_inside_its_media_box) {
  const support::Scratch scratch;
  const auto done = support::platewright(
      {"sheet", support::demo_svg("hand"), "--terms", support::demo_terms("hand"), "--set",
       "middle", "--kind", "poster", "--paper", "a4", "--orientation", "portrait", "--style",
       "press", "--out", scratch / "p.pdf"});
  ASSERT_EQ(done.code, 0) << done.said();
  const std::string boxes = run({"pdfinfo", "-box", scratch / "p.pdf"}).out;
  const auto box = [&](const std::string& name) {
    std::vector<double> values;
    for (const std::string& v :
         support::split(folded(between(boxes, name + ":", "\n").front()), ' '))
      values.push_back(number(v));
    return values;
  };
  const auto media = box("MediaBox"), bleed = box("BleedBox"), trim = box("TrimBox");
  EXPECT_NEAR(trim[2] - trim[0], 210 / point, 0.1);  // ISO 216 A4
  EXPECT_NEAR(trim[3] - trim[1], 297 / point, 0.1);
  EXPECT_NEAR(trim[0] - bleed[0], 3 / point, 0.1);  // 3 mm, common practice
  EXPECT_LT(media[0], bleed[0] + 1e-6);
  EXPECT_GT(media[2], bleed[2] - 1e-6);
}

}  // namespace
