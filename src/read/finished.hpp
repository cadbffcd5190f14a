// Finished files, PDF and SVG, as a stranger finds them: pages with their
// boxes, texts, strokes, pictures and pixels. Nothing is taken from how they
// were made. Places are mm from the page's top left corner.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/colour.hpp"
#include "platewright/geometry.hpp"
#include "platewright/result.hpp"

namespace platewright::read {

inline constexpr double mm_per_point = 25.4 / 72;

struct FinishedWord {
  std::string text;
  PageBox box;
  double size_pt = 0;
  Colour colour;
  std::string anchor;   // of a label, where the file says so
  bool upright = true;  // its box is no larger than the word
};

struct FinishedStroke {
  double width_pt = 0;
  PageBox box;
  double miter_limit = 10;
};

struct FinishedImage {
  PageBox box;
  int columns = 0, rows = 0;
};

struct FinishedFont {
  std::string name;
  bool embedded = false;
};

struct FinishedLabel {
  std::string anchor;
  PageBox box;
};

// Places are kept within this of the page's corner, mm.
inline constexpr double farthest = 1e5;
inline double kept_near(double mm) { return mm > -farthest ? std::min(mm, farthest) : -farthest; }

// Points that a page's leaders may have together: five hundred forked ones of a sheet have some
// 4,000, and rules look at each pair.
inline constexpr std::size_t most_leader_points = 5'000;

struct FinishedLeader {
  std::string anchor;
  std::vector<PagePoint> points;
  double width_pt = 0;
  Colour colour;
};

// Colours 0xRRGGBB on white, row by row.
struct PagePixels {
  int width = 0, height = 0;
  double per_mm = 1;
  std::vector<std::uint32_t> rgb;
  std::uint32_t at(int x, int y) const {
    return rgb[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x)];
  }
};

struct FinishedPage {
  double width = 0, height = 0;        // of the sheet of paper, mm
  PageBox trim;                        // what is left after cutting
  PageBox bleed;                       // what is printed
  bool boxes_nested = true;            // trim in bleed in the whole
  std::optional<PageBox> crop;         // what is shown, where that is not the whole
  double unit = 1;                     // points, that the file counts in
  std::vector<FinishedWord> words;     // in reading order
  std::vector<FinishedStroke> strokes;
  std::vector<FinishedImage> images;
  std::vector<FinishedLabel> labels;   // of our SVG
  std::vector<FinishedLeader> leaders; // of our SVG and PDF
  std::string language;                // BCP 47, where the file says it
  PagePixels pixels;
};

struct Finished {
  std::string path;
  bool is_pdf = false;
  std::vector<FinishedFont> fonts;
  std::vector<FinishedPage> pages;
};

// Resolution of the pages' pixels; less where a page would have more of them than this.
inline constexpr double finished_dpi = 75;
inline constexpr double most_finished_pixels = 40e6;
double pixels_per_mm(double width, double height);

// What is done with each page, as soon as it is read, before the next is; its number
// from 0. It may take from the page what needs not be kept.
using EachPage = std::function<void(FinishedPage&, std::size_t)>;

// Errors `pdf-unreadable`, `pdf-large` (pages, or commands on one).
Result<Finished> finished_pdf(std::string_view bytes, const std::string& path,
                              const EachPage& each = {});
// Errors `svg-unreadable`, `svg-size` (no size in a unit of length).
Result<Finished> finished_svg(std::string_view bytes, const std::string& path,
                              const EachPage& each = {});

}  // namespace platewright::read
