// A figure's styles kept to the figure; every leak tried here is one that a
// browser would let through if the rule were only prefixed.
#include "emit/css.hpp"

#include <gtest/gtest.h>

#include <random>

#include "emit/css_scope.hpp"

namespace platewright::emit::css {
namespace {

const Scope scope{"f", "root", {"big", "bold"}};

std::string sheet(std::string_view text) {
  std::string result = scoped_sheet(text, scope);
  while (!result.empty() && result.back() == '\n') result.pop_back();
  return result;
}

std::string again(std::string_view text) { return written(tokens(text)); }

TEST(CssTokens, Read_and_written_again_give_the_same_text) {
  for (const char* text :
       {"a > b.c#d[e=\"f\"]:hover{fill:#222;width:-1.5e3px}", "@media (min-width:10px){x{y:z}}",
        "url(#a)", "url(data:image/png;base64,AA+/=)", "--x:calc(1px + 2%)", "a|b *|*"})
    EXPECT_EQ(again(text), text);
}

TEST(CssTokens, Escapes_are_decoded_and_written_back_where_needed) {
  EXPECT_EQ(tokens("\\74 ext")[0].value, "text");
  EXPECT_EQ(again("\\74 ext"), "text");
  EXPECT_EQ(tokens("u\\72 l(#a)")[0].kind, Token::Kind::url);
  EXPECT_EQ(again("a\\.b"), "a\\2e b");
  EXPECT_EQ(tokens(again("a\\.b"))[0].value, "a.b");
  EXPECT_EQ(again("\"a\\\"</style>\""), "\"a\\22 \\3c /style>\"");
  EXPECT_EQ(tokens("\\0 ")[0].value, "\uFFFD");
}

TEST(CssTokens, Unfinished_things_come_to_an_end) {
  for (const char* text : {"\"abc", "'a\nb'", "url(", "url(a b)", "url(a\"b)", "/* abc", "\\", "@",
                           "#",     "a{b:c(", "<!--", "-->",      "}}}",       "((((",   "-",  "--",
                           "+",     ".",      "1e",   "1e+",      "\"\\"}) {
    const std::string once = again(text);
    EXPECT_EQ(again(once), once) << text;
  }
}

TEST(CssScope, Every_rule_is_led_by_the_figures_id) {
  EXPECT_EQ(sheet("text{fill:red}"), "#f text{fill:red}");
  EXPECT_EQ(sheet(".a, .b > c{x-y:1}"), "#f .a,#f .b > c{x-y:1}");
  EXPECT_EQ(sheet("a/* , */b{c:d}"), "#f a/**/b{c:d}");
  EXPECT_EQ(sheet("<!-- a{b:c} -->"), "#f a{b:c}");
}

TEST(CssScope, Ids_are_renamed_in_selectors_and_in_values) {
  EXPECT_EQ(sheet("#a{fill:url(#b)}"), "#f #f-a{fill:url(#f-b)}");
  EXPECT_EQ(sheet("a{fill:url('#b') red}"), "#f a{fill:url(\"#f-b\") red}");
  EXPECT_NE(sheet("[id=a]{x:y}").find("[id=f-a]"), std::string::npos);
  EXPECT_NE(sheet("[id^='b']{x:y}").find("[id^=\"f-b\"]"), std::string::npos);
  EXPECT_NE(sheet("[xlink|href='#c']{x:y}").find("[xlink|href=\"#f-c\"]"), std::string::npos);
  EXPECT_NE(sheet("[id$=d]{x:y}").find("[id$=d]"), std::string::npos);
  EXPECT_EQ(sheet("a:not(#b){x:y}"), "#f a:not(#f-b){x:y}");
}

TEST(CssScope, Rules_for_the_root_hold_for_the_nested_svg) {
  EXPECT_EQ(sheet("svg{fill:red}"), "#f svg{fill:red}\nsvg#f{fill:red}");
  EXPECT_EQ(sheet("svg text{fill:red}"), "#f svg text,svg#f text{fill:red}");
  EXPECT_EQ(sheet(":root{fill:red}"), "#f[id=\"f\"]{fill:red}");
  EXPECT_EQ(sheet(":root>g{fill:red}"), "#f[id=\"f\"]>g{fill:red}");
  EXPECT_EQ(sheet("#root a{fill:red}"), "#f #f a,#f#f a{fill:red}");
  EXPECT_EQ(sheet(".big a{b:c}"), "#f .big a,#f.big a{b:c}");
  EXPECT_EQ(sheet(".small a{b:c}"), "#f .small a{b:c}");
  EXPECT_EQ(sheet("g a{b:c}"), "#f g a{b:c}");
}

TEST(CssScope, The_root_keeps_the_place_that_the_page_gives_it) {
  EXPECT_EQ(sheet("svg{width:100%;height:9px;x:1;overflow:hidden;fill:red}"),
            "#f svg{width:100%;height:9px;x:1;overflow:hidden;fill:red}\nsvg#f{fill:red}");
  EXPECT_EQ(scoped_declarations("width:1px;WIDTH:2px;fill:red", scope, true), "fill:red");
}

TEST(CssScope, Siblings_of_the_root_are_not_reached) {
  for (const char* text :
       {"svg ~ g text{fill:red}", "svg + g{fill:red}", ":root ~ *{fill:red}", "*~*{fill:red}"}) {
    const std::string result = sheet(text);
    EXPECT_EQ(result.find("#f ~"), std::string::npos) << result;
    EXPECT_EQ(result.find("#f~"), std::string::npos) << result;
    EXPECT_EQ(result.find("#f +"), std::string::npos) << result;
  }
}

TEST(CssScope, At_rules_are_entered_or_dropped) {
  EXPECT_EQ(sheet("@media print{a{b:c}}d{e:f}"), "@media print{#f a{b:c}\n}\n#f d{e:f}");
  EXPECT_EQ(sheet("@supports (fill:red){@media all{a{b:c}}}"),
            "@supports (fill:red){@media all{#f a{b:c}\n}\n}");
  EXPECT_EQ(sheet("@import url(http://x/y.css);a{b:c}"), "#f a{b:c}");
  EXPECT_EQ(sheet("@import 'y.css';@charset 'utf-8';a{b:c}"), "#f a{b:c}");
  EXPECT_EQ(sheet("@page{margin:0}a{b:c}"), "#f a{b:c}");
  EXPECT_EQ(sheet("@font-face{font-family:X;src:url(http://x/y)}"), "");
  EXPECT_EQ(sheet("@font-face{font-family:X;src:url(data:font/woff2;base64,AA)}"),
            "@font-face{font-family:X;src:url(data:font/woff2;base64,AA)}");
  EXPECT_EQ(sheet("@keyframes k{from{fill:red}50%{fill:url(#a)}to{fill:url(http://x)}}"),
            "@keyframes k{from{fill:red}50%{fill:url(#f-a)}to{}}");
  EXPECT_EQ(sheet("@unknown x{text{fill:red}}a{b:c}"), "#f a{b:c}");
}

TEST(CssScope, Broken_css_swallows_nothing_and_lets_nothing_out) {
  // Each would style `text` of the page when written back unread.
  for (const char* text :
       {"} text{fill:red}", "a{b:c}} text{fill:red}", "a{b:'c\n} text{fill:red}",
        "@media print{a{b:c} } } text{fill:red}", "a{ &text, text{fill:red} }", "&, text{fill:red}",
        ":scope text{fill:red}", "a{b:c;} /* */ } text{fill:red}", "\\7d text{fill:red}",
        ":is(text{fill:red}", "a,{b:c} text{fill:red}", "a{b:(} text{fill:red}", "a{b:c",
        "@media all{text{fill:red}", "@media{text{fill:red}}", "a{b:url(} text{fill:red}"}) {
    const std::string result = sheet(text);
    // Every selector before a brace is led by #f or is an at-rule.
    std::size_t depth = 0, start = 0;
    for (std::size_t i = 0; i < result.size(); ++i) {
      if (result[i] == '{') {
        const std::string selector = result.substr(start, i - start);
        EXPECT_TRUE(selector.find("#f") != std::string::npos ||
                    selector.find('@') != std::string::npos)
            << text << " -> " << result;
        ++depth, start = i + 1;
      }
      if (result[i] == '}') --depth, start = i + 1;
    }
    EXPECT_EQ(depth, 0u) << text << " -> " << result;
  }
}

// The rules of a sheet as it was written, in any depth: each selector must have
// #f in its first compound.
void expect_scoped(Tokens all, const std::string& source) {
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t begin = at;
    while (at < all.size() && !all[at].is('{') && !all[at].is(';')) at = after_component(all, at);
    const Tokens prelude = trimmed(all.subspan(begin, at - begin));
    if (at >= all.size()) {
      EXPECT_TRUE(prelude.empty()) << source;
      return;
    }
    const std::size_t open = at;
    at = all[at].is('{') ? after_component(all, at) : at + 1;
    if (prelude.empty()) continue;
    if (prelude[0].kind == Token::Kind::at) {
      if (prelude[0].value == "media") expect_scoped(all.subspan(open + 1, at - open - 2), source);
      continue;
    }
    ASSERT_TRUE(all[open].is('{')) << source;
    for (std::size_t i = 0; i <= prelude.size();) {
      const std::size_t first = i;
      bool led = false, combined = false;
      while (i < prelude.size() && !prelude[i].is(',')) {
        combined = combined || prelude[i].is('+') || prelude[i].is('~');
        if (!led) combined = false;
        const bool compound_over = prelude[i].blank() || prelude[i].is('>');
        if (compound_over && !led && i > first) break;
        led = led || (prelude[i].kind == Token::Kind::hash && prelude[i].value == "f");
        if (led && (prelude[i].blank() || prelude[i].is('>'))) break;
        i = after_component(prelude, i);
      }
      EXPECT_TRUE(led && !combined) << source << " -> " << written(all);
      while (i < prelude.size() && !prelude[i].is(',')) i = after_component(prelude, i);
      ++i;
    }
  }
}

TEST(CssScope, Random_sheets_stay_inside_and_read_back_as_written) {
  const std::vector<std::string> parts = {
      "text",   "svg",     "*",     ".big",       "#root",    "#a",
      "[id=x]", ":root",   ":not(", ":is(",       ")",        "{",
      "}",      "(",       "[",     "]",          ",",        " ",
      ">",      "+",       "~",     ":",          ";",        "fill",
      "red",    "url(#b)", "url(",  "\"",         "'",        "\\",
      "\n",     "/*",      "*/",    "@media all", "@import",  "@keyframes k",
      "&",      "!",       "\\7b ", "<!--",       "fill:red", "a{b:c}",
      "|",      "=",       "$",     "1e3px",      "--x",      "@",
      "#",      "."};
  std::mt19937 random(11);
  for (int round = 0; round < 20'000; ++round) {
    std::string source;
    for (std::size_t i = 1 + random() % 14; i > 0; --i) source += parts[random() % parts.size()];
    const std::string result = scoped_sheet(source, scope);
    const std::vector<Token> all = tokens(result);
    EXPECT_EQ(written(all).size() > 0, !result.empty());
    EXPECT_EQ(written(tokens(written(all))), written(all)) << source;
    expect_scoped(all, source);
    if (testing::Test::HasFailure()) break;
  }
}

TEST(CssScope, Nothing_is_fetched) {
  for (const char* text :
       {"fill:url(http://x/y)", "fill:url( 'file:///etc/passwd' )", "fill:u\\72l(//x)",
        "background:image-set('x.png' 1x)", "cursor:url(x.cur),auto", "mask:src('x')",
        "x:cross-fade(url(#a),url(b))", "--v:url(x)", "behavior:url(#a)", "x:url(a b)"})
    EXPECT_EQ(scoped_declarations(text, scope, false), "") << text;
  EXPECT_EQ(scoped_value("url(http://x)", scope), std::nullopt);
  EXPECT_EQ(scoped_value("url(#a) none", scope), "url(#f-a) none");
}

TEST(CssScope, Classes_that_the_page_uses_are_renamed) {
  EXPECT_EQ(sheet(".pw-label{b:c}"), "#f .f-pw-label{b:c}");
  EXPECT_EQ(scope.class_of("pw-leader"), "f-pw-leader");
}

TEST(CssScope, Deep_nesting_is_survived) {
  std::string deep;
  for (int i = 0; i < 100'000; ++i) deep += "@media all{";
  EXPECT_LT(sheet(deep).size(), 10'000u);
  EXPECT_EQ(sheet(std::string(100'000, '(') + "{a:b}"), "");
  EXPECT_EQ(scoped_declarations("a:" + std::string(100'000, '['), scope, false), "");
}

}  // namespace
}  // namespace platewright::emit::css
