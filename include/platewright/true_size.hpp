// True size: a figure scaled so that a distance between two of its anchors
// takes a real length, tiled over pages; and its parts cut out at that scale.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/engine.hpp"
#include "platewright/length.hpp"
#include "platewright/result.hpp"

namespace platewright {

enum class Sex { girl, boy };

// Stature for age, 2 to 20 years, by the CDC growth charts of 2000 (see
// stature.cpp); without a sex the mean of both. An average, never a verdict on
// a child. Errors `age-range`, `percentile-range` (0.1 to 99.9).
Result<Length> stature(double years, std::optional<Sex> sex, double percentile = 50);

// The LMS method (Cole and Green 1992): X = M (1 + L S z)^(1/L), and M e^(S z)
// where L is 0.
double lms_value(double l, double m, double s, double z);

// z with P(Z <= z) = p for a standard normal Z, 0 < p < 1; relative error 1e-15.
double normal_quantile(double p);

// Exactly one of `between`, `stature` and `age` gives the scale.
struct RealSize {
  std::string between;             // "crown,sole=118cm": two anchors and the length between them
  std::string stature;             // "118cm": from the anchor crown to the anchor sole
  std::optional<double> age;       // years: the stature of that age
  std::string sex;                 // "girl", "boy", or empty for the mean of both
  std::optional<double> percentile;  // of that age; 50 when left out
};

// The paper `letter-a4` besides those of paper.hpp: pages that print right on both.
inline constexpr std::string_view paper_letter_a4 = "letter-a4";

struct TrueSizeRequest {
  std::string figure;              // path of an SVG file
  RealSize size;
  std::string terms;               // path; empty: no labels
  std::vector<LabelSet> sets;      // set properties for a CSV table
  std::string set;                 // name; empty: the first set of the file
  bool blanks = false;             // lines to write on instead of the names
  bool outlines = false;           // the figure as outlines to colour in
  std::string paper = "a4";        // name, WxH or letter-a4
  std::string overlap;             // with a unit; empty: the style's
  std::string style = "classroom";
  std::string title;
  std::string out;                 // .pdf; .svg, .png: a file for each page; or a folder
  std::string report;              // JSON file; may be empty
};

// Sheets to cut and glue together, with a cover that shows how.
Result<MadeSheets> make_true_size(const TrueSizeRequest& request, const Environment& environment);

struct PiecesRequest {
  std::string figure;
  RealSize size;
  std::string terms;
  std::vector<LabelSet> sets;
  std::string set;
  std::vector<std::string> regions;  // anchors; empty: those with a term in the set, else all but the body
  double factor = 1.0;             // of the true size
  std::optional<int> for_age;      // decides the cut line; the set's youngest age when left out
  bool outlines = false;           // to colour in
  bool flap = false;               // a strip to fold and glue, at the top of each piece
  std::string paper = "a4";
  std::string overlap;
  std::string style = "classroom";
  std::string title;
  std::string out;
  std::string report;
};

// Regions of the figure, each with what lies on it, to cut out: nested on as
// few pages as possible, tiled where larger than a page.
Result<MadeSheets> make_pieces(const PiecesRequest& request, const Environment& environment);

}  // namespace platewright
