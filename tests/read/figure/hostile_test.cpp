// Inputs too large to be kept as files.
#include "reading.hpp"

namespace platewright::read {
namespace {

std::string repeated(const std::string& text, std::size_t times) {
  std::string out;
  out.reserve(text.size() * times);
  for (std::size_t i = 0; i < times; ++i) out += text;
  return out;
}

TEST(Hostile, Nesting_of_a_hundred_thousand_is_a_finding) {
  const auto result = read_svg(svg_of(repeated("<g>", 100'000) + repeated("</g>", 100'000)));
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"xml-deep"});
}

TEST(Hostile, Nesting_that_never_closes_is_a_finding) {
  const auto result = read_svg(repeated("<g>", 100'000));
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"xml-malformed"});
}

TEST(Hostile, A_quarter_million_elements_are_a_finding) {
  const auto result = read_svg(svg_of(repeated("<g/>", 250'000)));
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"xml-elements"});
}

TEST(Hostile, Nesting_at_the_limit_is_drawn) {
  const auto result = read_svg(svg_of(repeated("<g>", 190) + paper + repeated("</g>", 190)));
  EXPECT_TRUE(result.ok()) << texts(result.findings());
}

TEST(Hostile, A_file_over_the_limit_is_a_finding) {
  Limits limits;
  limits.file_bytes = 1000;
  const auto result = read_svg(svg_of(repeated(" ", 2000)), {}, limits);
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"file-large"});
}

TEST(Hostile, A_chain_of_thousands_of_uses_is_a_finding) {
  std::string body = paper + "<defs>";
  for (int i = 0; i < 5000; ++i)
    body +=
        "<g id=\"a" + std::to_string(i) + "\"><use href=\"#a" + std::to_string(i + 1) + "\"/></g>";
  const auto result = read_svg(svg_of(body + "</defs><use href=\"#a0\"/>"));
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"use-deep"});
}

TEST(Hostile, An_attribute_of_a_million_characters_does_no_harm) {
  const auto result = read_svg(svg_of(paper + "<g class=\"" + repeated("x ", 500'000) +
                                      "\"/><path d=\"" + repeated("M0 0L9 9", 100'000) + "\"/>"));
  EXPECT_TRUE(result.ok()) << texts(result.findings());
}

TEST(Hostile, One_large_image_used_a_thousand_times_is_a_finding) {
  // Each use would write the image into the document anew.
  Limits limits;
  limits.file_bytes = 4096;
  const std::string folder = PW_SOURCE_DIR "/tests/read/figure/cases/";
  const auto result = figure(svg_of(paper + repeated("<image href=\"beside/dot.png\"/>", 100)),
                             folder + "f.svg", {}, limits);
  EXPECT_FALSE(result.ok());
  EXPECT_NE(texts(result.findings()).find("image-large"), std::string::npos);
}

TEST(Hostile, A_text_of_a_hundred_thousand_characters_is_a_finding) {
  const auto result = read_svg(svg_of(paper + "<text>" + repeated("ab ", 33'000) + "</text>"));
  EXPECT_EQ(codes(result.findings()), std::vector<std::string>{"figure-heavy"});
}

TEST(Hostile, Three_hundred_regions_on_each_other_are_read) {
  std::string body;
  for (int i = 0; i < 300; ++i)
    body += "<rect data-anchor=\"r" + std::to_string(i) + "\" x=\"" + std::to_string(i % 50) +
            "\" y=\"" + std::to_string(i / 50) + "\" width=\"50\" height=\"50\"/>";
  const auto result = read_svg(svg_of(body));
  ASSERT_TRUE(result.ok()) << texts(result.findings());
  EXPECT_EQ(result->anchors.size(), 300u);
}

TEST(Hostile, Cut_off_anywhere_a_figure_is_a_finding_or_a_figure) {
  const std::string whole =
      "<!DOCTYPE svg [<!ENTITY a \"b\">]>" +
      svg_of("<style>@import 'x';a{fill:url(#b)}</style>" + paper +
             "<image href=\"data:image/png;base64,AAAA\"/><text "
             "x=\"1\">&a;<tspan>b</tspan></text><g data-anchor=\"q\"><use href=\"#z\"/></g>");
  for (std::size_t end = 0; end < whole.size(); ++end) {
    const auto result = read_svg(whole.substr(0, end));
    EXPECT_FALSE(result.ok()) << end;
    EXPECT_TRUE(has_error(result.findings())) << end;
  }
}

}  // namespace
}  // namespace platewright::read
