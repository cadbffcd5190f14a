// What the command line promises: exit status, findings, nothing half-written.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

using support::contains;
using support::platewright;
namespace fs = std::filesystem;

std::vector<std::string> heart_sheet(const std::string& out) {
  return {"sheet", support::demo_svg("heart"), "--terms", support::demo_terms("heart"),
          "--set", "middle", "--kind", "poster", "--paper", "letter", "--out", out};
}

TEST(Command_line, Writes_the_four_sheets_of_the_issue_into_a_folder) {
  const support::Scratch scratch;
  const auto done = platewright({"sheet", support::demo_svg("heart"), "--terms",
                                 support::demo_terms("heart"), "--set", "middle", "--kind",
                                 "poster,worksheet,copywork,key", "--paper", "letter", "--out",
                                 scratch / "sheets/"});
  ASSERT_EQ(done.code, 0) << done.said();
  int pdfs = 0;
  for (const auto& entry : fs::directory_iterator(scratch / "sheets"))
    pdfs += entry.path().extension() == ".pdf" ? 1 : 0;
  EXPECT_EQ(pdfs, 4);
}

TEST(Command_line, Takes_any_paper_with_a_unit_and_every_ending) {
  const support::Scratch scratch;
  for (const std::string paper : {"a3", "18x24in", "300 x 400 mm"})
    for (const std::string ending : {"pdf", "svg", "png"}) {
      const std::string out = scratch / ("sheet." + ending);
      auto arguments = heart_sheet(out);
      *(std::find(arguments.begin(), arguments.end(), "--paper") + 1) = paper;
      const auto made = platewright(arguments);
      EXPECT_EQ(made.code, 0) << made.said();
      EXPECT_TRUE(fs::exists(out)) << paper << " " << ending;
    }
}

TEST(Command_line, Exits_with_2_on_wrong_usage_and_says_how) {
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {},
           {"bake"},
           {"sheet"},
           {"sheet", "--nonsense"},
           {"sheet", "x.svg", "--out", "x.pdf"},
           {"sheet", "x.svg", "--kind", "maze", "--out", "x.pdf", "--seed", "-3"},
           {"completion", "tcsh"}}) {
    const auto done = platewright(arguments);
    EXPECT_EQ(done.code, 2) << done.said();
    EXPECT_FALSE(done.err.empty() && done.out.empty());
  }
}

TEST(Command_line, Says_which_verb_may_be_meant) {
  const auto done = platewright({"--quiet", "shet", "x.svg", "--out", "x.pdf"});
  EXPECT_EQ(done.code, 2) << done.said();
  EXPECT_TRUE(contains(done.err, "there is no verb \"shet\"; did you mean \"sheet\"")) << done.err;
}

struct Fault {
  std::string option;
  std::string value;
  std::string code;
};

TEST(Command_line, Exits_with_1_names_the_option_and_leaves_the_folder_as_it_was) {
  const support::Scratch scratch;
  support::write(scratch / "keep.pdf", "an older sheet");
  const auto before = support::contents(scratch.path());
  for (const Fault& fault : std::vector<Fault>{{"--paper", "a44", "paper-unknown"},
                                               {"--paper", "18x24", "paper-size"},
                                               {"--kind", "postr", "kind-unknown"},
                                               {"--set", "midle", "set-unknown"},
                                               {"--style", "clasroom", "style-unknown"},
                                               {"--out", "sheet.jpg", "out-ending"}}) {
    auto arguments = heart_sheet(scratch / "keep.pdf");
    for (std::size_t i = 0; i + 1 < arguments.size(); ++i)
      if (arguments[i] == fault.option)
        arguments[i + 1] = fault.option == "--out" ? scratch / fault.value : fault.value;
    if (fault.option == "--style") arguments.insert(arguments.end(), {"--style", fault.value});
    const auto done = platewright(arguments);
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(contains(done.err, "error[" + fault.code)) << done.said();
    EXPECT_EQ(support::contents(scratch.path()), before) << fault.option;
  }
}

