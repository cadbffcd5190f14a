#include "pages.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>

namespace platewright::emit {

Sheet::Sheet() {
  document.title = "The heart";
  document.language = "en";
  document.author = "A. Teacher";
  context.typesetter = &typesetter;
  context.art.figure = &drawn;
}
std::string place(const std::string& name) {
  std::string test;
  if (const auto* info = testing::UnitTest::GetInstance()->current_test_info())
    test = std::string(info->test_suite_name()) + "." + info->name() + ".";
  std::replace(test.begin(), test.end(), '/', '.');
  return testing::TempDir() + test + name;
}

std::string saved(const std::string& name, const std::string& bytes) {
  const std::string path = place(name);
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

std::string run(const std::string& command) {
  std::string output;
  FILE* pipe = popen(("timeout 60 " + command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return "exit -1";
  char buffer[4096];
  for (std::size_t n; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, n);
  const int status = pclose(pipe);
  return output + "exit " + std::to_string(status / 256);
}

bool browser_installed() { return std::filesystem::exists("/usr/bin/chromium"); }

std::string browse(const std::string& arguments) {
  const std::string profile = place("profile");
  const std::string said =
      run("chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --no-first-run "
          "--user-data-dir=" +
          profile + " " + arguments);
  std::filesystem::remove_all(profile);
  return said;
}

}  // namespace platewright::emit
