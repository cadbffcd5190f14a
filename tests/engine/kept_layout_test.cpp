// A term added or dropped after a sheet was printed: at most a tenth of the other
// labels move, unless all is to be placed anew.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>

#include "platewright/engine.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace {

struct Spot {
  double x, y;
  std::string text;
};

// Where each leader of the report's first sheet ends, read from the report's own text.
std::map<std::string, Spot> leaders(const std::string& report) {
  std::map<std::string, Spot> all;
  const std::string first = report.substr(0, report.find("\"sheets\""));
  const std::regex label(
      R"re("anchor":\s*"([^"]*)",\s*"text":\s*"([^"]*)"[\s\S]*?"leader":\s*\[\s*\[\s*([-0-9.e]+),\s*([-0-9.e]+))re");
  for (std::sregex_iterator it(first.begin(), first.end(), label), end; it != end; ++it)
    all[(*it)[1]] = {std::stod((*it)[3]), std::stod((*it)[4]), (*it)[2]};
  return all;
}

struct Made {
  std::map<std::string, Spot> leaders;
  std::string sheet;
};

class Kept_layout : public testing::TestWithParam<std::string> {
 protected:
  Made run(const std::string& terms, bool fresh = false) {
    support::write(scratch_ / "table.terms.yaml", terms);
    platewright::SheetRequest request;
    request.figure = support::demo_svg(GetParam());
    request.terms = scratch_ / "table.terms.yaml";
    request.set = "upper";
    request.paper = "a3";
    request.kinds = {platewright::SheetKind::poster, platewright::SheetKind::worksheet};
    request.out = scratch_ / "sheets.pdf";
    request.report = scratch_ / "report.json";
    request.fresh = fresh;
    const auto made = platewright::make_sheets(request, platewright::usual_environment());
    EXPECT_TRUE(made.ok());
    return {leaders(support::bytes_of(request.report)), support::bytes_of(request.out)};
  }
  // The table without the k-th term that the set labels.
  std::string without(std::size_t k) {
    const std::string all = support::bytes_of(support::demo_terms(GetParam()));
    std::string out;
    std::size_t start = 0, found = 0;
    bool in_terms = false;
    while (start < all.size()) {
      const std::size_t end = std::min(all.find('\n', start), all.size() - 1) + 1;
      std::string line = all.substr(start, end - start);
      if (line[0] != ' ') in_terms = line.rfind("terms:", 0) == 0;
      const std::size_t cell = line.find(" upper: ");
      if (in_terms && cell != std::string::npos && found++ == k)
        line.replace(cell, 8, " upperx: ");
      out += line;
      start = end;
    }
    // The cell goes to a set of its own that nothing asks for.
    const std::size_t sets = out.find("sets:\n");
    return out.insert(sets + 6, "  upperx: {ages: 11-14, language: en}\n");
  }
  static int moved(const Made& before, const Made& after) {
    int count = 0;
    for (const auto& [anchor, spot] : after.leaders) {
      const auto old = before.leaders.find(anchor);
      if (old != before.leaders.end() &&
          std::hypot(old->second.x - spot.x, old->second.y - spot.y) > 0.01)
        ++count;
    }
    return count;
  }
  support::Scratch scratch_;
};

TEST_P(Kept_layout, Leaves_nine_tenths_of_the_labels_when_a_term_comes_or_goes) {
  const Made whole = run(without(99), true);
  ASSERT_GT(whole.leaders.size(), 8u);
  const std::string report = support::bytes_of(scratch_ / "report.json");
  for (const std::size_t k : {0u, 3u, 7u}) {
    support::write(scratch_ / "report.json", report);
    const Made fewer = run(without(k));
    EXPECT_EQ(fewer.leaders.size() + 1, whole.leaders.size());
    EXPECT_EQ(moved(whole, fewer), 0) << k;
    const Made again = run(without(99));
    EXPECT_EQ(again.leaders.size(), whole.leaders.size());
    EXPECT_LE(moved(fewer, again), static_cast<int>(fewer.leaders.size()) / 10) << k;
  }
}

TEST_P(Kept_layout, Takes_a_term_in_that_was_not_there_before) {
  const Made fewer = run(without(2), true);
  const Made whole = run(without(99));
  EXPECT_EQ(whole.leaders.size(), fewer.leaders.size() + 1);
  EXPECT_LE(moved(fewer, whole), static_cast<int>(fewer.leaders.size()) / 10);
}

TEST_P(Kept_layout, Gives_the_same_bytes_when_nothing_changed) {
  const Made once = run(without(99), true);
  const Made twice = run(without(99));
  EXPECT_EQ(once.sheet, twice.sheet);
  const Made third = run(without(99));
  EXPECT_EQ(once.sheet, third.sheet);
}

INSTANTIATE_TEST_SUITE_P(Demo, Kept_layout, testing::Values("heart", "child", "honeybee"),
                         [](const auto& figure) { return figure.param; });

}  // namespace
