// Pieces as printed: whole, apart, at the size of the body they belong to.
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

using platewright::PagePoint;
using Polygon = std::vector<PagePoint>;

double num(const YAML::Node& n) { return n.as<double>(); }

std::vector<Polygon> polygons(const YAML::Node& node) {
  std::vector<Polygon> all;
  for (const YAML::Node& polygon : node) {
    all.emplace_back();
    for (const YAML::Node& p : polygon) all.back().push_back({num(p[0]), num(p[1])});
  }
  return all;
}

// From a piece's frame to its page.
struct Lie {
  PagePoint at;
  double c, s;
  explicit Lie(const YAML::Node& piece) : at{num(piece["at"][0]), num(piece["at"][1])} {
    const double a = num(piece["turn"]) * M_PI / 180;
    c = std::cos(a), s = std::sin(a);
  }
  PagePoint operator()(PagePoint p) const {
    return {at.x + c * p.x - s * p.y, at.y + s * p.x + c * p.y};
  }
};

bool inside(const std::vector<Polygon>& polygons, PagePoint q) {
  bool in = false;
  for (const Polygon& p : polygons)
    for (std::size_t i = 0; i < p.size(); ++i) {
      const PagePoint &a = p[i], &b = p[(i + 1) % p.size()];
      if ((a.y > q.y) != (b.y > q.y) && q.x < a.x + (q.y - a.y) / (b.y - a.y) * (b.x - a.x))
        in = !in;
    }
  return in;
}

double to_border(const std::vector<Polygon>& polygons, PagePoint q) {
  double best = 1e9;
  for (const Polygon& p : polygons)
    for (std::size_t i = 0; i < p.size(); ++i) {
      const PagePoint &a = p[i], &b = p[(i + 1) % p.size()];
      const double dx = b.x - a.x, dy = b.y - a.y, l = dx * dx + dy * dy;
      const double t = l > 0 ? std::clamp(((q.x - a.x) * dx + (q.y - a.y) * dy) / l, 0.0, 1.0) : 0;
      best = std::min(best, std::hypot(q.x - a.x - t * dx, q.y - a.y - t * dy));
    }
  return best;
}

platewright::PiecesRequest organs(const support::Scratch& scratch) {
  platewright::PiecesRequest request;
  request.figure = support::demo_svg("child");
  request.size.stature = "115cm";
  request.terms = support::demo_terms("child");
  request.set = "middle";
  request.paper = "letter";
  request.out = scratch / "pieces.pdf";
  request.report = scratch / "pieces.json";
  return request;
}

YAML::Node made(const platewright::PiecesRequest& request) {
  const auto result = platewright::make_pieces(request, platewright::usual_environment());
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : platewright::to_text(result.findings().front()));
  return YAML::Load(support::bytes_of(request.report));
}

// The organs as they come, made once for all tests of this process.
struct Organs {
  support::Scratch scratch;
  YAML::Node report = made(organs(scratch));
  static const Organs& plain() {
    static const Organs once;
    return once;
  }
};

std::string code_of(const platewright::PiecesRequest& request) {
  const auto result = platewright::make_pieces(request, platewright::usual_environment());
  return result.ok() ? "none" : result.findings().front().code;
}

