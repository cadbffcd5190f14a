// The sheets put back together are the figure drawn in one piece.
#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <cmath>

#include "platewright/true_size.hpp"
#include "raster.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace true_size_test {
namespace {

using platewright::PageBox;

PageBox box_of(const YAML::Node& n) {
  return {n[0].as<double>(), n[1].as<double>(), n[2].as<double>(), n[3].as<double>()};
}

struct Made {
  support::Scratch scratch;
  platewright::Figure figure;
  std::string pdf;
  YAML::Node report;  // JSON is YAML
  double scale = 1;   // as the test itself works it out, mm for a unit
  PageBox whole() const { return {0, 0, scale * figure.view_box.w, scale * figure.view_box.h}; }

  // crown and sole of the child are 1150 units apart (see its markers).
  Made(const std::string& paper, double stature_mm, const std::string& terms_set = {}) {
    platewright::TrueSizeRequest request;
    request.figure = support::demo_svg("child");
    request.size.stature = std::to_string(stature_mm) + "mm";
    request.paper = paper;
    request.out = pdf = scratch / "sheets.pdf";
    request.report = scratch / "sheets.json";
    if (!terms_set.empty()) request.terms = support::demo_terms("child"), request.set = terms_set;
    const auto made = platewright::make_true_size(request, platewright::usual_environment());
    if (!made.ok()) throw std::runtime_error(platewright::to_text(made.findings().front()));
    report = YAML::Load(support::bytes_of(request.report));
    figure = *platewright::read_figure(request.figure);
    scale = stature_mm / 1150;
  }
  // Where the view box comes to lie on a sheet's page.
  PageBox on_page(const YAML::Node& tile) const {
    const PageBox place = box_of(tile["place"]), printable = box_of(tile["printable"]);
    const PageBox all = whole();
    return {printable.x - place.x, printable.y - place.y, all.w, all.h};
  }
};

bool marked(const std::vector<PageBox>& marks, double x, double y) {
  return std::any_of(marks.begin(), marks.end(), [&](const PageBox& m) {
    return m.contains({x, y});
  });
}

std::vector<PageBox> marks_of(const YAML::Node& tile) {
  std::vector<PageBox> marks;
  for (const YAML::Node& m : tile["marks"]) marks.push_back(box_of(m).grown(0.6));
  return marks;
}

PageBox common(const PageBox& a, const PageBox& b) {
  const double x = std::max(a.x, b.x), y = std::max(a.y, b.y);
  return {x, y, std::max(0.0, std::min(a.right(), b.right()) - x),
          std::max(0.0, std::min(a.bottom(), b.bottom()) - y)};
}

// The art's corner stands on a whole step of Cairo's coordinates, 1/256 pt: at
// most 0.0007 mm from where the report has it.
double on_step(double mm) { return std::round(mm / 25.4 * 72 * 256) / 256 / 72 * 25.4; }

TEST(Sheets, Show_the_shared_figure_as_librsvg_draws_it_on_the_page) {
  const Made made("letter", 1150);
  const PageBox page = box_of(made.report["page"]);
  std::vector<DirectPage> direct;
  for (const YAML::Node& tile : made.report["tiles"]) {
    PageBox at = made.on_page(tile);
    // Markers are read to a 256th of a pixel, so the program's scale is a millionth off.
    const double scale = made.report["scale"].as<double>();
    ASSERT_NEAR(scale, made.scale, 2e-6 * made.scale);
    at = {on_step(at.x), on_step(at.y), scale * made.figure.view_box.w,
          scale * made.figure.view_box.h};
    direct.push_back({page.w, page.h, at, common(at, box_of(tile["printable"]))});
  }
  draw_directly(made.figure.svg, direct, made.scratch / "direct.pdf");
  const double dpi = 100;
  int number = 0;
  for (const YAML::Node& tile : made.report["tiles"]) {
    ++number;
    const Grey ours = page_of(made.pdf, tile["page"].as<int>(), dpi, made.scratch.path());
    const Grey theirs = page_of(made.scratch / "direct.pdf", number, dpi, made.scratch.path());
    ASSERT_EQ(ours.width, theirs.width);
    const auto marks = marks_of(tile);
    const PageBox inner = box_of(tile["printable"]).grown(-0.3);
    int seen = 0, other = 0, most = 0;
    for (int y = 0; y < ours.height; ++y)
      for (int x = 0; x < ours.width; ++x) {
        const double mm_x = (x + 0.5) * 25.4 / dpi, mm_y = (y + 0.5) * 25.4 / dpi;
        if (!inner.contains({mm_x, mm_y}) || marked(marks, mm_x, mm_y)) continue;
        seen += theirs.at(x, y) < 250;
        // What is left: Cairo writes three decimals of a point, so that a coordinate and the
        // same one moved to its page end 0.0005 pt (0.0002 mm) apart at most, and poppler smooths
        // edges with 16 samples in a pixel, of which one falls on the other side now and then.
        const int off = std::abs(ours.at(x, y) - theirs.at(x, y));
        other += off > 1;
        most = std::max(most, off);
      }
    EXPECT_GT(seen, 200) << tile["name"].as<std::string>();
    EXPECT_LE(most, 2 * 255 / 16) << tile["name"].as<std::string>();
    EXPECT_LE(other, seen / 500) << tile["name"].as<std::string>() << " of " << seen;
  }
}

// How many of a sheet's pixels are not what the whole shows within one pixel of
// their place; `shift` pixels are put in to see that a fault is found.
struct Count {
  int wrong = 0, seen = 0;
};
Count compare(const Grey& sheet, const Grey& whole, const YAML::Node& tile, double dpi, int shift) {
  const PageBox place = box_of(tile["place"]), printable = box_of(tile["printable"]);
  const auto marks = marks_of(tile);
  const double px = dpi / 25.4;
  const int dx = static_cast<int>(std::lround((place.x - printable.x) * px)) + shift;
  const int dy = static_cast<int>(std::lround((place.y - printable.y) * px));
  Count count;
  const PageBox inner = printable.grown(-0.2);
  for (int y = 0; y < sheet.height; ++y)
    for (int x = 0; x < sheet.width; ++x) {
      const double mm_x = (x + 0.5) / px, mm_y = (y + 0.5) / px;
      if (!inner.contains({mm_x, mm_y})) continue;
      if (x + dx < 1 || y + dy < 1 || x + dx >= whole.width - 1 || y + dy >= whole.height - 1)
        continue;
      int least = 255, most = 0;
      for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i) {
          least = std::min(least, whole.at(x + dx + i, y + dy + j));
          most = std::max(most, whole.at(x + dx + i, y + dy + j));
        }
      const int value = sheet.at(x, y);
      if (value >= least - 30 && value <= most + 30) {
        count.seen += value < 250;
        continue;
      }
      if (!marked(marks, mm_x, mm_y)) ++count.wrong;
    }
  return count;
}

