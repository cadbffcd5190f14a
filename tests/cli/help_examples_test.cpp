// The examples that each verb's help gives are run as they stand.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/share.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;

// Verbs as the program's own help lists them: words at the start of the lines below "Subcommands:".
std::vector<std::string> verbs() {
  const std::string help = support::platewright({"--help"}).out;
  const std::size_t list = help.find("Subcommands:");
  std::vector<std::string> names;
  if (list == std::string::npos) return names;
  for (const std::string& line : support::split(help.substr(list), '\n'))
    if (line.starts_with("  ") && line.size() > 2 && line[2] != ' ')
      names.push_back(line.substr(2, line.find(' ', 2) - 2));
  return names;
}

// Commands below "Example:", continued lines joined as the shell does.
std::string example_in(const std::string& help) {
  std::string script;
  bool inside = false;
  for (const std::string& line : support::split(help, '\n')) {
    if (inside && line.starts_with("  ")) script += line + "\n";
    inside = inside || line.starts_with("Example:");
  }
  return script;
}

TEST(Help, Gives_every_verb_an_example_that_works) {
  const std::vector<std::string> names = verbs();
  ASSERT_GE(names.size(), 6U);
  for (const char* verb : {"sheet", "check", "anchors", "papers", "styles"})
    EXPECT_NE(std::find(names.begin(), names.end(), verb), names.end()) << verb;
  const support::Scratch scratch;
  fs::create_directories(scratch.path() / "figures");
  fs::create_directories(scratch.path() / "bin");
  fs::copy(support::source("figures/demo"), scratch / "figures/demo", fs::copy_options::recursive);
  fs::create_symlink(support::program(), scratch / "bin/platewright");
  // Where the completion example puts its file.
  fs::create_directories(scratch / "home/.local/share/bash-completion/completions");
  for (const std::string& verb : names) {
    // The whole demo takes minutes under sanitizers, where other tests make packs.
    if (support::share > 1 && verb == "pack") continue;
    const std::string example = example_in(support::platewright({verb, "--help"}).out);
    EXPECT_TRUE(support::contains(example, "platewright " + verb)) << verb << ": " << example;
    support::Limits limits;
    if (verb == "pack") limits.seconds = 450;  // it makes the whole demo
    limits.folder = scratch.path().string();
    limits.environment = {{"HOME", scratch / "home"}};
    const support::Finished done = support::run(
        {"/bin/sh", "-e", "-c", "PATH=\"" + (scratch / "bin") + ":$PATH\"\n" + example}, limits);
    EXPECT_EQ(done.code, 0) << example << done.said();
  }
}

}  // namespace
