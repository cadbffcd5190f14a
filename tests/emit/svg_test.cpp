// The SVG: its shape, well-formedness, and a figure that cannot reach the page.
#include <gtest/gtest.h>
#include <librsvg/rsvg.h>

#include <memory>
#include <pugixml.hpp>
#include <set>

#include "ink.hpp"
#include "pages.hpp"

namespace platewright::emit {
namespace {

struct Written {
  std::string bytes;
  pugi::xml_document xml;
  pugi::xml_node root() const { return xml.document_element(); }
};

using Handle = std::unique_ptr<RsvgHandle, void (*)(gpointer)>;

Handle read(const std::string& bytes, std::string& fault) {
  GError* error = nullptr;
  Handle handle(rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(bytes.data()),
                                          bytes.size(), &error),
                g_object_unref);
  if (error != nullptr) {
    fault = error->message;
    g_error_free(error);
  }
  return handle;
}

// What libxml2 (by librsvg) says against the document, a strict reader unlike pugixml.
std::string xml_fault(const std::string& bytes) {
  std::string fault;
  read(bytes, fault);
  return fault;
}

void render(const std::string& bytes, int columns, int rows, const std::string& path) {
  std::string fault;
  const Handle handle = read(bytes, fault);
  ASSERT_EQ(fault, "");
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, columns, rows);
  cairo_t* cairo = cairo_create(surface);
  cairo_set_source_rgb(cairo, 1, 1, 1);
  cairo_paint(cairo);
  const RsvgRectangle whole{0, 0, static_cast<double>(columns), static_cast<double>(rows)};
  EXPECT_TRUE(rsvg_handle_render_document(handle.get(), cairo, &whole, nullptr));
  cairo_surface_write_to_png(surface, path.c_str());
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
}

void write(const Sheet& sheet, Written& to) {
  const Result<std::string> result = svg(sheet.document, 0, sheet.context);
  ASSERT_TRUE(result) << to_text(result.findings().front());
  to.bytes = *result;
  ASSERT_TRUE(to.xml.load_string(to.bytes.c_str(), pugi::parse_default | pugi::parse_ws_pcdata));
  EXPECT_EQ(xml_fault(to.bytes), "");
}

// The figure's document, inside, after it went through the writer.
void nest(const std::string& inside, Written& to) {
  Sheet sheet;
  sheet.drawn = figure("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"10 20 200 100\">" +
                       inside + "</svg>");
  sheet.add_poster();
  write(sheet, to);
}

TEST(Svg, A_page_has_its_size_title_and_language) {
  Sheet sheet;
  sheet.add_poster();
  Written page;
  write(sheet, page);
  EXPECT_STREQ(page.root().attribute("width").value(), "210mm");
  EXPECT_STREQ(page.root().attribute("height").value(), "297mm");
  EXPECT_STREQ(page.root().attribute("viewBox").value(), "0 0 210 297");
  EXPECT_STREQ(page.root().attribute("xml:lang").value(), "en");
  EXPECT_STREQ(page.root().attribute("role").value(), "img");
  EXPECT_STREQ(page.root().child("title").child_value(), "The heart: poster");
  EXPECT_STREQ(page.root().child("desc").child_value(), "A heart cut open, seen from the front");
  const std::string labelled = page.root().attribute("aria-labelledby").value();
  EXPECT_EQ(labelled, std::string(page.root().child("title").attribute("id").value()) + " " +
                          page.root().child("desc").attribute("id").value());
}

TEST(Svg, Labels_leaders_and_marks_carry_class_and_anchor) {
  Sheet sheet;
  sheet.add_poster();
  Written page;
  write(sheet, page);
  const auto leader = page.root().find_child_by_attribute("class", "pw-leader");
  EXPECT_STREQ(leader.name(), "path");
  EXPECT_STREQ(leader.attribute("data-anchor").value(), "aorta");
  EXPECT_STREQ(leader.attribute("d").value(), "M120 150L80 95");
  EXPECT_STREQ(page.root().find_child_by_attribute("class", "pw-mark").name(), "path");
  const auto label = page.root().find_child_by_attribute("class", "pw-label");
  EXPECT_STREQ(label.attribute("data-anchor").value(), "aorta");
  const auto text = label.child("text");
  EXPECT_STREQ(text.child_value(), "Aorta");
  EXPECT_STREQ(text.attribute("lengthAdjust").value(), "spacingAndGlyphs");
  EXPECT_NEAR(text.attribute("textLength").as_double(),
              sheet.typesetter.line("Aorta", {faces, Length::pt(14), false, false}, "en").advance,
              1e-3);
}

TEST(Svg, A_line_to_the_left_starts_at_its_right_end) {
  Sheet sheet;
  const compose::TextItem item = sheet.text("القلب", {20, 30}, 14, "ar");
  sheet.add_page().items.push_back(item);
  Written page;
  write(sheet, page);
  const auto text = page.root().child("text");
  EXPECT_STREQ(text.attribute("direction").value(), "rtl");
  EXPECT_STREQ(text.attribute("xml:lang").value(), "ar");
  EXPECT_NEAR(text.attribute("x").as_double(), 20 + item.line.advance, 1e-3);
}

