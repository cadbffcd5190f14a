// Figures of one SVG feature each (a file's name says which) pass through us
// undamaged: our PNG is librsvg's own drawing of the file, pixel by pixel; SVG
// and PDF, drawn by librsvg and poppler, look the same.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>

#include "conformance/drawn.hpp"
#include "read/read.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"
#include "support/share.hpp"

namespace conformance {
namespace {

namespace fs = std::filesystem;

constexpr double pixels_a_unit = 2;
constexpr int levels = 24;          // of 255, that a smoothed edge may be off
constexpr double svg_share = 0.001; // of pixels that may be farther off
constexpr double pdf_share = 0.01;
constexpr double light_share = 0.02;  // light of filters follows the pixels of a PDF's finer raster

TEST(Conformance, Figures_of_every_feature_pass_undamaged_through_PNG_SVG_and_PDF) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::directory_iterator(support::source("tests/conformance/figures")))
    files[entry.path().stem().string()] = support::bytes_of(entry.path());
  ASSERT_GE(files.size(), 300U);
  int number = 0;
  for (const auto& [name, bytes] : files) {
    if (number++ % support::share != 0) continue;
    SCOPED_TRACE(name);
    const auto figure = platewright::read::figure(bytes, name + ".svg", {});
    EXPECT_TRUE(figure.ok()) << to_text(figure.findings().front());
    if (!figure.ok()) continue;
    // What is dropped is told, and drew nothing.
    for (const auto& finding : figure.findings())
      EXPECT_TRUE(finding.code == "css-rule" || finding.code == "svg-unknown" ||
                  finding.code == "svg-instruction" || finding.code == "use-missing")
          << to_text(finding);
    const auto& view = figure->view_box;
    const int width = static_cast<int>(std::lround(view.w * pixels_a_unit));
    const int height = static_cast<int>(std::lround(view.h * pixels_a_unit));
    // A figure is a picture of its own, so what mixes in it mixes with nothing of the page (CSS
    // Compositing and Blending 1, 3.2): figures named blend- are drawn apart.
    const auto reference = by_librsvg(bytes, width, height, name.starts_with("blend-"));
    ASSERT_TRUE(reference);
    EXPECT_FALSE(reference->blank()) << "nothing compares with nothing";

    const Outputs outputs = outputs_of(*figure, pixels_a_unit);
    const auto png = of_png(outputs.png);
    const auto svg = by_librsvg(outputs.svg, width, height);
    const auto pdf = by_poppler(outputs.pdf, width, height);
    ASSERT_TRUE(png && svg && pdf) << outputs.fault;
    EXPECT_TRUE(png->rgb == reference->rgb) << "PNG: not to the pixel";
    EXPECT_LE(apart(*svg, *reference, levels), svg_share) << "SVG";
    EXPECT_LE(apart(*reference, *svg, levels), svg_share) << "SVG";
    const double share = name.ends_with("-light") ? light_share : pdf_share;
    EXPECT_LE(apart(*pdf, *reference, levels), share) << "PDF";
    EXPECT_LE(apart(*reference, *pdf, levels), share) << "PDF";
  }
}

}  // namespace
}  // namespace conformance
