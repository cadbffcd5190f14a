// Figures at and beyond the reader's limits, given to the whole program.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "engine/outcome.hpp"
#include "support/repeated.hpp"

namespace engine_test {
namespace {

std::string bomb(int depth, int width) {
  std::string doctype = "<!DOCTYPE svg [<!ENTITY e0 \"lol\">";
  for (int i = 1; i <= depth; ++i)
    doctype += "<!ENTITY e" + std::to_string(i) + " \"" +
               support::repeated("&e" + std::to_string(i - 1) + ";", static_cast<std::size_t>(width)) + "\">";
  return doctype + "]>";
}

struct Made {
  std::string name;
  support::Late bytes;
  int wanted = -1;  // exit code of a colouring page; < 0: 0 or 1
};

std::string uses_of_uses() {
  std::string uses = "<g id=\"u0\"><rect width=\"1\" height=\"1\"/></g>";
  for (int i = 1; i <= 30; ++i) {
    const std::string one = "<use xlink:href=\"#u" + std::to_string(i - 1) + "\"/>";
    uses += "<g id=\"u" + std::to_string(i) + "\">" + one + one + one + "</g>";
  }
  return uses;
}

std::string utf16() {
  std::string bytes = "\xff\xfe";
  for (const char c : plain_figure()) bytes += std::string{c, '\0'};
  return bytes;
}

// Of a figure with so many times an element in it.
support::Late many_times(std::string element, std::size_t times, std::string close = {}) {
  return [=] {
    return plain_figure(support::repeated(element, times) + support::repeated(close, times));
  };
}

std::vector<Made> made_figures() {
  const std::string g = "<g transform=\"translate(0.001 0)\">";
  const std::string rectangle = "<rect width=\"1\" height=\"1\"/>";
  return {
      {"deep-100000", many_times(g, 100'000, "</g>"), 1},
      {"deep-100000-unclosed", many_times("<g>", 100'000), 1},
      {"deep-150-nested-svg", plain_figure(support::repeated("<svg viewBox=\"0 0 200 100\">", 150) +
                                           "<circle r=\"9\"/>" + support::repeated("</svg>", 150))},
      {"elements-90000", many_times(rectangle, 90'000)},
      {"elements-150000", many_times(rectangle, 150'000), 1},
      {"elements-400000", many_times(rectangle, 400'000), 1},
      {"attribute-of-ten-megabytes",
       [] {
         return plain_figure("<path d=\"M0 0" + support::repeated("L50 50 10 90", 900'000) +
                             "\"/>");
       }},
      {"entity-bomb-of-nine-levels", plain_figure("<text>&e9;</text>", bomb(9, 10)), 1},
      {"entity-bomb-of-thousands", plain_figure("<text>&e2;</text>", bomb(2, 2000))},
      {"use-explosion-of-thirty-levels",
       plain_figure(uses_of_uses() + "<use xlink:href=\"#u30\"/>")},
      {"numbers-not-finite", plain_figure("<circle cx=\"NaN\" cy=\"1e400\" r=\"-1e308\"/><rect "
                                          "x=\"1e38\" width=\"1e38\" height=\"inf\"/>")},
      {"transform-huge", plain_figure("<g transform=\"scale(1e30)\"><circle r=\"1e9\"/></g>")},
      {"transform-singular", plain_figure("<g transform=\"matrix(0 0 0 0 0 0)\"><rect "
                                          "id=\"anchor-flat\" width=\"9\" height=\"9\"/></g>")},
      {"bytes-zero", std::string(5000, '\0'), 1},
      {"bytes-of-png", "\x89PNG\r\n\x1a\n" + std::string(100, '\x7f'), 1},
      {"empty", "", 1},
      {"one-angle-bracket", "<", 1},
      {"utf16-without-an-end", utf16().substr(0, utf16().size() - 1), 1},
      {"utf16-whole", utf16(), 0},
      {"anchors-five-thousand",
       [] {
         std::string many;
         for (int i = 0; i < 5000; ++i)
           many += "<circle id=\"anchor-p" + std::to_string(i) + "\" cx=\"" +
                   std::to_string(i % 200) + "\" cy=\"" + std::to_string(i / 50) + "\" r=\"1\"/>";
         return plain_figure(many);
       }},
      {"anchor-name-of-ten-thousand",
       plain_figure("<circle r=\"2\" data-anchor=\"" + std::string(10'000, 'a') + "\"/>")},
      {"filter-huge",
       plain_figure("<filter id=\"f\" x=\"-1000\" y=\"-1000\" width=\"100000\" "
                    "height=\"100000\"><feGaussianBlur stdDeviation=\"9000\"/>"
                    "</filter><rect width=\"90\" height=\"90\" filter=\"url(#f)\"/>")},
      {"style-of-a-megabyte",
       [] {
         return plain_figure("<style>" + support::repeated("rect:not(.a){fill:red}", 50'000) +
                             "</style>");
       }},
      {"text-of-a-megabyte",
       [] { return plain_figure("<text>" + std::string(1'000'000, 'W') + "</text>"); }},
      {"gradients-in-a-ring", plain_figure("<linearGradient id=\"a\" xlink:href=\"#b\"/><"
                                           "linearGradient id=\"b\" xlink:href=\"#a\"/><rect "
                                           "width=\"50\" height=\"50\" fill=\"url(#a)\"/>")},
      {"clip-of-itself", plain_figure("<clipPath id=\"c\" clip-path=\"url(#c)\"><rect width=\"5\" "
                                      "height=\"5\"/></clipPath><rect clip-path=\"url(#c)\" "
                                      "width=\"50\" height=\"50\"/>")},
  };
}

std::vector<std::string> made_names() {
  std::vector<std::string> names;
  for (const Made& made : made_figures()) names.push_back(made.name);
  return names;
}

class MadeFigure : public testing::TestWithParam<std::string> {};

TEST_P(MadeFigure, Gives_a_sheet_or_findings) {
  for (const Made& made : made_figures()) {
    if (made.name != GetParam()) continue;
    const Place place;
    const std::string file = place.figure(made.name + ".svg");
    support::write(file, made.bytes.text());
    const support::Finished done = expect_all_sheets_or_findings(place, file);
    if (made.wanted >= 0) {
      EXPECT_EQ(done.code, made.wanted) << done.said();
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Generated, MadeFigure, testing::ValuesIn(made_names()), test_name);

}  // namespace
}  // namespace engine_test
