// Outputs appear together or not at all; findings for scripts are JSON.
#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include <filesystem>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;

support::Finished tooth(const std::string& out, const std::vector<std::string>& more) {
  std::vector<std::string> arguments{"sheet",   support::demo_svg("tooth"),
                                     "--terms", support::demo_terms("tooth"),
                                     "--set",   "middle",
                                     "--kind",  "poster,worksheet,key",
                                     "--out",   out};
  arguments.insert(arguments.end(), more.begin(), more.end());
  return support::platewright(arguments);
}

TEST(Outputs, All_stay_away_when_one_cannot_be_written) {
  const support::Scratch scratch;
  fs::create_directories(scratch / "taken.json");
  support::write(scratch / "sheets/tooth-middle-a4-poster.pdf", "an older poster");
  // The last of the three files is in the way.
  fs::create_directories(scratch / "folders/tooth-middle-a4-key.pdf");
  const auto before = support::contents(scratch.path());
  for (const auto& [out, report] : std::vector<std::pair<std::string, std::string>>{
           {scratch / "sheets/", scratch / "taken.json"},
           {scratch / "sheets/", "/proc/no-such-folder/report.json"},
           {scratch / "sheets.pdf", scratch / "taken.json"},
           {scratch / "folders/", scratch / "fine.json"}}) {
    const auto done = tooth(out, {"--report", report});
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(support::contains(done.err, "error[write-failed]")) << done.said();
    EXPECT_EQ(support::contents(scratch.path()), before) << out << " " << report;
  }
}

TEST(Outputs, Replace_what_was_there_whole) {
  const support::Scratch scratch;
  support::write(scratch / "sheet.pdf", std::string(5'000'000, 'x'));
  ASSERT_EQ(tooth(scratch / "sheet.pdf", {}).code, 0);
  EXPECT_TRUE(support::bytes_of(scratch / "sheet.pdf").starts_with("%PDF-"));
  EXPECT_EQ(support::contents(scratch.path()).size(), 1U);  // no draft is left beside it
}

// JSON is a part of YAML 1.2, so a YAML reader that shares no code with our writer reads it.
TEST(Json, Of_findings_is_read_by_another_program_with_names_as_they_are) {
  const support::Scratch scratch;
  const std::string name = "odd \"name\"\twith\\all-größe.terms.yaml";
  support::write(scratch / name, "sets:\n  middle: {ages: 7-10, language: en}\nterms:\n"
                                 "  nowhere: {middle: A, medium: B}\ncolour: red\n");
  support::write(scratch / "t.svg", support::bytes_of(support::demo_svg("tooth")));
  const auto done = support::platewright({"check", "--json", scratch / "t.svg", scratch / name});
  EXPECT_EQ(done.code, 1) << done.said();
  const YAML::Node findings = YAML::Load(done.out);
  ASSERT_TRUE(findings.IsSequence()) << done.out;
  ASSERT_GE(findings.size(), 2U);
  for (const YAML::Node& finding : findings) {
    EXPECT_EQ(finding["file"].as<std::string>(), scratch / name) << done.out;
    EXPECT_GT(finding["line"].as<int>(), 3);
    EXPECT_GT(finding["column"].as<int>(), 0);
    EXPECT_EQ(finding["severity"].as<std::string>(), "error");
    EXPECT_FALSE(finding["code"].as<std::string>().empty());
    EXPECT_FALSE(finding["message"].as<std::string>().empty());
  }
  const auto good = support::platewright(
      {"check", "--json", support::demo_svg("tooth"), support::demo_terms("tooth")});
  EXPECT_EQ(good.code, 0);
  EXPECT_EQ(YAML::Load(good.out).size(), 0U) << good.out;
}

}  // namespace
