// Drafts of output files: on a signal they go; those that a killed run left go
// too, and nothing else does.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/file.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>

#include "engine/drafts.hpp"
#include "engine/write.hpp"
#include "platewright/unfinished.hpp"
#include "support/scratch.hpp"

namespace platewright {
namespace {

namespace fs = std::filesystem;

TEST(Drafts, Go_when_the_process_is_asked_to_stop) {
  const support::Scratch scratch;
  for (const char* name : {"a", "b", "c"}) {
    support::write(scratch / name, "half");
    note_draft(scratch / name);
  }
  forget_draft(scratch / "b");
  remove_drafts();
  EXPECT_EQ(support::contents(scratch.path()).size(), 1U);
  EXPECT_TRUE(fs::exists(scratch / "b"));
  forget_draft(scratch / "a");
  forget_draft(scratch / "c");
}

TEST(Drafts, That_a_killed_run_left_are_removed_and_nothing_else) {
  const support::Scratch scratch;
  const auto old = fs::file_time_type::clock::now() - std::chrono::hours(1);
  for (const char* name : {"sheet.pdf.platewright-AbC123", "other.svg.platewright-zzzzzz", "sheet.pdf.backup",
                           "sheet.pdf.AbC123", "sheet.platewright-old", ".platewright-AbC123",
                           "locked.pdf.platewright-AbC123", "fresh.pdf.platewright-AbC123"}) {
    support::write(scratch / name, "half");
    if (std::string(name).rfind("fresh", 0) != 0) fs::last_write_time(scratch / name, old);
  }
  fs::create_directory(scratch / "folder.pdf.platewright-AbC123");
  const int held = ::open((scratch / "locked.pdf.platewright-AbC123").c_str(), O_RDONLY);
  ASSERT_EQ(::flock(held, LOCK_EX), 0);
  EXPECT_TRUE(write_all({{scratch / "sheet.pdf", "whole"}}).empty());
  ::close(held);
  EXPECT_FALSE(fs::exists(scratch / "sheet.pdf.platewright-AbC123"));
  EXPECT_FALSE(fs::exists(scratch / "other.svg.platewright-zzzzzz"));
  for (const char* name : {"sheet.pdf", "sheet.pdf.backup", "sheet.pdf.AbC123", "sheet.platewright-old",
                           ".platewright-AbC123", "locked.pdf.platewright-AbC123",
                           "fresh.pdf.platewright-AbC123", "folder.pdf.platewright-AbC123"})
    EXPECT_TRUE(fs::exists(scratch / name)) << name;
  EXPECT_TRUE(write_all({{scratch / "sheet.pdf", "whole"}}).empty());
  EXPECT_FALSE(fs::exists(scratch / "locked.pdf.platewright-AbC123")) << "nobody holds it any more";
}

}  // namespace
}  // namespace platewright