TEST(Pieces, Keep_apart_and_inside_the_margins) {
  for (const bool flap : {false, true}) {
    const support::Scratch scratch;
    auto request = organs(scratch);
    request.flap = flap;
    const YAML::Node report = flap ? made(request) : YAML::Clone(Organs::plain().report);
    const double margin = 12.7, wide = num(report["page"][2]), high = num(report["page"][3]);
    std::vector<std::pair<int, std::vector<Polygon>>> all;
    for (const YAML::Node& piece : report["pieces"]) {
      const Lie lie(piece);
      auto cut = polygons(piece["cut"]);
      for (Polygon& p : cut)
        for (PagePoint& q : p) {
          q = lie(q);
          EXPECT_GE(q.x, margin - 1e-3);
          EXPECT_GE(q.y, margin - 1e-3);
          EXPECT_LE(q.x, wide - margin + 1e-3);
          EXPECT_LE(q.y, high - margin + 1e-3);
        }
      all.emplace_back(piece["page"].as<int>(), std::move(cut));
    }
    ASSERT_GT(all.size(), 12u);
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t j = 0; j < all.size(); ++j) {
        if (i == j || all[i].first != all[j].first) continue;
        for (const Polygon& p : all[i].second)
          for (const PagePoint& q : p) {
            EXPECT_FALSE(inside(all[j].second, q));
            EXPECT_GE(to_border(all[j].second, q), 3.0 - 2e-3);
          }
      }
    if (!flap) {
      EXPECT_LE(num(report["pages"]), 1.35 * num(report["bound"]));
    }
  }
}

TEST(Pieces, Laid_on_the_body_cover_their_organs_to_a_fifth_of_a_millimetre) {
  const support::Scratch& scratch = Organs::plain().scratch;
  const YAML::Node report = YAML::Clone(Organs::plain().report);
  const auto figure = *platewright::read_figure(support::demo_svg("child"));
  const double dpi = 254, px = dpi / 25.4;  // 0.1 mm a pixel
  const double scale = 1.0;                 // 1150 mm for 1150 units
  std::vector<Grey> pages;
  for (int page = 1; page <= report["pages"].as<int>(); ++page)
    pages.push_back(page_of(scratch / "pieces.pdf", page, dpi, scratch.path()));
  const double grid = 5;  // pixels for a unit: 0.2 mm
  for (const YAML::Node& piece : report["pieces"]) {
    const std::string name = piece["anchor"].as<std::string>();
    const Grey organ = painted_by(figure, figure.find(name)->element_id, grid * scale);
    const Grey& page = pages[piece["page"].as<std::size_t>() - 1];
    const Lie lie(piece);
    const PagePoint corner{num(piece["corner"][0]), num(piece["corner"][1])};
    const PagePoint middle{num(piece["middle"][0]), num(piece["middle"][1])};
    const double radius = num(piece["radius"]);
    const auto cut = polygons(piece["cut"]);
    // Elsewhere neither the organ paints nor the piece is cut.
    int left = organ.width, right = 0, top = organ.height, bottom = 0;
    const auto reach = [&](int x, int y) {
      left = std::min(left, x), right = std::max(right, x);
      top = std::min(top, y), bottom = std::max(bottom, y);
    };
    for (std::size_t i = 0; i < organ.values.size(); ++i)
      if (organ.values[i] == 0)
        reach(static_cast<int>(i) % organ.width, static_cast<int>(i) / organ.width);
    for (const Polygon& line : cut)
      for (const PagePoint& p : line)
        reach(static_cast<int>(((p.x / scale + corner.x) - figure.view_box.x) * grid),
              static_cast<int>(((p.y / scale + corner.y) - figure.view_box.y) * grid));
    int painted = 0, white_inside = 0, ink_outside = 0, uncut = 0;
    for (int y = std::max(1, top - 2); y < std::min(organ.height - 1, bottom + 3); ++y)
      for (int x = std::max(1, left - 2); x < std::min(organ.width - 1, right + 3); ++x) {
        bool all_in = true, all_out = true;  // this cell and its neighbours, 0.2 mm away
        for (int j = -1; j <= 1; ++j)
          for (int i = -1; i <= 1; ++i) (organ.at(x + i, y + j) == 0 ? all_out : all_in) = false;
        if (all_in == all_out) continue;
        const PagePoint in_piece{((x + 0.5) / grid + figure.view_box.x - corner.x) * scale,
                                 ((y + 0.5) / grid + figure.view_box.y - corner.y) * scale};
        const PagePoint p = lie(in_piece);
        const int shade = page.at(static_cast<int>(p.x * px), static_cast<int>(p.y * px));
        if (all_in) {
          ++painted;
          if (x % 3 == 0 && y % 3 == 0 && !inside(cut, in_piece)) ++uncut;
          // Its name may stand in the largest circle.
          if (distance(in_piece, middle) < radius) continue;
          white_inside += shade > 252;
        } else if (shade < 200) {
          ink_outside += inside(cut, in_piece) && to_border(cut, in_piece) > 0.6;
        }
      }
    EXPECT_GT(painted, 1000) << name;
    EXPECT_EQ(uncut, 0) << name;
    EXPECT_LE(white_inside, painted / 5000) << name;
    EXPECT_EQ(ink_outside, 0) << name;
  }
}

