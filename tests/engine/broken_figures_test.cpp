// Every odd and broken figure that the reader's tests know, given to the whole program.
#include <gtest/gtest.h>

#include <sys/stat.h>

#include <algorithm>

#include "engine/outcome.hpp"
#include "support/demo.hpp"

namespace engine_test {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> case_names() {
  std::vector<std::string> names;
  for (const fs::directory_entry& entry :
       fs::directory_iterator(support::source("tests/read/figure/cases")))
    if (entry.is_regular_file()) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

class OddFigure : public testing::TestWithParam<std::string> {};

TEST_P(OddFigure, Gives_a_sheet_or_findings) {
  const Place place;
  fs::copy(support::source("tests/read/figure/cases"), place.path() / "figures",
           fs::copy_options::recursive | fs::copy_options::overwrite_existing);
  expect_all_sheets_or_findings(place, place.figure(GetParam()));
}

INSTANTIATE_TEST_SUITE_P(Cases, OddFigure, testing::ValuesIn(case_names()), test_name);

TEST(OddFile, That_is_a_folder_a_pipe_or_too_large_is_a_finding) {
  const Place place;
  fs::create_directories(place.path() / "figures/folder.svg");
  ASSERT_EQ(::mkfifo(place.figure("pipe.svg").c_str(), 0600), 0);
  support::write(place.figure("large.svg"), plain_figure());
  fs::resize_file(place.figure("large.svg"), 300U << 20);
  for (const char* name : {"folder.svg", "pipe.svg", "large.svg", "not-there.svg"}) {
    const support::Finished done = expect_sheet_or_findings(
        place, {"sheet", place.figure(name), "--kind", "colouring", "--out", place.out("a.svg")},
        place.out("a.svg"));
    EXPECT_EQ(done.code, 1) << name << ": " << done.said();
  }
}

TEST(OddFile, With_any_name_works) {
  const Place place;
  for (const char* name : {"a b.svg", "it's \"quoted\".svg", "%41&amp;.svg", "herz-größe-心.svg",
                           "#hash?query.svg", "-dash.svg", "new\nline.svg"}) {
    support::write(place.figure(name), plain_figure());
    const support::Finished done = expect_sheet_or_findings(
        place, {"sheet", place.figure(name), "--kind", "colouring", "--out", place.out("a.pdf")},
        place.out("a.pdf"));
    EXPECT_EQ(done.code, 0) << name << ": " << done.said();
  }
}

}  // namespace
}  // namespace engine_test
