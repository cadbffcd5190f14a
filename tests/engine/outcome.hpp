// What any input, however broken, must come to: whole sheets or clear findings, soon, in little
// memory, with nothing left behind and nothing given away.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "support/process.hpp"
#include "support/scratch.hpp"

namespace engine_test {

// Text and picture that no output may show; planted outside the figure's folder.
extern const char* const secret;

// A scratch folder with `outside/secret.*` and an empty `figures/` beside it.
class Place {
 public:
  Place();
  std::string figure(const std::string& name) const { return scratch_ / ("figures/" + name); }
  std::string outside(const std::string& name) const { return scratch_ / ("outside/" + name); }
  std::string out(const std::string& name) const { return scratch_ / ("out/" + name); }
  const std::filesystem::path& path() const { return scratch_.path(); }

 private:
  support::Scratch scratch_;
};

// Runs the program and expects (as test failures): exit 0 or 1 within 10 s and 1 GiB; with 0 the
// output there, safe and without the secret; with 1 findings and the output folder as it was.
support::Finished expect_sheet_or_findings(const Place& place,
                                           const std::vector<std::string>& arguments,
                                           const std::string& output);

// Colouring page, anchor list with starter terms, and a poster of them, of any figure; what making
// the colouring page came to.
support::Finished expect_all_sheets_or_findings(const Place& place, const std::string& figure);

// A file's name as the name of a test.
std::string test_name(const testing::TestParamInfo<std::string>& info);

// An output SVG: well-formed, nothing in it runs or reaches outside.
void expect_safe_svg(const std::string& bytes, const std::string& what);

// True when a PNG has a pixel of the planted picture's violet.
bool shows_violet(const std::string& png);

// A small figure with two anchors, and its terms.
std::string plain_figure(const std::string& inside = {}, const std::string& before = {});
std::string plain_terms();

}  // namespace engine_test