TEST(Command_line, Says_every_fault_at_once) {
  const support::Scratch scratch;
  const auto done = platewright({"sheet", support::demo_svg("heart"), "--terms",
                                 support::demo_terms("eye"), "--set", "middle", "--kind", "poster",
                                 "--paper", "a44", "--out", scratch / "x.pdf"});
  EXPECT_EQ(done.code, 1);
  EXPECT_TRUE(contains(done.err, "paper-unknown")) << done.said();
  EXPECT_TRUE(contains(done.err, "anchor-unknown")) << done.said();
  EXPECT_TRUE(contains(done.err, "figure-differs")) << done.said();
}

TEST(Command_line, Tells_two_figures_of_one_name_apart) {
  const support::Scratch scratch;
  fs::create_directories(scratch / "terms");
  for (const char* place : {"heart.svg", "terms/heart.svg"})
    fs::copy_file(support::demo_svg("heart"), scratch / place);
  fs::copy_file(support::demo_terms("heart"), scratch / "terms/heart.terms.yaml");
  support::Limits here;
  here.folder = scratch.path().string();
  const auto done = platewright({"sheet", "heart.svg", "--terms", "terms/heart.terms.yaml", "--set",
                                 "middle", "--kind", "poster", "--out", "poster.pdf"},
                                here);
  EXPECT_EQ(done.code, 0) << done.said();
  EXPECT_TRUE(contains(done.err, "is for \"terms/heart.svg\", the sheet for \"heart.svg\""))
      << done.said();
}

TEST(Command_line, Prints_the_note_that_a_table_gives_instead_of_the_usual_one) {
  const support::Scratch scratch;
  const auto footer_of = [&](const std::string& figure, const std::string& set) {
    const std::string out = scratch / "sheet.svg";
    const auto done =
        platewright({"sheet", support::demo_svg(figure), "--terms", support::demo_terms(figure),
                     "--set", set, "--kind", "colouring", "--out", out});
    EXPECT_EQ(done.code, 0) << done.said();
    return support::contents(scratch.path()).at("sheet.svg");
  };
  EXPECT_TRUE(contains(footer_of("tooth", "little"), "not medical advice"));
  const std::string bee = footer_of("honeybee", "klein");
  EXPECT_FALSE(contains(bee, "jedes Kind"));
  EXPECT_TRUE(contains(bee, "Zum Lernen; Größen sind"));
}

TEST(Command_line, Warns_of_options_that_change_nothing) {
  const support::Scratch scratch;
  const auto said = [&](const std::string& out, const std::vector<std::string>& more) {
    auto arguments = heart_sheet(scratch / out);
    arguments.insert(arguments.end(), more.begin(), more.end());
    const auto done = platewright(arguments);
    EXPECT_EQ(done.code, 0) << done.said();
    return done.err;
  };
  EXPECT_TRUE(contains(said("x.pdf", {"--format", "png"}), "--format: warning[option-idle]"));
  EXPECT_TRUE(contains(said("x.pdf", {"--word-bank"}), "--word-bank: warning[option-idle]"));
  EXPECT_TRUE(contains(said("x.pdf", {"--labels"}), "--labels: warning[option-idle]"));
  EXPECT_FALSE(contains(said("x/", {"--format", "svg"}), "option-idle"));
  EXPECT_FALSE(contains(said("x.pdf", {"--format", "pdf"}), "option-idle"));
}

TEST(Command_line, Takes_kinds_with_a_space_after_their_commas) {
  const support::Scratch scratch;
  auto arguments = heart_sheet(scratch / "sheets/");
  *(std::find(arguments.begin(), arguments.end(), "--kind") + 1) = "poster, key ";
  const auto done = platewright(arguments);
  EXPECT_EQ(done.code, 0) << done.said();
  EXPECT_EQ(support::contents(scratch / "sheets").size(), 2U);
}

