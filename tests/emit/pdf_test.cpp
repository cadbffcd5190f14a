// The PDF, looked at by poppler's and qpdf's programs.
#include <cairo-pdf.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <librsvg/rsvg.h>

#include <fstream>
#include <sstream>

#include "ink.hpp"
#include "pages.hpp"

namespace platewright::emit {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string written(const Sheet& sheet, const std::string& name) {
  const Result<std::string> bytes = pdf(sheet.document, sheet.context);
  if (!bytes) {
    ADD_FAILURE() << to_text(bytes.findings().front());
    return "/missing";
  }
  return saved(name, *bytes);
}

std::string opened(const std::string& path) {  // every object readable
  return run("qpdf --qdf --object-streams=disable " + path + " -");
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t result = 0;
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += what.size())
    ++result;
  return result;
}

TEST(Pdf, Art_drawn_ahead_of_its_page_is_the_art_that_the_page_asks_for) {
  Sheet sheet;
  sheet.add_poster();
  const Result<std::string> plain = pdf(sheet.document, sheet.context);
  ASSERT_TRUE(plain.ok());
  const DrawnAhead right = painted_ahead(sheet.context.art, 0.8),
                   wrong = painted_ahead(sheet.context.art, 0.7);
  int asked = 0;
  sheet.context.keep_art = [&](const std::string& from, const auto&) {
    ++asked;
    EXPECT_EQ(from, right.from);
    EXPECT_NE(from, wrong.from);
    return right.draw();
  };
  const Result<std::string> ahead = pdf(sheet.document, sheet.context);
  ASSERT_TRUE(ahead.ok());
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(*ahead, *plain);
}

TEST(Pdf, A_poster_is_sound_and_says_what_it_is) {
  Sheet sheet;
  sheet.add_poster();
  const std::string path = written(sheet, "poster.pdf");
  EXPECT_THAT(run("qpdf --check " + path), HasSubstr("No syntax or stream encoding errors"));
  const std::string info = run("pdfinfo -box " + path);
  EXPECT_THAT(info, HasSubstr("The heart"));
  EXPECT_THAT(info, HasSubstr("A. Teacher"));
  EXPECT_THAT(info, HasSubstr("Producer:        platewright\n"));
  EXPECT_THAT(info, HasSubstr("Tagged:          yes"));
  EXPECT_THAT(info, Not(HasSubstr("Date")));
  const std::string objects = opened(path);
  EXPECT_THAT(objects, HasSubstr("/Lang (en)"));
  EXPECT_THAT(objects, HasSubstr("/DisplayDocTitle true"));
  EXPECT_THAT(objects, Not(HasSubstr("cairo")));
}

TEST(Pdf, The_page_has_the_size_of_the_paper) {
  // ISO 216 and ANSI in points: 210 mm = 595.276, 297 mm = 841.890, 8.5 in = 612.
  for (const auto& [w, h, size] : {std::tuple{210.0, 297.0, "595.276 x 841.89 pts (A4)"},
                                   std::tuple{215.9, 279.4, "612 x 792 pts (letter)"},
                                   std::tuple{609.6, 914.4, "1728 x 2592 pts"},
                                   std::tuple{841.0, 1189.0, "2383.94 x 3370.39 pts (A0)"}}) {
    Sheet sheet;
    sheet.add_page(w, h);
    EXPECT_THAT(run("pdfinfo " + written(sheet, "size.pdf")), HasSubstr(size));
  }
}

TEST(Pdf, Fonts_are_embedded_and_subset) {
  Sheet sheet;
  sheet.add_poster().items.push_back(sheet.text("心 القلب ж", {20, 200}, 20, "zh"));
  const std::string said = run("pdffonts " + written(sheet, "fonts.pdf"));
  EXPECT_THAT(said, HasSubstr("Andika"));
  std::size_t lines = 0;
  std::istringstream stream(said);
  for (std::string line; std::getline(stream, line);) {
    if (line.find("+") == std::string::npos) continue;
    ++lines;
    EXPECT_THAT(line, HasSubstr("yes yes yes")) << "embedded, subset, with unicode";
  }
  EXPECT_GE(lines, 4u);
}

TEST(Pdf, The_same_input_gives_the_same_bytes) {
  Sheet one, two;
  one.add_poster();
  two.add_poster();
  const auto first = pdf(one.document, one.context), second = pdf(two.document, two.context);
  ASSERT_TRUE(first);
  EXPECT_EQ(*first, *second);
  run("sleep 1.1");  // Cairo writes the second of its making
  EXPECT_EQ(*first, *pdf(one.document, one.context));
}

