// The manual page as man-db and groff (Debian's man-db and groff-base) set it:
// whatever they warn of is a fault.
#include <gtest/gtest.h>

#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using support::contains;

class Manual : public testing::Test {
 protected:
  void SetUp() override {
    const auto page = support::platewright({"completion", "man"});
    ASSERT_EQ(page.code, 0) << page.said();
    support::write(file_, page.out);
    limits_.environment = {{"LC_ALL", "C.UTF-8"}, {"MANWIDTH", "80"}, {"MANPAGER", "cat"},
                           {"MANROFFSEQ", ""}};
  }
  const support::Scratch scratch_;
  const std::string file_ = scratch_ / "platewright.1";
  support::Limits limits_;
};

TEST_F(Manual, Is_set_by_man_without_a_warning_and_names_every_verb) {
  const auto shown = support::run({"man", "--warnings", "-P", "cat", "-l", file_}, limits_);
  EXPECT_EQ(shown.code, 0) << shown.said();
  EXPECT_EQ(shown.err, "");
  const std::string text = support::folded(shown.out);
  const std::string help = support::platewright({"--help"}).out;
  const auto verbs = support::split(help.substr(help.find("Subcommands:") + 12), '\n');
  int named = 0;
  for (const std::string& line : verbs) {
    if (line.substr(0, 2) != "  " || line.size() < 3 || line[2] == ' ') continue;
    const std::string verb = support::split(support::folded(line), ' ').front();
    EXPECT_TRUE(contains(shown.out, "\n   " + verb + "\n")) << verb;  // a heading of its own
    ++named;
  }
  EXPECT_GE(named, 8);
  for (const char* heading : {"NAME", "SYNOPSIS", "DESCRIPTION", "EXIT STATUS", "ENVIRONMENT"})
    EXPECT_TRUE(contains(text, heading)) << heading;
  EXPECT_TRUE(contains(text, "--word-bank")) << "hyphens of options stay hyphens";
}

TEST_F(Manual, Is_set_by_groff_with_all_warnings_on_and_none_given) {
  for (const char* device : {"utf8", "ascii"}) {
    const auto set = support::run(
        {"groff", "-ww", "-man", "-K", "utf8", std::string("-T") + device, "-z", file_}, limits_);
    EXPECT_EQ(set.code, 0) << set.said();
    EXPECT_EQ(set.err, "") << device;
  }
}

TEST_F(Manual, Fits_a_terminal_of_80_columns_but_for_the_examples) {
  const auto shown = support::run({"man", "-P", "cat", "-l", file_}, limits_);
  bool example = false;
  for (const std::string& line : support::split(shown.out, '\n')) {
    const bool more = example && !line.empty() && line.back() == '\\';
    const bool inside = example || contains(line, "  platewright ");
    example = more || (contains(line, "  platewright ") && line.back() == '\\');
    if (inside) continue;
    std::size_t characters = 0;
    for (const char c : line) characters += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    EXPECT_LE(characters, 80U) << line;
  }
}

}  // namespace