TEST(Command_line, Gives_findings_as_one_json_array) {
  const auto done = platewright({"check", "--json", "no-such-figure.svg"});
  EXPECT_EQ(done.code, 1);
  const std::string out = support::folded(done.out);
  ASSERT_FALSE(out.empty());
  EXPECT_EQ(out.front(), '[');
  EXPECT_EQ(out.back(), ']');
  EXPECT_TRUE(contains(out, "\"file-missing\"")) << out;
  EXPECT_TRUE(done.err.empty()) << done.err;
}

TEST(Command_line, Has_help_with_an_example_for_every_verb) {
  for (const std::string verb : {"sheet", "check", "anchors", "papers", "styles", "completion"}) {
    const auto done = platewright({verb, "--help"});
    EXPECT_EQ(done.code, 0);
    EXPECT_TRUE(contains(done.out, "Example:")) << verb;
    EXPECT_TRUE(contains(done.out, "platewright " + verb)) << verb;
  }
}

TEST(Command_line, Lists_papers_and_styles) {
  const auto papers = platewright({"papers"});
  EXPECT_EQ(papers.code, 0);
  for (const std::string paper : {"a4", "letter", "arch-d", "b2", "tabloid"})
    EXPECT_TRUE(contains("\n" + papers.out, "\n" + paper + "\t")) << paper;
  const auto styles = platewright({"styles"});
  EXPECT_EQ(styles.code, 0) << styles.said();
  for (const std::string style :
       {"classroom", "large-print", "ink-saver", "school-biology", "press"})
    EXPECT_TRUE(contains("\n" + styles.out, "\n" + style + "\t")) << style;
}

TEST(Completion, Is_a_script_that_the_shell_can_read) {
  const support::Scratch scratch;
  for (const std::string shell : {"bash", "zsh", "fish"}) {
    const auto done = platewright({"completion", shell});
    EXPECT_EQ(done.code, 0) << done.said();
    EXPECT_TRUE(contains(done.out, "orientation")) << shell;
    support::write(scratch / shell, done.out);
    const std::string program = support::tool(shell);
    if (program.empty()) continue;  // bash is always there; the others where installed
    const auto read = support::run({program, "-n", scratch / shell});
    EXPECT_EQ(read.code, 0) << read.said();
  }
  const auto page = platewright({"completion", "man"});
  EXPECT_TRUE(contains(page.out, ".TH PLATEWRIGHT 1")) << page.said();
}

TEST(Anchors, Starter_is_a_terms_file_that_makes_a_poster_as_it_is) {
  const support::Scratch scratch;
  fs::copy(support::demo_svg("tooth"), scratch / "tooth.svg");
  const auto started = platewright(
      {"anchors", scratch / "tooth.svg", "--starter", scratch / "tooth.terms.yaml"});
  ASSERT_EQ(started.code, 0) << started.said();
  EXPECT_TRUE(contains(started.out, "enamel\tregion"));
  const auto made = platewright({"sheet", scratch / "tooth.svg", "--terms",
                                 scratch / "tooth.terms.yaml", "--set", "upper", "--kind",
                                 "poster", "--out", scratch / "tooth.pdf"});
  EXPECT_EQ(made.code, 0) << made.said();
}

TEST(Check, Passes_everything_that_is_shipped) {
  std::vector<std::string> arguments{"check"};
  for (const auto& entry : fs::directory_iterator(support::source("figures/demo")))
    if (entry.path().extension() == ".svg" || entry.path().extension() == ".yaml")
      arguments.push_back(entry.path().string());
  for (const auto& entry : fs::directory_iterator(support::source("styles")))
    arguments.push_back(entry.path().string());
  const auto done = platewright(arguments);
  EXPECT_EQ(done.code, 0) << done.said();
  EXPECT_EQ(done.err, "");
}

TEST(Writing, Into_a_place_that_cannot_be_written_is_a_finding) {
  const auto done = platewright(heart_sheet("/proc/no-such-folder/sheet.pdf"));
  EXPECT_EQ(done.code, 1);
  EXPECT_TRUE(contains(done.err, "write-failed")) << done.said();
}

}  // namespace
