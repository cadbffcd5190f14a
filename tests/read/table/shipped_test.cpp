// What the project itself ships reads without a finding.
#include <gtest/gtest.h>

#include <filesystem>

#include "finding_matchers.hpp"
#include "read/read.hpp"

namespace platewright {
namespace {

TEST(Shipped, Every_demo_table_reads_without_findings) {
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(PW_SOURCE_DIR "/figures/demo")) {
    const std::string path = entry.path().string();
    if (!path.ends_with(".terms.yaml")) continue;
    ++count;
    const auto bytes = read::file_bytes(path, 1u << 20);
    ASSERT_TRUE(bytes) << path;
    const auto terms = read::terms(*bytes, path);
    EXPECT_TRUE(terms.ok() && terms.findings().empty()) << all_text(terms.findings());
  }
  EXPECT_GE(count, 1);
}

TEST(Shipped, Every_style_reads_without_findings) {
  const std::vector<std::string> folders = {PW_SOURCE_DIR "/styles"};
  const auto names = read::style_names(folders);
  EXPECT_EQ(names, (std::vector<std::string>{"classroom", "ink-saver", "large-print", "press",
                                             "school-biology"}));
  for (const std::string& name : names) {
    const auto style = read::style(name, folders);
    ASSERT_TRUE(style) << all_text(style.findings());
    EXPECT_TRUE(style.findings().empty()) << all_text(style.findings());
    EXPECT_EQ(style->name, name);
    EXPECT_FALSE(style->description.empty()) << name;
  }
}

}  // namespace
}  // namespace platewright
