// Poster, worksheet, copy-work and key of an edition lie on each other: leaders
// read back from the bound PDF by pdftocairo, words by pdftotext.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <pugixml.hpp>
#include <yaml-cpp/yaml.h>

#include "pack_files.hpp"
#include "support/words.hpp"

namespace {

constexpr double mm = 25.4 / 72;
constexpr double tolerance = 0.01;  // mm

struct Line {
  double x1, y1, x2, y2;
};

struct Matrix {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
};

Matrix product(const Matrix& m, const Matrix& n) {
  return {m.a * n.a + m.c * n.b, m.b * n.a + m.d * n.b, m.a * n.c + m.c * n.d,
          m.b * n.c + m.d * n.d, m.a * n.e + m.c * n.f + m.e, m.b * n.e + m.d * n.f + m.f};
}

// Straight strokes as thin as a leader (0.35 mm), by where they run.
void collect(const pugi::xml_node& node, const Matrix& outer, std::vector<Line>& lines) {
  for (const pugi::xml_node child : node.children()) {
    const std::string name = child.name();
    if (name == "defs" || name == "clipPath" || name == "mask") continue;
    Matrix matrix = outer;
    const auto given = support::between(child.attribute("transform").value(), "matrix(", ")");
    if (!given.empty()) {
      std::vector<double> v;
      for (const std::string& part : support::split(
               support::folded(support::replaced(given.front(), ",", " ")), ' '))
        v.push_back(support::number(part));
      matrix = product(outer, {v.at(0), v.at(1), v.at(2), v.at(3), v.at(4), v.at(5)});
    }
    const std::string style = child.attribute("style").value();
    const auto words = support::split(support::folded(child.attribute("d").value()), ' ');
    if (name == "path" && support::contains(style, "fill:none") && words.size() == 6 &&
        words[0] == "M" && words[3] == "L") {
      const double width =
          support::number(support::between(style, "stroke-width:", ";").front()) *
          std::sqrt(std::abs(matrix.a * matrix.d - matrix.b * matrix.c)) * mm;
      const auto at = [&](const std::string& x, const std::string& y) {
        const double u = support::number(x), v = support::number(y);
        return std::pair((matrix.a * u + matrix.c * v + matrix.e) * mm,
                         (matrix.b * u + matrix.d * v + matrix.f) * mm);
      };
      const auto [x1, y1] = at(words[1], words[2]);
      const auto [x2, y2] = at(words[4], words[5]);
      // Rulings are level and of other widths; a leader may be level too.
      if (std::abs(width - 0.35) < 0.002) lines.push_back({x1, y1, x2, y2});
    }
    collect(child, matrix, lines);
  }
}

std::vector<Line> leaders(const std::string& pdf, int page) {
  const support::Scratch scratch;
  const std::string number = std::to_string(page), svg = scratch / "p.svg";
  EXPECT_EQ(support::run({"pdftocairo", "-svg", "-noshrink", "-nocenter", "-paperw", "900",
                          "-paperh", "900", "-f", number, "-l", number, pdf, svg}).code, 0);
  pugi::xml_document document;
  EXPECT_TRUE(document.load_file(svg.c_str()));
  std::vector<Line> lines;
  collect(document.document_element(), {}, lines);
  return lines;
}

bool contained(const Line& line, const std::vector<Line>& in) {
  return std::any_of(in.begin(), in.end(), [&](const Line& other) {
    return std::hypot(line.x1 - other.x1, line.y1 - other.y1) <= tolerance &&
           std::hypot(line.x2 - other.x2, line.y2 - other.y2) <= tolerance;
  });
}

// The terms of a set as its table has them, in one line each.
std::vector<std::string> terms_of(const std::string& table, const std::string& set) {
  std::vector<std::string> terms;
  for (const auto& row : YAML::LoadFile(table)["terms"])
    if (const YAML::Node cell = row.second[set]; cell && cell.IsScalar())
      terms.push_back(support::folded(support::replaced(cell.as<std::string>(), "\u00AD", "")));
  return terms;
}

// In the order in which it was drawn, so that the lines of a label follow each other.
std::string drawn_text(const std::string& pdf, int page) {
  const std::string number = std::to_string(page);
  return support::folded(
      support::run({"pdftotext", "-raw", "-f", number, "-l", number, pdf, "-"}).out);
}

TEST(Pack_leaders, Of_poster_worksheet_copywork_and_key_agree_in_every_edition) {
  const pack::Small small;
  ASSERT_EQ(small.make("out", "cache").code, 0);
  struct Edition {
    std::string set, poster, worksheet, copywork, key_mark;
  };
  for (const Edition& edition :
       {Edition{"middle", "Poster", "Worksheet", "Copy the words", "Answer key"},
        Edition{"klein", "Poster", "Arbeitsblatt", "Wörter nachspuren", "Lösung"}}) {
    SCOPED_TRACE(edition.set);
    const std::string pdf = small.path("out/small-" + edition.set + "-a4.pdf");
    // Pages of the bookmarks below the figures, in the order of the kinds.
    const auto marks = support::run({"qpdf", "--json=2", "--json-key=outlines", pdf}).out;
    std::vector<std::pair<std::string, int>> pages;  // title and page, in order
    for (const std::string& part : support::between(marks, "\"destpageposfrom1\":", "\"title\""))
      (void)part;
    const auto text = support::split(marks, '\n');
    int page = 0;
    for (const std::string& line : text) {
      const auto number = support::between(line + "\n", "\"destpageposfrom1\": ", ",");
      if (!number.empty()) page = std::stoi(number.front());
      const auto title = support::between(line, "\"title\": \"", "\"");
      if (!title.empty()) pages.emplace_back(title.front(), page);
    }
    const auto bodies = std::count_if(pages.begin(), pages.end(), [&](const auto& p) {
      return p.first == edition.poster;
    });
    EXPECT_EQ(bodies, 2);  // heart and child as drawn
    std::vector<int> posters, keys;
    for (std::size_t i = 0; i < pages.size(); ++i)
      if (pages[i].first == edition.poster) posters.push_back(pages[i].second);
    // Keys stand last, one figure after another, each beginning with its figure.
    const int last = pack::pages_of(pdf);
    for (const int first : posters) {
      const std::vector<Line> wanted = leaders(pdf, first);
      ASSERT_GE(wanted.size(), 4U) << first;
      const std::vector<std::string> terms = terms_of(
          small.path(first == posters.front() ? "heart.terms.yaml" : "child.terms.yaml"),
          edition.set);
      ASSERT_GE(terms.size(), 5U);
      const std::string on_poster = drawn_text(pdf, first);
      for (const std::string& term : terms) EXPECT_THAT(on_poster, testing::HasSubstr(term));
      int matching = 0, key = 0;
      for (int other = first + 1; other <= last; ++other) {
        const std::vector<Line> there = leaders(pdf, other);
        const auto same = std::count_if(wanted.begin(), wanted.end(), [&](const Line& line) {
          return contained(line, there);
        });
        // A page has all leaders of this poster or none of them.
        EXPECT_TRUE(same == 0 || same == static_cast<long>(wanted.size()))
            << "page " << other << ": " << same << " of " << wanted.size();
        if (same > 0) ++matching, key = other;
      }
      // Letter for letter, on the poster as in the key, which comes last; numbers at the
      // leaders have their list on pages that follow.
      std::string in_key;
      for (int each = key; each <= std::min(key + 2, last); ++each) in_key += drawn_text(pdf, each);
      for (const std::string& term : terms) EXPECT_THAT(in_key, testing::HasSubstr(term));
      // Worksheet, copy-work and key; the child's also on its tinted poster.
      EXPECT_EQ(matching, first == posters.front() ? 3 : 4) << first;
    }
  }
}

}  // namespace
