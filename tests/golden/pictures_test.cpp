// Small sheets against the pictures beside them. A case is a terms file in
// tests/golden/pictures whose name says what is to be seen and whose first line
// how the sheet is asked for. PLATEWRIGHT_RENEW=1 writes the pictures anew, and
// fails, so that nothing is blessed unseen.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "golden/picture.hpp"
#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace golden {
namespace {

namespace fs = std::filesystem;

const std::string ending = ".terms.yaml";

fs::path folder() { return support::source("tests/golden/pictures"); }

std::vector<std::string> cases() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder())) {
    const std::string name = entry.path().filename();
    if (name.ends_with(ending)) names.push_back(name.substr(0, name.size() - ending.size()));
  }
  std::sort(names.begin(), names.end());
  return names;
}

class Pictures : public testing::TestWithParam<std::string> {};

TEST_P(Pictures, Show_what_they_showed) {
  const std::string name = GetParam();
  const std::string terms = folder() / (name + ending), picture = folder() / (name + ".png");
  const std::string table = support::bytes_of(terms);
  const support::Scratch scratch;
  const std::string out = scratch / "sheet.png";
  std::vector<std::string> command = {
      "sheet", folder() / support::between(table, "\nfigure: ", "\n").front(),
      "--terms", terms, "--out", out};
  for (std::string word : support::split(
           support::folded(support::between(table, "# platewright sheet:", "\n").front()), ' ')) {
    if (word.ends_with(".yaml")) word = folder() / word;
    command.push_back(word);
  }
  if (std::find(command.begin(), command.end(), "--style") == command.end())
    command.insert(command.end(), {"--style", folder() / "small.yaml"});
  const auto made = support::platewright(command);
  ASSERT_EQ(made.code, 0) << made.said();
  const Picture actual = read_png(out);
  ASSERT_FALSE(actual.pixels.empty()) << "a case is one page";

  if (std::getenv("PLATEWRIGHT_RENEW") != nullptr) {
    fs::copy_file(out, picture, fs::copy_options::overwrite_existing);
    FAIL() << picture << " is written anew; look at it";
  }
  const Picture expected = read_png(picture);
  const double share = share_that_differs(expected, actual);
  if (share <= tolerated_share) return;
  const fs::path failed = fs::path(PW_BINARY_DIR) / "tests/golden/failed";
  fs::create_directories(failed);
  write_png(side_by_side(expected, actual), failed / (name + ".png"));
  FAIL() << 100 * share << " % of the pixels differ; expected, difference and actual are in "
         << failed / (name + ".png");
}

INSTANTIATE_TEST_SUITE_P(Cases, Pictures, testing::ValuesIn(cases()), [](const auto& each) {
  return support::replaced(each.param, "-", "_");
});

// The comparison itself must notice what a reader would.
TEST(Pictures_compared, Notice_a_leader_that_is_gone_and_overlook_a_shade) {
  Picture with;
  with.width = 400;
  with.height = 250;
  with.pixels.assign(100000, 0xFFFFFF);
  Picture without = with, shaded = with;
  for (std::size_t x = 100; x < 200; ++x) with.pixels[120 * 400 + x] = 0x202020;
  for (std::uint32_t& p : shaded.pixels) p = 0xF0F0F0;
  EXPECT_GT(share_that_differs(with, without), tolerated_share);
  EXPECT_EQ(share_that_differs(without, shaded), 0);
  EXPECT_EQ(share_that_differs(Picture{}, with), 1) << "a picture that is missing differs wholly";
  const Picture all = side_by_side(with, without);
  EXPECT_EQ(all.width, 3 * 400 + 16);
  EXPECT_EQ(all.pixels[120 * 1216 + 150], 0x202020U);
  EXPECT_EQ(all.pixels[120 * 1216 + 408 + 150], 0U);
  EXPECT_EQ(all.pixels[120 * 1216 + 816 + 150], 0xFFFFFFU);
}

}  // namespace
}  // namespace golden
