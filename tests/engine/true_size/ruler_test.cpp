// The rulers as the finished PDF has them: read from its paths.
#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <cmath>
#include <pugixml.hpp>
#include <sstream>

#include "platewright/true_size.hpp"
#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"

namespace true_size_test {
namespace {

constexpr double mm = 25.4 / 72;

struct Segment {
  double x1, y1, x2, y2;  // mm
  double length() const { return std::hypot(x2 - x1, y2 - y1); }
};

// Straight strokes of one page, by poppler's own reading of the PDF.
std::vector<Segment> segments(const std::string& pdf, int page, const support::Scratch& scratch) {
  const std::string n = std::to_string(page), svg = scratch / "page.svg";
  EXPECT_EQ(support::run({"pdftocairo", "-svg", "-f", n, "-l", n, pdf, svg}).code, 0);
  pugi::xml_document document;
  EXPECT_TRUE(document.load_file(svg.c_str()));
  std::vector<Segment> all;
  for (const auto& found : document.select_nodes(
           "//*[local-name()='path'][@stroke or contains(@style,'stroke:rgb')]")) {
    const pugi::xml_node path = found.node();
    std::istringstream d(path.attribute("d").value());
    std::string move, line, rest;
    Segment s{};
    if (!(d >> move >> s.x1 >> s.y1 >> line >> s.x2 >> s.y2) || move != "M" || line != "L" ||
        d >> rest)
      continue;
    double m[6] = {1, 0, 0, 1, 0, 0};
    std::string transform = path.attribute("transform").value();
    if (transform.starts_with("matrix(")) {
      for (char& c : transform)
        if (c == ',' || c == '(' || c == ')') c = ' ';
      std::istringstream values(transform.substr(6));
      for (double& v : m) values >> v;
    }
    const auto at = [&](double x, double y) {
      return std::pair{(m[0] * x + m[2] * y + m[4]) * mm, (m[1] * x + m[3] * y + m[5]) * mm};
    };
    std::tie(s.x1, s.y1) = at(s.x1, s.y1);
    std::tie(s.x2, s.y2) = at(s.x2, s.y2);
    all.push_back(s);
  }
  return all;
}

TEST(Ruler, Is_10_cm_and_4_in_long_in_the_coordinates_of_every_page) {
  const support::Scratch scratch;
  platewright::TrueSizeRequest request;
  request.figure = support::demo_svg("child");
  request.size.stature = "115cm";
  request.paper = "letter";
  request.out = scratch / "sheets.pdf";
  request.report = scratch / "sheets.json";
  ASSERT_TRUE(platewright::make_true_size(request, platewright::usual_environment()).ok());
  const YAML::Node report = YAML::Load(support::bytes_of(request.report));
  const int pages = report["sheets"].as<int>() + 1;
  for (int page = 1; page <= pages; ++page) {
    const auto all = segments(request.out, page, scratch);
    int rulers = 0;
    for (const Segment& base : all) {
      if (std::abs(base.length() - 101.6) > 0.1) continue;
      // Long ticks stand on the base line: on one side those of centimetres, on
      // the other those of inches.
      double least[2] = {1e9, 1e9}, most[2] = {-1e9, -1e9};
      int ticks[2] = {0, 0};
      const double ux = (base.x2 - base.x1) / base.length(),
                   uy = (base.y2 - base.y1) / base.length();
      for (const Segment& s : all) {
        const double off = (s.x1 - base.x1) * -uy + (s.y1 - base.y1) * ux;
        const double along = (s.x1 - base.x1) * ux + (s.y1 - base.y1) * uy;
        if (std::abs(off) > 0.02 || s.length() < 2.1 || s.length() > 2.3 || along < -1 ||
            along > 103)
          continue;
        const double tip = (s.x2 - base.x1) * -uy + (s.y2 - base.y1) * ux;
        const int side = tip < 0 ? 0 : 1;
        ++ticks[side];
        least[side] = std::min(least[side], along);
        most[side] = std::max(most[side], along);
      }
      if (ticks[0] < 3 || ticks[1] < 3) continue;
      ++rulers;
      const double first = most[0] - least[0], second = most[1] - least[1];
      EXPECT_NEAR(std::min(first, second), 100.0, 0.1) << "page " << page;
      EXPECT_NEAR(std::max(first, second), 101.6, 0.1) << "page " << page;
    }
    EXPECT_EQ(rulers, 1) << "page " << page;
  }
}

TEST(Ruler, Covers_nothing_of_the_figure_that_stays_to_be_seen) {
  const support::Scratch scratch;
  platewright::TrueSizeRequest request;
  request.figure = support::demo_svg("child");
  request.size.stature = "115cm";
  request.paper = "a4";
  request.out = scratch / "sheets.pdf";
  request.report = scratch / "sheets.json";
  ASSERT_TRUE(platewright::make_true_size(request, platewright::usual_environment()).ok());
  const YAML::Node report = YAML::Load(support::bytes_of(request.report));
  const auto figure = *platewright::read_figure(request.figure);
  const double scale = 1150.0 / 1150, overlap = report["overlap"].as<double>();
  for (const YAML::Node& tile : report["tiles"]) {
    const auto n = [&](const char* key, int i) { return tile[key][i].as<double>(); };
    const YAML::Node cm = tile["ruler"]["cm"];
    for (int step = 0; step <= 100; ++step) {
      const double t = step / 100.0;
      const double x = cm[0][0].as<double>() * (1 - t) + cm[1][0].as<double>() * t;
      const double y = cm[0][1].as<double>() * (1 - t) + cm[1][1].as<double>() * t;
      const bool in_strip = x > n("printable", 0) + n("printable", 2) - overlap ||
                            y > n("printable", 1) + n("printable", 3) - overlap;
      const bool in_margin = y < n("printable", 1);
      if (in_strip || in_margin) continue;
      const double unit_x = (x - n("printable", 0) + n("place", 0)) / scale,
                   unit_y = (y - n("printable", 1) + n("place", 1)) / scale;
      const auto& grid = figure.silhouette;
      EXPECT_EQ(grid.at(static_cast<int>((unit_x + figure.view_box.x - grid.box.x) / grid.cell),
                        static_cast<int>((unit_y + figure.view_box.y - grid.box.y) / grid.cell)),
                0)
          << tile["name"].as<std::string>();
    }
  }
}

}  // namespace
}  // namespace true_size_test
