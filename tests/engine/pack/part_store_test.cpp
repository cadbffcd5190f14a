// Kept work: found by its key, never half, never spoiled.
#include "engine/part_store.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <thread>

#include "read/read.hpp"
#include "support/scratch.hpp"

namespace {

namespace fs = std::filesystem;
using platewright::PartStore;

const std::string some_key = platewright::read::sha256("a key");

fs::path only_file(const fs::path& folder) {
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file()) return entry.path();
  return {};
}

TEST(Part_store, Gives_back_what_it_was_given_also_to_another_build) {
  const support::Scratch scratch;
  const std::string bytes("half\0 a page\n", 13);
  PartStore(scratch / "c").keep(some_key, bytes);
  EXPECT_EQ(PartStore(scratch / "c").find(some_key), bytes);
  EXPECT_FALSE(PartStore(scratch / "c").find(platewright::read::sha256("another")));
}

TEST(Part_store, Takes_no_cut_and_no_changed_file_for_work) {
  const support::Scratch scratch;
  const std::string folder = scratch / "c";
  PartStore(folder).keep(some_key, "some pages");
  const fs::path file = only_file(folder);
  const std::string whole = support::bytes_of(file);
  for (std::size_t size = 0; size < whole.size(); ++size) {
    support::write(file, whole.substr(0, size));
    ASSERT_FALSE(PartStore(folder).find(some_key)) << size;
  }
  for (std::size_t at = 0; at < whole.size(); ++at) {
    std::string changed = whole;
    changed[at] = static_cast<char>(changed[at] ^ 1);
    support::write(file, changed);
    ASSERT_FALSE(PartStore(folder).find(some_key)) << at;
  }
  PartStore(folder).keep(some_key, "some pages");
  EXPECT_EQ(PartStore(folder).find(some_key), "some pages");
}

TEST(Part_store, Serves_several_builds_that_keep_the_same_at_once) {
  const support::Scratch scratch;
  const std::string folder = scratch / "c", bytes(200'000, 'x');
  std::vector<std::thread> builds;
  for (int i = 0; i < 4; ++i)
    builds.emplace_back([&] {
      for (int k = 0; k < 20; ++k) {
        PartStore store(folder);
        store.keep(some_key, bytes);
        EXPECT_EQ(store.find(some_key), bytes);
      }
    });
  for (std::thread& build : builds) build.join();
}

TEST(Part_store, Keeps_in_memory_what_its_folder_refuses_and_says_why) {
  const support::Scratch scratch;
  support::write(scratch / "c", "a file, not a folder");
  PartStore store(scratch / "c");
  EXPECT_FALSE(store.keep(some_key, "pages"));
  EXPECT_EQ(store.find(some_key), "pages");
  ASSERT_TRUE(store.fault());
  EXPECT_EQ(store.fault()->code, "write-failed");
}

TEST(Part_store, Takes_back_what_it_wrote_and_leaves_what_others_did) {
  const support::Scratch scratch;
  PartStore others(scratch / "c"), store(scratch / "c");
  const std::string theirs(64, 'a'), mine(64, 'b');
  ASSERT_TRUE(others.keep(theirs, "theirs"));
  ASSERT_TRUE(store.keep(mine, "mine"));
  store.take_back();
  EXPECT_EQ(store.find(theirs), "theirs");
  EXPECT_EQ(store.find(mine), std::nullopt);
}

TEST(Part_store, Drops_what_was_not_used_for_a_month_and_leaves_what_is_not_its_own) {
  const support::Scratch scratch;
  const std::string folder = scratch / "c";
  const std::string other = platewright::read::sha256("other");
  PartStore store(folder);
  store.keep(some_key, "old");
  store.keep(other, "new");
  support::write(fs::path(folder) / some_key.substr(0, 2) / "letter.txt", "mine");
  const fs::path old = fs::path(folder) / some_key.substr(0, 2) / (some_key.substr(2) + ".part");
  const auto ago = fs::file_time_type::clock::now() - std::chrono::hours(24 * 40);
  fs::last_write_time(old, ago);
  fs::last_write_time(old.parent_path() / "letter.txt", ago);
  store.tidy();
  EXPECT_FALSE(store.find(some_key));
  EXPECT_EQ(store.find(other), "new");
  EXPECT_TRUE(fs::exists(old.parent_path() / "letter.txt"));
}

}  // namespace
