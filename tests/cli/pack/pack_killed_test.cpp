// Builds that are killed: what was whole stays whole.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <random>
#include <thread>

#include "pack_files.hpp"
#include "support/share.hpp"

namespace {

namespace fs = std::filesystem;

// Everything in a folder that is a finished edition is whole: one of two builds'.
void expect_whole(const std::string& folder, const std::map<std::string, std::string>& old_files,
                  const std::map<std::string, std::string>& new_files) {
  for (const auto& [name, bytes] : pack::files(folder)) {
    if (!name.ends_with(".pdf")) continue;  // a draft of a killed build
    const bool whole = (old_files.contains(name) && old_files.at(name) == bytes) ||
                       (new_files.contains(name) && new_files.at(name) == bytes);
    EXPECT_TRUE(whole) << name;
  }
  for (const auto& [name, bytes] : old_files)
    EXPECT_TRUE(fs::exists(fs::path(folder) / name)) << name;
}

TEST(Pack_killed, Leaves_the_last_whole_editions_when_killed_at_any_moment) {
  const pack::Small small;
  ASSERT_EQ(small.make("out", "cache").code, 0);
  const auto old_files = pack::files(small.path("out"));
  small.change("small.yaml", "A small pack", "Another pack");
  small.change("small.yaml", "Ein kleines", "Ein anderes");
  small.change("heart.terms.yaml", "middle: Aorta", "middle: Main artery");
  const auto start = std::chrono::steady_clock::now();
  ASSERT_EQ(small.make("new", "c-new").code, 0);
  const auto took = std::chrono::steady_clock::now() - start;
  const auto new_files = pack::files(small.path("new"));

  std::mt19937 random(20260714);
  const std::string program = support::program(), manifest = small.manifest(),
                    out = small.path("out");
  for (int round = 0; round < support::instances(30); ++round) {
    // Half of the rounds from cold, so that kills fall into every stage.
    const std::string cache = small.path(round % 2 == 0 ? "c-killed" : "c-" + std::to_string(round));
    const pid_t child = ::fork();
    if (child == 0) {
      const int silent = ::open("/dev/null", O_WRONLY);
      ::dup2(silent, 1);
      ::dup2(silent, 2);
      ::execl(program.c_str(), program.c_str(), "pack", manifest.c_str(), "--out", out.c_str(),
              "--cache", cache.c_str(), "--quiet", nullptr);
      ::_exit(127);
    }
    const double share = std::uniform_real_distribution<>(0, 1.05)(random);
    std::this_thread::sleep_for(
        std::chrono::duration_cast<std::chrono::microseconds>(took * share));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    expect_whole(out, old_files, new_files);
    if (HasFailure()) return;
  }
  ASSERT_EQ(small.make("out", "c-killed").code, 0);
  for (const auto& [name, bytes] : new_files)
    EXPECT_EQ(support::bytes_of(fs::path(out) / name), bytes) << name;
}

}  // namespace