TEST(Svg, Words_of_any_kind_leave_a_well_formed_document) {
  Sheet sheet;
  compose::Page& page = sheet.add_page();
  page.title = "<script>&\"'\x01\xff]]>";
  page.description = std::string("a\0b", 3) + "\uFFFE";
  page.items.push_back(sheet.group(compose::Role::label, "a\"<b>&\x02",
                                   sheet.text("x < y & \"z\" ]]> '  two  spaces ", {10, 10})));
  compose::TextItem odd = sheet.text("a", {10, 20});
  odd.line.text = "a\x03\xf0\x28\uFFFF";
  odd.line.font.face = "O'Brien\\, \"Quoted\" <&>";
  page.items.push_back(odd);
  Written out;
  write(sheet, out);
  const auto text = out.root().find_child_by_attribute("class", "pw-label").child("text");
  EXPECT_STREQ(text.attribute("xml:space").value(), "preserve");
}

TEST(Svg, Bleed_and_slug_lie_around_the_trimmed_page) {
  Sheet sheet;
  compose::Page& page = sheet.add_poster();
  page.bleed = 3;
  page.slug = 7;
  Written out;
  write(sheet, out);
  EXPECT_STREQ(out.root().attribute("width").value(), "230mm");
  EXPECT_STREQ(out.root().attribute("viewBox").value(), "-10 -10 230 317");
}

TEST(Svg, Every_id_and_every_reference_to_it_is_renamed) {
  Written page;
  nest(
      R"x(<defs><path id="p" d="M0 0H9"/><clipPath id="c"><use xlink:href="#p" xmlns:xlink="http://www.w3.org/1999/xlink"/></clipPath></defs>
    <g id="g" clip-path="url(#c)" style="mask:url('#m');fill:red" aria-labelledby="p g"><textPath href="#p">t</textPath>
    <set attributeName="fill" begin="g.click;2s; p.end+1s" to="url(#m)"/><animate attributeName="href" values="#p;#g"/></g>)x",
      page);
  for (const char* wanted :
       {"id=\"pwf1-p\"", "xlink:href=\"#pwf1-p\"", "clip-path=\"url(#pwf1-c)\"",
        "mask:url(&quot;#pwf1-m&quot;)", "aria-labelledby=\"pwf1-p pwf1-g\"", "href=\"#pwf1-p\"",
        "begin=\"pwf1-g.click;2s;pwf1-p.end+1s\"", "to=\"url(#pwf1-m)\"",
        "values=\"#pwf1-p;#pwf1-g\""})
    EXPECT_NE(page.bytes.find(wanted), std::string::npos) << wanted << page.bytes;
  std::set<std::string> ids;
  for (const auto& found : page.xml.select_nodes("//@id"))
    EXPECT_TRUE(ids.insert(found.attribute().value()).second) << found.attribute().value();
}

TEST(Svg, Nothing_that_runs_or_fetches_comes_through) {
  Written page;
  nest(
      R"x(<script>alert(1)</script><SCRIPT/><g onclick="alert(2)" ONLOAD="x"/><foreignObject><p/></foreignObject>
    <a href="javascript:alert(3)"><text>t</text></a><image href="file:///etc/passwd"/><image href="http://x/y.png"/>
    <use href="other.svg#a"/><rect fill="url(http://x/y#z)"/><set attributeName="onclick" to="alert(4)"/>
    <animate attributeName="href" values="javascript:alert(5)"/><style>@import url(http://x/z.css);</style>
    <?xml-stylesheet href="http://x/s.css"?><g xml:base="http://x/"/><style type="text/other">x</style>)x",
      page);
  for (const char* bad : {"alert", "<script", "<SCRIPT", "onclick", "ONLOAD", "foreignObject",
                          "file:", "http://x", "other.svg", "xml-stylesheet", "xml:base"})
    EXPECT_EQ(page.bytes.find(bad), std::string::npos) << bad << page.bytes;
}

TEST(Svg, Undeclared_prefixes_and_control_characters_do_not_break_the_page) {
  Written page;
  nest("<g ink:label='x'/><ink:thing/><text>a&#1;b</text><g title='&#2;'/><text>  two </text>",
       page);
  EXPECT_EQ(page.bytes.find("ink:"), std::string::npos);
  EXPECT_NE(page.bytes.find("<text>  two </text>"), std::string::npos);
}

