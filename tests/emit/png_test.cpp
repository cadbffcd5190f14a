// PNG: size, resolution, limits.
#include <gtest/gtest.h>

#include <limits>

#include "ink.hpp"
#include "pages.hpp"

namespace platewright::emit {
namespace {

TEST(Png, Pixels_and_stated_resolution_agree_with_the_paper) {
  Sheet sheet;
  sheet.add_poster();
  sheet.context.png_dpi = 150;
  const auto bytes = png(sheet.document, 0, sheet.context);
  ASSERT_TRUE(bytes);
  const auto seen = picture(saved("poster.png", *bytes));
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen->columns, 1240);  // 210 mm at 150 dpi: 1240.2
  EXPECT_EQ(seen->rows, 1754);
  // 150 / 0.0254 = 5906 = 0x1712 pixels a metre; check sum by zlib's crc32.
  const std::string chunk(
      "\0\0\0\x09"
      "pHYs\0\0\x17\x12\0\0\x17\x12\x01"
      "\x67\x9f\xd2\x52",
      21);
  EXPECT_EQ(bytes->substr(33, 21), chunk);
}

TEST(Png, The_corner_of_the_paper_is_white) {
  Sheet sheet;
  sheet.add_page();
  const auto bytes = png(sheet.document, 0, sheet.context);
  ASSERT_TRUE(bytes);
  const auto seen = picture(saved("white.png", *bytes));
  for (const unsigned char v : seen->grey) ASSERT_EQ(v, 255);
}

TEST(Png, Too_many_pixels_are_a_finding_that_says_what_fits) {
  Sheet sheet;
  sheet.add_page(841, 1189);
  sheet.context.png_dpi = 1200;
  const auto result = png(sheet.document, 0, sheet.context);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.findings().front().code, "png-large");
  // 150 million pixels on 33.11 by 46.81 inches: sqrt(150e6 / 1549.9) = 311.1.
  EXPECT_NE(result.findings().front().advice.find("311 dpi"), std::string::npos);
  sheet.document.pages[0].width = 5000;
  sheet.document.pages[0].height = 10;
  const auto wide = png(sheet.document, 0, sheet.context);
  ASSERT_FALSE(wide);
  EXPECT_EQ(wide.findings().front().code, "png-large");
}

TEST(Png, A_resolution_that_is_no_number_is_a_finding) {
  Sheet sheet;
  sheet.add_page();
  for (const double dpi : {0.0, -5.0, std::numeric_limits<double>::quiet_NaN(),
                           std::numeric_limits<double>::infinity()}) {
    sheet.context.png_dpi = dpi;
    const auto result = png(sheet.document, 0, sheet.context);
    ASSERT_FALSE(result);
    EXPECT_EQ(result.findings().front().code, "png-resolution");
  }
}

TEST(Png, The_same_page_gives_the_same_bytes) {
  Sheet one, two;
  one.add_poster();
  two.add_poster();
  EXPECT_EQ(*png(one.document, 0, one.context), *png(two.document, 0, two.context));
}

TEST(Png, What_cannot_be_drawn_is_a_finding) {
  Sheet sheet;
  sheet.add_poster();
  EXPECT_EQ(png(sheet.document, 7, sheet.context).findings().front().code, "page-missing");

  sheet.context.art.figure = nullptr;
  EXPECT_EQ(png(sheet.document, 0, sheet.context).findings().front().code, "art-missing");
  EXPECT_EQ(pdf(sheet.document, sheet.context).findings().front().code, "art-missing");
  EXPECT_EQ(svg(sheet.document, 0, sheet.context).findings().front().code, "art-missing");

  Sheet broken;
  broken.drawn = figure("<svg");
  broken.add_poster();
  EXPECT_EQ(png(broken.document, 0, broken.context).findings().front().code, "art-unreadable");
  EXPECT_EQ(pdf(broken.document, broken.context).findings().front().code, "art-unreadable");

  Sheet odd;
  odd.add_page().items.push_back(
      Sheet::stroke({0, 0}, {std::numeric_limits<double>::quiet_NaN(), 1}));
  EXPECT_EQ(png(odd.document, 0, odd.context).findings().front().code, "page-not-finite");
  EXPECT_EQ(pdf(odd.document, odd.context).findings().front().code, "page-not-finite");
  EXPECT_EQ(svg(odd.document, 0, odd.context).findings().front().code, "page-not-finite");

  for (const double side : {0.0, -3.0, 6000.0, std::numeric_limits<double>::infinity()}) {
    Sheet size;
    size.add_page(side, 100);
    EXPECT_EQ(pdf(size.document, size.context).findings().front().code, "page-size");
    EXPECT_EQ(png(size.document, 0, size.context).findings().front().code, "page-size");
    EXPECT_EQ(svg(size.document, 0, size.context).findings().front().code, "page-size");
  }
}

TEST(Png, Outline_art_is_found_by_its_width_in_figure_units) {
  Sheet sheet;
  compose::FigureItem item = sheet.figure_item(0.8);
  item.art = compose::Art::outlines;
  item.outline_width = 0.4;
  sheet.add_page().items.push_back(item);
  EXPECT_EQ(png(sheet.document, 0, sheet.context).findings().front().code, "art-missing");
  sheet.context.art.outlines.emplace_back(
      0.4 / 0.8,
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='10 20 200 100'><rect x='10' y='20' "
      "width='200' height='100'/></svg>");
  const auto bytes = png(sheet.document, 0, sheet.context);
  ASSERT_TRUE(bytes);
  const auto seen = picture(saved("outline.png", *bytes));
  const auto box = ink(*seen, 210, {0, 0, 210, 297});
  ASSERT_TRUE(box);
  EXPECT_NEAR(box->left(), 28, 0.2);
  EXPECT_NEAR(box->right(), 188, 0.2);
  EXPECT_NEAR(box->top(), 56, 0.2);
}

}  // namespace
}  // namespace platewright::emit