TEST(Pdf, A_date_is_written_only_when_it_is_given) {
  Sheet sheet;
  sheet.add_poster();
  sheet.context.source_date = 951'827'696;  // date -u -d @951827696: 2000-02-29 12:34:56
  EXPECT_THAT(opened(written(sheet, "date.pdf")), HasSubstr("(D:20000229123456Z)"));
}

TEST(Pdf, Bleed_and_slug_make_trim_and_bleed_boxes) {
  Sheet sheet;
  compose::Page& page = sheet.add_poster();
  page.bleed = 3;
  page.slug = 7;
  const std::string info = run("pdfinfo -box " + written(sheet, "bleed.pdf"));
  // 10 mm = 28.35 pt; 7 mm = 19.84 pt; 220 mm = 623.62 pt; 223 mm = 632.13 pt.
  EXPECT_THAT(info, HasSubstr("MediaBox:            0.00     0.00   651.97   898.58"));
  EXPECT_THAT(info, HasSubstr("TrimBox:            28.35    28.35   623.62   870.24"));
  EXPECT_THAT(info, HasSubstr("BleedBox:           19.84    19.84   632.13   878.74"));
}

TEST(Pdf, Print_scaling_is_off_where_it_was_asked_for) {
  Sheet sheet;
  sheet.add_poster();
  EXPECT_THAT(opened(written(sheet, "scaling.pdf")), Not(HasSubstr("/PrintScaling")));
  sheet.document.print_scaling_off = true;
  EXPECT_THAT(opened(written(sheet, "scaling.pdf")), HasSubstr("/PrintScaling /None"));
}

TEST(Pdf, Bookmarks_and_page_labels_name_the_pages) {
  Sheet sheet;
  for (const char* label : {"i", "1", "2", "A (1)", ""}) {
    sheet.add_poster().label = label;
    sheet.document.pages.back().title = std::string("Sheet \u2013 ") + label;
  }
  sheet.document.pages[2].title.clear();
  const std::string path = written(sheet, "labels.pdf");
  const std::string json = run("qpdf --json=2 --json-key=pagelabels --json-key=outlines " + path);
  EXPECT_THAT(json, HasSubstr("Sheet \u2013 i"));
  EXPECT_EQ(count(json, "\"title\":"), 4u);
  EXPECT_THAT(json, HasSubstr("\"/P\": \"u:i\""));
  EXPECT_THAT(json, HasSubstr("\"/P\": \"u:A (1)\""));
  EXPECT_THAT(json, HasSubstr("\"/S\": \"/D\""));
  EXPECT_THAT(run("qpdf --check " + path), HasSubstr("No syntax"));
}

TEST(Pdf, The_structure_tells_headings_figures_and_their_alternative_text) {
  Sheet sheet;
  sheet.add_poster();
  sheet.add_poster().description = "A second one";
  const std::string said = run("pdfinfo -struct-text " + written(sheet, "tags.pdf"));
  EXPECT_THAT(said, HasSubstr("Document"));
  EXPECT_EQ(count(said, "Sect"), 2u);
  EXPECT_EQ(count(said, "H1"), 2u) << said;
  EXPECT_EQ(count(said, "Figure"), 2u) << said;
  const std::string objects = opened(place("tags.pdf"));
  EXPECT_THAT(objects, HasSubstr("/Alt (A heart cut open, seen from the front)"));
  EXPECT_THAT(objects, HasSubstr("/Alt (A second one)"));
}

TEST(Pdf, What_has_no_tag_is_an_artifact) {
  Sheet sheet;
  sheet.add_poster().items.push_back(sheet.text("loose", {20, 280}));
  const std::string objects = opened(written(sheet, "artifacts.pdf"));
  // Title, figure, label, loose line: four tags, an artifact before, between and after; the
  // leader is one of its own.
  EXPECT_EQ(count(objects, "/MCID"), 4u);
  EXPECT_EQ(count(objects, "/Artifact BMC"), 6u);
  EXPECT_EQ(count(objects, "/Artifact <</PLWR_Leader (aorta)>> BDC"), 1u);
  EXPECT_EQ(count(objects, "/PLWR_Label (aorta)>> BDC"), 1u);
  EXPECT_EQ(count(objects, "BDC") + count(objects, "BMC"), count(objects, "EMC"));
  std::size_t open = 0;  // never one in another
  std::istringstream lines(objects);
  for (std::string line; std::getline(lines, line);) {
    if (line.ends_with("BDC") || line.ends_with("BMC")) {
      EXPECT_EQ(open++, 0u) << line;
    }
    if (line.ends_with("EMC")) {
      EXPECT_EQ(open--, 1u) << line;
    }
  }
}

