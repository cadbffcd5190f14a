#include "read/svg_css.hpp"
#include "reading.hpp"

namespace platewright::read {
namespace {

std::string declarations(const std::string& css) {
  return clean_declarations(css, [](Dropped) {});
}
std::string sheet(const std::string& css) {
  return clean_style_sheet(css, [](Dropped) {});
}

TEST(Css, Plain_declarations_stay) {
  EXPECT_EQ(declarations("fill: red ; stroke:url(#g) #000;"), "fill:red;stroke:url(#g) #000");
  EXPECT_EQ(sheet(".a,.b > c{fill:red}\n/* x */ d{stroke:blue;}"),
            ".a,.b > c{fill:red}\nd{stroke:blue}\n");
}

TEST(Css, What_reaches_outside_goes_however_it_is_written) {
  for (const char* value : {"url(http://a/b)", "URL( 'http://a/b' )", "u\\72l(http://a/b)",
                            "\\75 rl(file:///etc/passwd)", "url/**/(x)url(y)", "url(//a)",
                            "url(data:text/html,x)", "url(other.svg#a)", "image-set('a.png' 1x)",
                            "image(a.png)", "expression(1)", "javascript:1"})
    EXPECT_EQ(declarations(std::string("fill:") + value), "") << value;
}

TEST(Css, At_rules_go_whole) {
  EXPECT_EQ(sheet("@import 'a.css';a{fill:red}"), "a{fill:red}\n");
  EXPECT_EQ(sheet("@\\69mport 'a.css';a{fill:red}"), "a{fill:red}\n");
  EXPECT_EQ(sheet("@media print{a{fill:blue} b{fill:red}} c{fill:red}"), "c{fill:red}\n");
  EXPECT_EQ(sheet("@font-face{src:url(x)}"), "");
}

TEST(Css, Cannot_close_its_element) {
  EXPECT_EQ(sheet("a{fill:red}</style><script>").find('<'), std::string::npos);
}

TEST(Css, Brackets_and_strings_without_end_do_no_harm) {
  for (const char* css :
       {"a{", "a{fill:'", "a{fill:url(", "}", "@", "\\", "/*", "a{b:c;d", "{{{{", "a{x:\"}"})
    sheet(css);
  EXPECT_EQ(sheet("a{fill:red} b{fill:"), "a{fill:red}\nb{fill:}\n");
}

TEST(Css, Movement_goes) {
  EXPECT_EQ(declarations("animation:x 1s;fill:red;transition:all 1s"), "fill:red");
}

}  // namespace
}  // namespace platewright::read
