// Leaders in finished PDFs, read back by poppler's pdftocairo (Debian's
// poppler-utils), which shares no code with ours, against what the report says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>
#include <yaml-cpp/yaml.h>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using support::number;

constexpr double mm = 25.4 / 72;  // in one point
constexpr double tolerance = 0.01;  // mm

struct Point {
  double x, y;
};

// A straight line that is stroked and not filled; mm on the page.
struct Line {
  Point from, to;
  std::string look;  // width and colour
};

struct Matrix {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
  Point operator()(Point p) const { return {a * p.x + c * p.y + e, b * p.x + d * p.y + f}; }
};

Matrix product(const Matrix& m, const Matrix& n) {
  return {m.a * n.a + m.c * n.b, m.b * n.a + m.d * n.b, m.a * n.c + m.c * n.d,
          m.b * n.c + m.d * n.d, m.a * n.e + m.c * n.f + m.e, m.b * n.e + m.d * n.f + m.f};
}

Matrix transform_of(const pugi::xml_node& node) {
  const auto inside = support::between(node.attribute("transform").value(), "matrix(", ")");
  if (inside.empty()) return {};
  std::vector<double> v;
  for (const std::string& part :
       support::split(support::folded(support::replaced(inside.front(), ",", " ")), ' '))
    v.push_back(number(part));
  return {v.at(0), v.at(1), v.at(2), v.at(3), v.at(4), v.at(5)};
}

void collect(const pugi::xml_node& node, const Matrix& outer, std::vector<Line>& lines) {
  for (const pugi::xml_node child : node.children()) {
    const std::string name = child.name();
    if (name == "defs" || name == "clipPath" || name == "mask") continue;
    const Matrix matrix = product(outer, transform_of(child));
    if (name == "path") {
      const std::string style = child.attribute("style").value();
      const auto words =
          support::split(support::folded(child.attribute("d").value()), ' ');
      if (support::contains(style, "fill:none") && words.size() == 6 && words[0] == "M" &&
          words[3] == "L")
        lines.push_back({matrix({number(words[1]) * mm, number(words[2]) * mm}),
                         matrix({number(words[4]) * mm, number(words[5]) * mm}),
                         support::between(style, "stroke-width:", ";").front() + " " +
                             support::between(style, "stroke:", ";").front()});
    }
    collect(child, matrix, lines);
  }
}

double apart(const Point& p, const YAML::Node& q) {
  return std::hypot(p.x - q[0].as<double>(), p.y - q[1].as<double>());
}

class PdfLeaders : public testing::TestWithParam<std::string> {};

TEST_P(PdfLeaders, Are_drawn_where_the_report_says_and_nowhere_else) {
  const std::string figure = GetParam();
  for (const std::string set : {"little", "gross"})
    for (const std::string kind : {"poster", "worksheet"}) {
      SCOPED_TRACE(figure + " " + set + " " + kind);
      const support::Scratch scratch;
      const std::string pdf = scratch / "p.pdf", report = scratch / "p.json";
      const auto made = support::platewright(
          {"sheet", support::demo_svg(figure), "--terms", support::demo_terms(figure), "--set", set,
           "--kind", kind, "--paper", "a4", "--out", pdf, "--report", report});
      ASSERT_EQ(made.code, 0) << made.said();
      const std::string svg = scratch / "p.svg";
      ASSERT_EQ(support::run({"pdftocairo", "-svg", "-noshrink", "-nocenter", "-paperw", "900", "-paperh",
                              "900", "-f", "1", "-l", "1", pdf, svg}).code, 0);
      pugi::xml_document document;
      ASSERT_TRUE(document.load_file(svg.c_str()));
      std::vector<Line> lines;
      collect(document.document_element(), {}, lines);

      YAML::Node told = YAML::LoadFile(report);  // JSON is YAML
      if (told.IsSequence()) told = told[0];
      std::string look;
      std::size_t leaders = 0;
      for (const YAML::Node& label : told["labels"]) {
        const YAML::Node& path = label["leader"];
        if (path.size() < 2) continue;
        ++leaders;
        const auto same = std::find_if(lines.begin(), lines.end(), [&](const Line& line) {
          return apart(line.from, path[0]) < tolerance &&
                 apart(line.to, path[path.size() - 1]) < tolerance;
        });
        ASSERT_NE(same, lines.end()) << label["anchor"].as<std::string>();
        EXPECT_LT(apart(same->to, label["target"]), tolerance);
        if (look.empty()) look = same->look;
        EXPECT_EQ(same->look, look);
      }
      ASSERT_GE(leaders, 5U);
      EXPECT_EQ(std::count_if(lines.begin(), lines.end(),
                              [&](const Line& line) { return line.look == look; }),
                static_cast<std::ptrdiff_t>(leaders));
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, PdfLeaders, testing::ValuesIn(support::demo_figures()),
                         [](const auto& each) { return each.param; });

}  // namespace
