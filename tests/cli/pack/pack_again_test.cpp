// Building again: the same bytes by any road, only what changed, never half.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <yaml-cpp/yaml.h>

#include "pack_files.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;

YAML::Node told(const support::Finished& done) {
  EXPECT_EQ(done.code, 0) << done.said();
  return YAML::Load(done.out);
}

TEST(Pack_again, Is_the_same_to_the_byte_for_any_number_of_jobs_from_cold_and_from_warm) {
  const pack::Small small = pack::Small::built();  // by as many jobs as there are processors
  const auto first = pack::files(small.path("out"));
  ASSERT_EQ(first.size(), 2U);
  ASSERT_EQ(small.make("one", "c1", {"--jobs", "1"}).code, 0);
  EXPECT_EQ(pack::files(small.path("one")), first);
  ASSERT_EQ(small.make("four", "c4", {"--jobs", "4"}).code, 0);
  EXPECT_EQ(pack::files(small.path("four")), first);
  const YAML::Node warm = told(small.make("warm", "c1", {"--json"}));
  EXPECT_EQ(warm["parts_made"].as<int>(), 0);
  EXPECT_EQ(pack::files(small.path("warm")), first);
  // Without bound editions, from kept parts alone.
  ASSERT_EQ(small.make("bound", "c4", {"--bind"}).code, 0);
  EXPECT_EQ(pack::files(small.path("bound")), first);
}

TEST(Pack_again, Makes_only_what_a_changed_word_touches) {
  const pack::Small small = pack::Small::built();
  const auto before = pack::files(small.path("out"));
  small.change("heart.terms.yaml", "middle: Aorta", "middle: Main artery");
  EXPECT_EQ(told(small.make("out", "cache", {"--json"}))["parts_made"].as<int>(), 1);
  const auto after = pack::files(small.path("out"));
  EXPECT_NE(after.at("small-middle-a4.pdf"), before.at("small-middle-a4.pdf"));
  EXPECT_EQ(after.at("small-klein-a4.pdf"), before.at("small-klein-a4.pdf"));
  // From cold, the changed pack is the same.
  ASSERT_EQ(small.make("cold", "c2").code, 0);
  EXPECT_EQ(pack::files(small.path("cold")), after);
}

TEST(Pack_again, Remakes_kept_work_that_was_spoiled) {
  const pack::Small small = pack::Small::built();
  const auto first = pack::files(small.path("out"));
  int spoiled = 0;
  for (const auto& entry : fs::recursive_directory_iterator(small.path("cache")))
    if (entry.is_regular_file()) {
      std::string bytes = support::bytes_of(entry.path());
      support::write(entry.path(), spoiled++ % 2 == 0 ? bytes.substr(0, bytes.size() / 2)
                                                      : bytes.replace(bytes.size() / 2, 1, "~~"));
    }
  ASSERT_GT(spoiled, 6);
  // All of them: heart, child and child without muscles, for two sets.
  EXPECT_EQ(told(small.make("again", "cache", {"--json"}))["parts_made"].as<int>(), 6);
  EXPECT_EQ(pack::files(small.path("again")), first);
}

TEST(Pack_again, Joins_what_gnu_parallel_made_to_the_same_bytes) {
  if (support::tool("parallel").empty()) GTEST_SKIP() << "GNU parallel is not installed";
  const pack::Small small = pack::Small::built();
  const auto list = support::platewright(
      {"pack", small.manifest(), "--list", "--cache", small.path("c2")});
  ASSERT_EQ(list.code, 0) << list.said();
  EXPECT_EQ(support::split(support::folded(support::replaced(list.out, "\n", "|")), '|').size(), 7U);
  support::write(small.path("commands"), list.out);
  const std::string folder = fs::path(support::program()).parent_path();
  support::Limits limits;
  limits.seconds = 300;
  limits.environment = {{"PATH", folder + ":/usr/bin:/bin"}, {"HOME", small.path("home")}};
  const auto run = support::run(
      {"parallel", "--will-cite", "--jobs", "2", "--halt", "now,fail=1", "-a",
       small.path("commands")},
      limits);
  ASSERT_EQ(run.code, 0) << run.said();
  ASSERT_EQ(small.make("bound", "c2", {"--bind"}).code, 0);
  EXPECT_EQ(pack::files(small.path("bound")), pack::files(small.path("out")));
}

TEST(Pack_again, Says_so_and_changes_nothing_where_the_folder_cannot_be_written) {
  if (::geteuid() == 0) {
    // The superuser may write anywhere: a file in the folder's place stops anybody.
    const pack::Small small;
    support::write(small.path("out"), "a file");
    const auto done = small.make("out", "cache");
    EXPECT_EQ(done.code, 1);
    EXPECT_THAT(done.err, testing::HasSubstr("error[write-failed]"));
    EXPECT_EQ(support::bytes_of(small.path("out")), "a file");
    return;
  }
  const pack::Small small;
  fs::create_directory(small.path("out"));
  fs::permissions(small.path("out"), fs::perms::owner_read | fs::perms::owner_exec);
  const auto done = small.make("out", "cache");
  EXPECT_EQ(done.code, 1);
  EXPECT_THAT(done.err, testing::HasSubstr("error[write-failed]"));
  fs::permissions(small.path("out"), fs::perms::owner_all);
  EXPECT_TRUE(pack::files(small.path("out")).empty());
}

TEST(Pack_again, Leaves_the_last_whole_editions_where_the_disk_is_full) {
  const pack::Small small = pack::Small::built();
  const auto before = pack::files(small.path("out"));
  small.change("small.yaml", "A small pack", "Another pack");
  // A file that may not grow stands for the disk: writing fails half way.
  const std::vector<std::string> limited{
      "/bin/sh", "-c", "trap '' XFSZ; ulimit -f 64; exec \"$0\" \"$@\"", support::program(), "pack",
      small.manifest(), "--out", small.path("out"), "--cache", small.path("c2")};
  const auto done = support::run(limited);
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_THAT(done.err, testing::HasSubstr("error[write-failed]"));
  EXPECT_EQ(pack::files(small.path("out")), before);
  ASSERT_EQ(small.make("out", "c2").code, 0);
  EXPECT_NE(pack::files(small.path("out")), before);
}

TEST(Pack_again, Goes_on_without_a_cache_that_cannot_be_written) {
  const pack::Small small;
  support::write(small.path("cache"), "a file");
  const auto done = small.make("out", "cache", {"--only", "klein-a4"});
  EXPECT_EQ(done.code, 0) << done.said();
  EXPECT_THAT(done.err, testing::HasSubstr("warning[cache-unwritable]"));
  EXPECT_EQ(pack::files(small.path("out")).size(), 1U);
}

}  // namespace