TEST(Pdf, A_figure_of_endless_use_is_a_finding) {
  Sheet sheet;
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"10 20 200 100\"><defs><g "
      "id=\"a0\"><path d=\"M0 0H9V9\"/></g>";
  for (int i = 1; i <= 12; ++i) {
    svg += "<g id=\"a" + std::to_string(i) + "\">";
    for (int k = 0; k < 10; ++k) svg += "<use href=\"#a" + std::to_string(i - 1) + "\"/>";
    svg += "</g>";
  }
  sheet.drawn = figure(svg + "</defs><use href=\"#a12\"/></svg>");
  sheet.add_poster();
  const auto result = pdf(sheet.document, sheet.context);
  ASSERT_FALSE(result);
  EXPECT_EQ(result.findings().front().code, "art-undrawable");
}

TEST(Pdf, A_figure_on_many_pages_is_stored_once) {
  Sheet one, many;
  one.add_poster();
  for (int i = 0; i < 12; ++i) many.add_poster();
  EXPECT_EQ(count(opened(written(one, "one.pdf")), "/ShadingType"),
            count(opened(written(many, "many.pdf")), "/ShadingType"));
}

// The same page, each figure drawn by librsvg straight into Cairo's PDF.
void draw_directly(const Sheet& sheet, const compose::PathItem& ground, const std::string& path) {
  const double points = 72 / 25.4;
  cairo_surface_t* surface = cairo_pdf_surface_create(path.c_str(), 210 * points, 297 * points);
  cairo_t* cairo = cairo_create(surface);
  cairo_scale(cairo, points, points);
  RsvgHandle* handle = rsvg_handle_new_from_data(
      reinterpret_cast<const guint8*>(sheet.drawn.svg.data()), sheet.drawn.svg.size(), nullptr);
  cairo_set_source_rgb(cairo, ground.fill->red / 255.0, ground.fill->green / 255.0,
                       ground.fill->blue / 255.0);
  cairo_rectangle(cairo, 0, 0, 200, 150);
  cairo_fill(cairo);
  bool first = true;
  for (const compose::Item& any : sheet.document.pages[0].items) {
    const auto* item = std::get_if<compose::FigureItem>(&any);
    if (item == nullptr) continue;
    cairo_save(cairo);
    if (item->clip) {
      cairo_rectangle(cairo, item->clip->x, item->clip->y, item->clip->w, item->clip->h);
      cairo_clip(cairo);
    }
    const PageBox at = item->transform(sheet.drawn.view_box);
    const RsvgRectangle viewport{at.x, at.y, at.w, at.h};
    if (item->tint < 1) cairo_push_group(cairo);
    EXPECT_TRUE(rsvg_handle_render_document(handle, cairo, &viewport, nullptr));
    if (item->tint < 1) {
      cairo_pop_group_to_source(cairo);
      cairo_paint_with_alpha(cairo, item->tint);
    }
    cairo_restore(cairo);
    if (first) {  // the line that the page draws after its first figure
      cairo_set_line_width(cairo, 0.35);
      cairo_set_line_cap(cairo, CAIRO_LINE_CAP_ROUND);
      cairo_set_source_rgb(cairo, 0, 0, 0);
      cairo_move_to(cairo, 0, 60);
      cairo_line_to(cairo, 210, 100);
      cairo_stroke(cairo);
    }
    first = false;
  }
  g_object_unref(handle);
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
}

// The art goes through a PDF of its own and a form XObject: it must look as when
// drawn straight onto the page, and lie under what was drawn after it.
class SharedFigure : public testing::TestWithParam<std::string> {};

