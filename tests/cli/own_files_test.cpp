// What a run reads is never written over by it, and no file is written twice.
#include <gtest/gtest.h>

#include <filesystem>

#include "support/demo.hpp"
#include "support/process.hpp"
#include "support/scratch.hpp"
#include "support/words.hpp"

namespace {

namespace fs = std::filesystem;
using support::platewright;

using Arguments = std::vector<std::string>;

Arguments joined(Arguments first, const Arguments& more) {
  first.insert(first.end(), more.begin(), more.end());
  return first;
}

class Own_files : public testing::Test {
 protected:
  const support::Scratch scratch_;
  void SetUp() override {
    fs::copy_file(support::demo_svg("tooth"), scratch_ / "tooth.svg");
    fs::copy_file(support::demo_terms("tooth"), scratch_ / "tooth.terms.yaml");
    support::write(scratch_ / "mine.yaml", "extends: classroom\n");
    fs::create_directories(scratch_ / "other");
    fs::create_symlink(scratch_ / "tooth.svg", scratch_ / "other/link.svg");
    fs::create_directory_symlink(scratch_.path(), scratch_ / "other/linked");
  }
  Arguments poster() const {
    return {"sheet",   scratch_ / "tooth.svg", "--terms", scratch_ / "tooth.terms.yaml",
            "--style", scratch_ / "mine.yaml", "--kind",  "poster"};
  }
  // And nothing is written.
  void expect_refused(const Arguments& arguments, const std::string& code) const {
    const auto before = support::contents(scratch_.path());
    const auto done = platewright(arguments);
    EXPECT_EQ(done.code, 1) << done.said();
    EXPECT_TRUE(support::contains(done.err, "error[" + code + "]")) << done.said();
    EXPECT_EQ(support::contents(scratch_.path()), before) << done.said();
  }
};

TEST_F(Own_files, Are_no_place_for_sheets) {
  for (const char* out :
       {"tooth.svg", "other/../tooth.svg", "other/link.svg", "other/linked/tooth.svg"})
    expect_refused(joined(poster(), {"--out", scratch_ / out}), "output-is-input");
  const Arguments made = joined(poster(), {"--out", scratch_ / "new.pdf"});
  expect_refused(joined(made, {"--explain", scratch_ / "tooth.svg"}), "output-is-input");
  for (const char* report : {"tooth.terms.yaml", "tooth.svg", "mine.yaml"})
    expect_refused(joined(made, {"--report", scratch_ / report}), "output-is-input");
}

TEST_F(Own_files, Include_what_a_style_extends) {
  support::write(scratch_ / "base.yaml", "extends: classroom\n");
  support::write(scratch_ / "mine.yaml", "extends: base\n");
  const Arguments made = joined(poster(), {"--out", scratch_ / "new.pdf"});
  expect_refused(joined(made, {"--report", scratch_ / "base.yaml"}), "output-is-input");
  support::write(scratch_ / "sheet.pdf", "%PDF-1.4");
  expect_refused({"proof", scratch_ / "sheet.pdf", "--style", scratch_ / "mine.yaml", "--report",
                  scratch_ / "base.yaml"},
                 "output-is-input");
}

TEST_F(Own_files, Are_known_by_another_name_from_where_one_stands) {
  const auto before = support::bytes_of(scratch_ / "tooth.svg");
  support::Limits here;
  here.folder = scratch_.path().string();
  const auto done = platewright({"sheet", "./tooth.svg", "--terms", "tooth.terms.yaml", "--kind",
                                 "poster", "--out", "tooth.svg"},
                                here);
  EXPECT_EQ(done.code, 1) << done.said();
  EXPECT_TRUE(support::contains(done.err, "error[output-is-input]")) << done.said();
  EXPECT_EQ(support::bytes_of(scratch_ / "tooth.svg"), before);
}

TEST_F(Own_files, Include_the_pictures_in_a_figure) {
  ASSERT_EQ(platewright(joined(poster(), {"--paper", "a6", "--out", scratch_ / "back.png"})).code,
            0);
  support::write(scratch_ / "page.svg",
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\">"
                 "<image href=\"back.png\" width=\"9\" height=\"9\"/><rect width=\"5\" "
                 "height=\"5\"/></svg>");
  const Arguments colouring{"sheet", scratch_ / "page.svg", "--kind", "colouring", "--out"};
  ASSERT_EQ(platewright(joined(colouring, {scratch_ / "new.png"})).code, 0);
  expect_refused(joined(colouring, {scratch_ / "back.png"}), "output-is-input");
}

TEST_F(Own_files, Are_no_place_for_sheets_at_true_size) {
  fs::copy_file(support::demo_svg("child"), scratch_ / "child.svg");
  fs::copy_file(support::demo_terms("child"), scratch_ / "child.terms.yaml");
  for (const char* verb : {"truesize", "pieces"}) {
    const Arguments made{
        verb,    scratch_ / "child.svg", "--terms", scratch_ / "child.terms.yaml", "--age", "6",
        "--out", scratch_ / "new.pdf"};
    expect_refused(joined(made, {"--report", scratch_ / "child.terms.yaml"}), "output-is-input");
    expect_refused(joined(made, {"--report", scratch_ / "new.pdf"}), "output-twice");
  }
}

TEST_F(Own_files, Take_one_output_each) {
  const Arguments made = joined(poster(), {"--out", scratch_ / "new.pdf"});
  for (const char* report : {"new.pdf", "other/linked/new.pdf"})
    expect_refused(joined(made, {"--report", scratch_ / report}), "output-twice");
  expect_refused(joined(made, {"--explain", scratch_ / "same.svg", "--report", scratch_ / "same.svg"}),
                 "output-twice");
}

TEST_F(Own_files, Looked_over_are_no_place_for_the_report) {
  ASSERT_EQ(platewright(joined(poster(), {"--out", scratch_ / "sheet.pdf"})).code, 0);
  support::write(scratch_ / "words.txt", "tooth\n");
  const Arguments look{"proof", scratch_ / "sheet.pdf", "--words", scratch_ / "words.txt",
                       "--report"};
  for (const char* report : {"sheet.pdf", "words.txt"})
    expect_refused(joined(look, {scratch_ / report}), "output-is-input");
  expect_refused({"proof", scratch_.path().string(), "--report", scratch_ / "sheet.pdf"},
                 "output-is-input");
}

TEST_F(Own_files, Are_no_place_for_a_pack) {
  // A manifest that is called as its edition will be.
  support::write(scratch_ / "p-middle-a4.pdf",
                 "name: p\npapers: [a4]\nsets: [middle]\nkinds: [poster]\n"
                 "figures:\n  tooth: tooth.terms.yaml\n");
  const Arguments make{"pack", scratch_ / "p-middle-a4.pdf", "--cache", scratch_ / "cache",
                       "--out"};
  expect_refused(joined(make, {scratch_.path().string()}), "output-is-input");
}

TEST_F(Own_files, Are_not_replaced_by_a_starter) {
  const Arguments start{"anchors", scratch_ / "tooth.svg", "--starter"};
  for (const char* there : {"tooth.terms.yaml", "tooth.svg", "other/link.svg"})
    expect_refused(joined(start, {scratch_ / there}), "starter-exists");
  EXPECT_EQ(platewright(joined(start, {scratch_ / "new.terms.yaml"})).code, 0);
}

}  // namespace
