// Proof: finished sheets looked at as a stranger would, before they are printed.
//
// Files are read, not remembered: PDF by poppler and qpdf, SVG by librsvg. A
// place is a page (the finding's line) and a box on it, mm from its top left.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/engine.hpp"
#include "platewright/finding.hpp"
#include "platewright/geometry.hpp"
#include "platewright/length.hpp"

namespace platewright {

// A rule: its number, the code of its findings, and why it is there.
struct ProofRule {
  int number = 0;
  std::string_view code;
  std::string_view why;
};
const std::vector<ProofRule>& proof_rules();

struct ProofRequest {
  std::vector<std::string> paths;   // .pdf and .svg files, or folders of them
  std::string style = "classroom";  // its `proof` section has the limits
  std::optional<int> age;           // of the readers: text must not be smaller than their floor
  std::optional<Length> distance;   // that it is to be read from, instead of the style's
  std::vector<std::string> words;   // word lists that terms must be in; empty: none is asked
  std::string report;               // HTML with a picture of each finding; may be empty
};

struct ProofPlace {
  Finding finding;
  PageBox at;  // on the page that is the finding's line; no size: all of it
};

struct ProofOutcome {
  std::vector<ProofPlace> found;  // by file, page and code
  int files = 0;
  int pages = 0;
  std::vector<double> ink;        // of each page, per cent
};

// Findings of the request itself (files that are not there, styles) come as
// errors without a value.
Result<ProofOutcome> proof(const ProofRequest& request, const Environment& environment);

}  // namespace platewright