TEST(Sheets, Put_together_are_the_whole_to_a_tenth_of_a_millimetre) {
  const Made made("a5", 500);
  const double dpi = 254;  // a pixel is 0.1 mm
  const PageBox all = made.whole();
  draw_directly(made.figure.svg, {{all.w, all.h, all, all}}, made.scratch / "whole.pdf");
  const Grey whole = page_of(made.scratch / "whole.pdf", 1, dpi, made.scratch.path());
  std::vector<unsigned char> covered(whole.values.size(), 0);
  bool fault_found = false;
  for (const YAML::Node& tile : made.report["tiles"]) {
    const Grey sheet = page_of(made.pdf, tile["page"].as<int>(), dpi, made.scratch.path());
    const Count count = compare(sheet, whole, tile, dpi, 0);
    EXPECT_LE(count.wrong, 3) << tile["name"].as<std::string>();
    fault_found = fault_found || compare(sheet, whole, tile, dpi, 4).wrong > 500;
    const PageBox place = box_of(tile["place"]);
    for (int y = std::max(0, static_cast<int>(std::ceil(place.top() * 10)));
         y < std::min<int>(whole.height, static_cast<int>(place.bottom() * 10)); ++y)
      for (int x = std::max(0, static_cast<int>(std::ceil(place.left() * 10)));
           x < std::min<int>(whole.width, static_cast<int>(place.right() * 10)); ++x)
        covered[static_cast<std::size_t>(y) * static_cast<std::size_t>(whole.width) +
                static_cast<std::size_t>(x)] = 1;
  }
  EXPECT_TRUE(fault_found);
  long missed = 0;
  for (std::size_t i = 0; i < covered.size(); ++i) missed += whole.values[i] < 245 && !covered[i];
  EXPECT_EQ(missed, 0);
}