TEST_P(SharedFigure, Looks_as_when_drawn_directly) {
  Sheet sheet;
  if (GetParam() != "test") {
    std::ifstream file(std::string(PW_SOURCE_DIR) + "/figures/demo/" + GetParam());
    if (!file) GTEST_SKIP() << "no such figure yet";
    std::string svg(std::istreambuf_iterator<char>(file), {});
    const std::size_t at = svg.find("viewBox=\"") + 9;
    std::istringstream numbers(svg.substr(at, svg.find('"', at) - at));
    sheet.drawn.svg = svg;
    FigureBox& box = sheet.drawn.view_box;
    numbers >> box.x >> box.y >> box.w >> box.h;
    sheet.drawn.painted = box;
  }
  const FigureBox& box = sheet.drawn.view_box;
  const double scale = 150 / std::max(box.w, box.h);
  compose::Page& page = sheet.add_page(210, 297);
  compose::PathItem ground;
  ground.steps = {compose::MoveTo{{0, 0}}, compose::LineTo{{200, 0}}, compose::LineTo{{200, 150}},
                  compose::LineTo{{0, 150}}, compose::ClosePath{}};
  ground.fill = Colour{220, 235, 255};
  page.items.push_back(ground);
  // On whole points, where the art's coordinates are the page's.
  const double point = 25.4 / 72;
  const auto at = [&](double x, double y, double by) {
    return sheet.figure_item(by, {x * point - box.x * by, y * point - box.y * by});
  };
  page.items.push_back(at(57, 57, scale));
  page.items.push_back(Sheet::stroke({0, 60}, {210, 100}));
  compose::FigureItem small = at(57, 567, scale / 4);
  small.tint = 0.5;
  page.items.push_back(small);
  compose::FigureItem clipped = at(255, 567, scale / 3);
  const double px = 25.4 / 96;  // on whole pixels: the edges of a clip are not at issue
  clipped.clip = PageBox{378 * px, 775 * px, 94 * px, 94 * px};
  page.items.push_back(clipped);

  const std::string path = written(sheet, "shared.pdf");
  const std::string plain = place("direct.pdf");
  draw_directly(sheet, ground, plain);
  for (const std::string& one : {path, plain})
    run("pdftocairo -r 96 -png -singlefile " + one + " " + one);
  const auto shared = picture(path + ".png"), direct = picture(plain + ".png");
  ASSERT_TRUE(shared && direct);
  ASSERT_EQ(shared->pixels.size(), direct->pixels.size());
  int off = 0, far_off = 0;
  for (std::size_t i = 0; i < shared->grey.size(); ++i) {
    const int by = std::abs(shared->grey[i] - direct->grey[i]);
    off += by > 8 ? 1 : 0;
    far_off += by > 64 ? 1 : 0;
  }
  // The smaller ones are stored at the largest scale and rounded there (1/256 point).
  EXPECT_LT(off, 40);
  EXPECT_LT(far_off, 3);
}

INSTANTIATE_TEST_SUITE_P(Figures, SharedFigure,
                         testing::Values("test", "heart.svg", "eye.svg", "hand.svg", "honeybee.svg",
                                         "tooth.svg", "child.svg"));

TEST(Pdf, Paint_beyond_the_view_box_is_kept) {
  Sheet sheet;
  sheet.drawn = figure(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"10 20 200 100\"><rect x=\"-10\" y=\"0\" "
      "width=\"240\" height=\"140\"/></svg>");
  sheet.drawn.painted = {-10, 0, 240, 140};
  sheet.add_page().items.push_back(sheet.figure_item(0.5, {40, 40}));
  const std::string path = written(sheet, "beyond.pdf");
  run("pdftocairo -r 96 -png -singlefile " + path + " " + path);
  const auto box = ink(*picture(path + ".png"), 210, {0, 0, 210, 297});
  ASSERT_TRUE(box);
  EXPECT_NEAR(box->left(), 35, 0.3);
  EXPECT_NEAR(box->right(), 155, 0.3);
  EXPECT_NEAR(box->top(), 40, 0.3);
  EXPECT_NEAR(box->bottom(), 110, 0.3);
}

TEST(Pdf, Letters_to_trace_are_outlined_and_still_text) {
  Sheet sheet;
  compose::TextItem item = sheet.text("Aorta", {20, 60}, 60);
  item.outline = compose::Pen{Colour{150, 150, 150}, 0.4, {}, true};
  sheet.add_page().items.push_back(item);
  const std::string path = written(sheet, "trace.pdf");
  EXPECT_THAT(run("pdftotext " + path + " -"), HasSubstr("Aorta"));
  run("pdftocairo -r 96 -png -singlefile " + path + " " + path);
  const auto seen = picture(path + ".png");
  ASSERT_TRUE(seen);
  EXPECT_GE(*std::min_element(seen->grey.begin(), seen->grey.end()), 149);
}

TEST(Pdf, Words_of_any_kind_make_a_sound_document) {
  Sheet sheet;
  sheet.document.title = "A (title) \\ with ) \u2014 \U0001F600 \xff";
  sheet.document.author = "\x01<>";
  compose::Page& page = sheet.add_poster();
  page.title = "((( \u05d0";
  page.description = std::string(5000, ')');
  page.label = "\\(";
  EXPECT_THAT(run("qpdf --check " + written(sheet, "words.pdf")), HasSubstr("No syntax"));
}

TEST(Pdf, No_pages_are_a_finding) {
  Sheet sheet;
  EXPECT_EQ(pdf(sheet.document, sheet.context).findings().front().code, "page-missing");
}

}  // namespace
}  // namespace platewright::emit
