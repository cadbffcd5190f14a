// A language in which people write 1,5 for one and a half changes no byte.
#include <gtest/gtest.h>

#include <filesystem>
#include <map>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using Environment = std::vector<std::pair<std::string, std::string>>;

bool writes_commas(const Environment& environment) {
  support::Limits limits;
  limits.environment = environment;
  return support::run({"printf", "%.1f", "1"}, limits).out == "1,0" ||
         support::run({"sh", "-c", "awk 'BEGIN { printf \"%.1f\", 1 }'"}, limits).out == "1,0" ||
         support::contains(support::run({"locale", "decimal_point"}, limits).out, ",");
}

// An installed locale with a decimal comma, else German made in `scratch` from the C library's
// sources; nothing where neither is there.
Environment comma_locale(const support::Scratch& scratch) {
  for (const std::string& name : support::split(support::run({"locale", "-a"}).out, '\n')) {
    if (name.empty() || name == "C" || name == "POSIX") continue;
    if (writes_commas({{"LC_ALL", name}})) return {{"LC_ALL", name}};
  }
  support::run({"localedef", "-f", "UTF-8", "-i", "de_DE", scratch / "de_DE.UTF-8"});
  // The suppression for what the C library keeps of LOCPATH goes by a function's name.
  const Environment made{{"LOCPATH", scratch.path().string()}, {"LC_ALL", "de_DE.UTF-8"},
                         {"ASAN_OPTIONS", "detect_leaks=1:symbolize=1"}};
  return writes_commas(made) ? made : Environment{};
}

std::map<std::string, std::string> made_in(const Environment& environment) {
  const support::Scratch scratch;
  support::Limits limits;
  limits.environment = environment;
  limits.folder = scratch.path().string();
  for (const std::string out : {"sheet.pdf", "sheet.svg", "sheet.png"}) {
    const auto done = support::platewright(
        {"sheet", support::demo_svg("tooth"), "--terms", support::demo_terms("tooth"), "--set",
         "mitte", "--kind", "poster", "--paper", "7.5x10.25in", "--style", "press", "--out", out,
         "--report", out + ".json"},
        limits);
    EXPECT_EQ(done.code, 0) << done.said();
  }
  for (const std::vector<std::string>& more :
       {std::vector<std::string>{"truesize", support::demo_svg("tooth"), "--between", "crown,root=12.5cm",
                                 "--out", "large.pdf"},
        {"proof", "large.pdf", "--distance", "1.5m", "--report", "proof.html"}}) {
    const auto done = support::platewright(more, limits);
    EXPECT_EQ(done.code, more[0] == "proof" ? 1 : 0) << done.said();  // small words from afar
  }
  std::map<std::string, std::string> files = support::contents(scratch.path());
  for (auto& [name, bytes] : files)
    if (name.ends_with(".json"))  // the time it took differs from run to run
      for (const std::string& seconds : support::between(bytes, "\"seconds\":", ","))
        bytes = support::replaced(bytes, "\"seconds\":" + seconds, "\"took\":0");
  return files;
}

TEST(Locale, With_decimal_commas_changes_no_byte) {
  const support::Scratch scratch;
  const Environment german = comma_locale(scratch);
  if (german.empty()) GTEST_SKIP() << "no locale with a decimal comma, and none can be made";
  const auto plain = made_in({{"LC_ALL", "C"}});
  ASSERT_EQ(plain.size(), 8U);
  EXPECT_EQ(made_in(german), plain);
}

}  // namespace