TEST(Svg, A_figure_with_a_prefix_of_its_own_stays_whole) {
  Sheet sheet;
  sheet.drawn = figure(
      "<s:svg xmlns:s=\"http://www.w3.org/2000/svg\" viewBox=\"10 20 200 100\" id=\"r\" "
      "class=\"pw-label big\" style=\"width:5px;fill:red\"><s:style>#r .a{fill:url(#r)}</s:style>"
      "<s:rect class=\"a\" width=\"9\" height=\"9\"/></s:svg>");
  sheet.add_poster();
  Written page;
  write(sheet, page);
  const auto nested = page.root().select_node("//*[@id='pwf1']").node();
  EXPECT_STREQ(nested.name(), "s:svg");
  EXPECT_STREQ(nested.attribute("class").value(), "pwf1-pw-label big");
  EXPECT_STREQ(nested.attribute("style").value(), "fill:red");
  EXPECT_STREQ(nested.attribute("preserveAspectRatio").value(), "none");
  EXPECT_EQ(page.root().select_nodes("//*[@class='pw-label']").size(), 1u);
}

TEST(Svg, A_figure_that_is_no_svg_is_a_finding) {
  for (const char* bad : {"", "<html/>", "<svg", "not xml"}) {
    Sheet sheet;
    sheet.drawn = figure(bad);
    sheet.add_poster();
    const auto result = svg(sheet.document, 0, sheet.context);
    ASSERT_FALSE(result) << bad;
    EXPECT_EQ(result.findings().front().code, "art-unreadable");
  }
}

TEST(Svg, The_same_art_twice_is_written_once) {
  Sheet sheet;
  compose::Page& page = sheet.add_page();
  page.items.push_back(sheet.figure_item(0.8, {20, 40}));
  page.items.push_back(sheet.figure_item(0.1, {10, 200}));
  Written out;
  write(sheet, out);
  EXPECT_EQ(out.root().select_nodes("//linearGradient").size(), 1u);
  const auto use = out.root().select_node("//*[@class='pw-figure'][2]/use").node();
  EXPECT_STREQ(use.attribute("href").value(), "#pwf1");
}

// librsvg draws our page; what it shows is what Cairo draws from the same items.
TEST(Svg, A_renderer_shows_what_the_png_shows) {
  Sheet sheet;
  compose::Page& page = sheet.add_poster();
  page.items.push_back(sheet.figure_item(0.2, {100, 200}));
  compose::FigureItem pale = sheet.figure_item(0.3, {10, 220});
  pale.tint = 0.4;
  pale.clip = PageBox{20, 230, 30, 25};
  page.items.push_back(pale);
  compose::TextItem trace = sheet.text("trace", {20, 210}, 40);
  trace.outline = compose::Pen{Colour{150, 150, 150}, 0.4, {1, 0.5}, true};
  page.items.push_back(trace);
  Written out;
  write(sheet, out);
  sheet.context.png_dpi = 96;
  const auto direct = png(sheet.document, 0, sheet.context);
  ASSERT_TRUE(direct);
  const auto expected = picture(saved("direct.png", *direct));
  const std::string path = saved("rendered.svg", out.bytes) + ".png";
  render(out.bytes, expected->columns, expected->rows, path);
  const auto actual = picture(path);
  ASSERT_TRUE(actual);
  ASSERT_LE(std::abs(actual->columns - expected->columns), 1);
  int different = 0;
  for (int r = 0; r < std::min(expected->rows, actual->rows); ++r)
    for (int c = 0; c < std::min(expected->columns, actual->columns); ++c)
      different += std::abs(expected->at(c, r) - actual->at(c, r)) > 96 ? 1 : 0;
  EXPECT_LT(different, expected->columns * expected->rows / 2000);
}

// A browser's computed style of a label beside a figure that aims at it.
TEST(Svg, Hostile_styles_of_a_figure_do_not_reach_a_label_in_a_browser) {
  if (!browser_installed()) GTEST_SKIP() << "chromium is not installed";
  Written page;
  nest(
      R"x(<style>text,*,svg text,:root text,svg ~ *,g{fill:rgb(255,0,0) !important;font-size:1px;display:none}
    } text{fill:rgb(255,0,0)} @media all{text{fill:rgb(255,0,0)}} .pw-label *{fill:rgb(255,0,0)}
    a{ &amp;, text{fill:rgb(255,0,0)} } svg{width:1px;height:1px} :is(text){fill:rgb(255,0,0)}</style>
    <rect id="probe" class="a" x="10" y="20" width="200" height="100"/>)x",
      page);
  const std::string html = saved(
      "hostile.html",
      "<!doctype html><meta charset=utf-8><body>" + page.bytes.substr(page.bytes.find("<svg")) +
          "<script>const t=document.querySelector('.pw-label text'),s=getComputedStyle(t);"
          "const f=document.getElementById('pwf1');"
          "document.body.textContent='SEEN '+s.fill+' '+s.fontSize+' '+s.display+' '+"
          "getComputedStyle(f).width</script>");
  const std::string said = browse("--dump-dom file://" + html);
  EXPECT_NE(said.find("SEEN rgb(31, 29, 38) 4.9389px block auto"), std::string::npos) << said;
}

}  // namespace
}  // namespace platewright::emit