TEST(Sheets, Share_the_asked_overlap_and_their_crosses) {
  const Made made("a4", 1000);
  const double overlap = made.report["overlap"].as<double>();
  int pairs = 0;
  for (const YAML::Node& a : made.report["tiles"])
    for (const YAML::Node& b : made.report["tiles"]) {
      const PageBox p = box_of(a["place"]), q = box_of(b["place"]);
      const bool beside = std::abs(p.y - q.y) < 1e-6 && q.x > p.x && q.x < p.right() - 1e-6;
      const bool below = std::abs(p.x - q.x) < 1e-6 && q.y > p.y && q.y < p.bottom() - 1e-6;
      if (!beside && !below) continue;
      ++pairs;
      EXPECT_NEAR(beside ? p.right() - q.x : p.bottom() - q.y, overlap, 1e-4);
      // Two points of the whole have a cross on both sheets, in the strip's middle.
      int shared = 0;
      for (const YAML::Node& c : a["crosses"])
        for (const YAML::Node& d : b["crosses"]) {
          const PageBox pp = box_of(a["printable"]), qq = box_of(b["printable"]);
          const double cx = c[0].as<double>() - pp.x + p.x, cy = c[1].as<double>() - pp.y + p.y;
          const double dx = d[0].as<double>() - qq.x + q.x, dy = d[1].as<double>() - qq.y + q.y;
          if (std::hypot(cx - dx, cy - dy) > 1e-4) continue;
          if (std::abs(beside ? cx - (q.x + overlap / 2) : cy - (q.y + overlap / 2)) < 1e-4)
            ++shared;
        }
      EXPECT_EQ(shared, 2) << a["name"].as<std::string>() << " and " << b["name"].as<std::string>();
    }
  EXPECT_GT(pairs, 6);
}

TEST(Sheets, Of_hostile_sizes_are_findings_or_one_sheet) {
  const support::Scratch scratch;
  platewright::TrueSizeRequest request;
  request.figure = support::demo_svg("child");
  request.out = scratch / "sheets.pdf";
  const auto code = [&] {
    const auto made = platewright::make_true_size(request, platewright::usual_environment());
    return made.ok() ? std::string("none") : made.findings().front().code;
  };
  for (const char* stature : {"1000000m", "30m"}) {
    request.size.stature = stature;
    EXPECT_EQ(code(), "sheets-too-many") << stature;
  }
  request.size.stature = "-3cm";
  EXPECT_EQ(code(), "length-invalid");
  request.size.stature = "0.001mm";
  EXPECT_EQ(code(), "figure-tiny");
  request.size.stature = "1m";
  request.paper = "30x40mm";
  EXPECT_EQ(code(), "paper-small");
  request.paper = "a4";
  request.overlap = "90mm";
  EXPECT_EQ(code(), "overlap-range");
  request.overlap.clear();
  request.size.percentile = 50;
  EXPECT_EQ(code(), "option-idle");
}

TEST(Sheets, Letter_and_A4_alike_fit_the_tile_of_both) {
  const Made made("letter-a4", 800);
  for (const YAML::Node& tile : made.report["tiles"]) {
    const PageBox p = box_of(tile["place"]);
    // 190.0 x 259.4 mm fits both with 10 mm margins (computed).
    EXPECT_NEAR(std::min(p.w, p.h), 190.0, 1e-6);
    EXPECT_NEAR(std::max(p.w, p.h), 259.4, 1e-6);
  }
}

TEST(Sheets, Keep_labels_off_the_joins) {
  const Made made("letter", 1150, "middle");
  ASSERT_GT(made.report["labels"].size(), 10u);
  for (const YAML::Node& label : made.report["labels"]) {
    const PageBox b = box_of(label["box"]);
    int touched = 0;
    for (const YAML::Node& tile : made.report["tiles"])
      touched += overlap(box_of(tile["place"]), b);
    EXPECT_EQ(touched, 1) << label["anchor"].as<std::string>();
  }
}

}  // namespace
}  // namespace true_size_test