TEST(Pieces, Larger_than_a_page_are_tiled) {
  const support::Scratch scratch;
  auto request = organs(scratch);
  request.regions = {"liver", "bladder"};
  request.factor = 3;
  request.paper = "a4";
  const YAML::Node report = made(request);
  ASSERT_EQ(report["tiled"].size(), 1u);
  EXPECT_EQ(report["tiled"][0]["anchor"].as<std::string>(), "liver");
  EXPECT_GT(report["tiled"][0]["tiles"].size(), 1u);
  EXPECT_EQ(report["pieces"].size(), 1u);
  EXPECT_NEAR(num(report["scale"]), 3, 1e-4);
}

TEST(Pieces, Have_a_wider_cut_line_for_young_children) {
  const support::Scratch scratch;
  auto request = organs(scratch);
  request.regions = {"stomach"};
  const auto least = [&](int age) {
    request.for_age = age;
    const YAML::Node piece = made(request)["pieces"][0];
    const auto cut = polygons(piece["cut"]);
    double best = 1e9;
    for (const Polygon& p : polygons(piece["shape"]))
      for (const PagePoint& q : p) best = std::min(best, to_border(cut, q));
    return best;
  };
  EXPECT_NEAR(least(5), 5.0, 0.3);
  EXPECT_NEAR(least(9), 2.5, 0.3);
}

TEST(Pieces, That_fit_the_small_parts_cylinder_are_refused_for_under_threes) {
  const support::Scratch scratch;
  auto request = organs(scratch);
  request.size.stature = "40cm";
  request.regions = {"bladder", "skin"};
  request.for_age = 2;
  EXPECT_EQ(code_of(request), "piece-small");
  EXPECT_TRUE(support::contents(scratch.path()).empty());
  request.for_age = 3;
  EXPECT_EQ(code_of(request), "none");
}

TEST(Pieces, Of_unknown_or_pointlike_anchors_are_findings) {
  const support::Scratch scratch;
  auto request = organs(scratch);
  request.regions = {"lever"};
  EXPECT_EQ(code_of(request), "anchor-unknown");
  request.regions = {"crown"};
  EXPECT_EQ(code_of(request), "anchor-not-a-region");
  request.regions = {"liver"};
  request.factor = 0;
  EXPECT_EQ(code_of(request), "factor-range");
  // Hostile sizes end soon, in findings.
  request.factor = 50;
  request.size.stature = "1000000m";
  EXPECT_EQ(code_of(request), "sheets-too-many");
  request.factor = 0.05;
  request.size.stature = "0.001mm";
  EXPECT_EQ(code_of(request), "piece-tiny");
  request.factor = 1;
  request.size.stature = "1m";
  request.size.age = 6;
  EXPECT_EQ(code_of(request), "size-twice");
}

TEST(Pieces, Come_without_the_body_unless_it_is_asked_for) {
  const YAML::Node report = YAML::Clone(Organs::plain().report);
  for (const YAML::Node& piece : report["pieces"])
    EXPECT_NE(piece["anchor"].as<std::string>(), "skin");
  EXPECT_EQ(report["tiled"].size(), 0u);
}

}  // namespace
}  // namespace true_size_test
