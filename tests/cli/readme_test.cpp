// The README's examples are run as they stand.
#include <gtest/gtest.h>

#include <filesystem>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;

TEST(Readme, Shell_examples_run_and_leave_files) {
  const std::string readme = support::bytes_of(support::source("README.md"));
  const auto examples = support::between(readme, "```sh\n# example\n", "```");
  ASSERT_GE(examples.size(), 3U);
  const support::Scratch scratch;
  fs::create_directory(scratch / "figures");
  fs::copy(support::source("figures/demo"), scratch / "figures/demo", fs::copy_options::recursive);
  fs::create_directory(scratch / "bin");
  fs::create_symlink(support::program(), scratch / "bin/platewright");
  for (const std::string& example : examples) {
    support::Limits limits;
    limits.folder = scratch.path().string();
    const auto done = support::run(
        {"/bin/sh", "-e", "-c", "PATH=\"" + (scratch / "bin") + ":$PATH\"\n" + example}, limits);
    EXPECT_EQ(done.code, 0) << example << done.said();
  }
  EXPECT_TRUE(fs::exists(scratch / "sheets"));
  EXPECT_TRUE(fs::exists(scratch / "eye.svg"));
  EXPECT_TRUE(fs::exists(scratch / "eye.json"));
}

TEST(Readme, Pictures_are_there) {
  const std::string readme = support::bytes_of(support::source("README.md"));
  const auto pictures = support::between(readme, "](figures/", ")");
  ASSERT_GE(pictures.size(), 4U);
  for (const std::string& picture : pictures)
    EXPECT_TRUE(fs::exists(support::source("figures/" + picture))) << picture;
}

TEST(Readme, Table_example_is_a_table_that_reads) {
  const std::string readme = support::bytes_of(support::source("README.md"));
  const auto tables = support::between(readme, "```yaml\nfigure:", "```");
  ASSERT_EQ(tables.size(), 1U);
  const support::Scratch scratch;
  // Only the figure named there is missing; the table itself is sound.
  support::write(scratch / "example.terms.yaml", "figure:" + tables.front());
  const auto done = support::platewright({"check", scratch / "example.terms.yaml"});
  EXPECT_TRUE(support::contains(done.err, "file-missing")) << done.said();
  EXPECT_EQ(support::split(done.err, '\n').size(), 2U) << done.said();
}

}  // namespace
