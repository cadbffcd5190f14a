// Kept figures: read once, and again for anything that makes another figure of them.
#include "engine/figure_store.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "engine/exact.hpp"
#include "engine/figure_file.hpp"
#include "engine/figure_members.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace {

namespace fs = std::filesystem;
using namespace platewright;

std::size_t files_in(const std::string& folder) {
  std::size_t count = 0;
  if (fs::exists(folder))
    for (const auto& entry : fs::recursive_directory_iterator(folder)) count += entry.is_regular_file();
  return count;
}

std::string bits(const Result<Figure>& figure) {
  return ExactWriter().add(*figure).add(figure.findings()).bytes();
}

TEST(Figure_store, Gives_back_a_figure_as_it_was_read_from_cold_and_from_warm) {
  const support::Scratch scratch;
  const std::string path = support::demo_svg("heart");
  const auto digest = figure_digest(path);
  ASSERT_TRUE(digest.ok());
  const auto read = figure_file(path, {});
  ASSERT_TRUE(read.ok());
  for (int round = 0; round < 2; ++round) {
    PartStore store(scratch / "c");
    const auto kept = kept_figure(store, *digest, path, {});
    ASSERT_TRUE(kept.ok());
    EXPECT_EQ(bits(kept), bits(read));
    EXPECT_EQ(files_in(scratch / "c"), 1U);
  }
}

TEST(Figure_store, Reads_anew_for_other_anchors_another_version_and_another_file) {
  const support::Scratch scratch;
  PartStore store(scratch / "c");
  const std::string path = support::demo_svg("child");
  const std::string digest = *figure_digest(path);
  const auto drawn = kept_figure(store, digest, path, {});
  ASSERT_TRUE(drawn.ok());
  AddedAnchor added;
  added.name = "added";
  added.at = {drawn->view_box.centre()};
  const auto with_anchor = kept_figure(store, digest, path, {added});
  ASSERT_TRUE(with_anchor.ok());
  EXPECT_NE(with_anchor->find("added"), nullptr);
  added.at.front().x += 1;
  EXPECT_NE(bits(kept_figure(store, digest, path, {added})), bits(with_anchor));
  FigureVersion bare;
  bare.hide = {{"circulatory-system", {}}};
  const auto hidden = kept_figure(store, digest, path, {}, &bare);
  ASSERT_TRUE(hidden.ok()) << to_json(hidden.findings());
  EXPECT_NE(hidden->svg, drawn->svg);
  const std::size_t kept = files_in(scratch / "c");
  EXPECT_EQ(kept, 4U);
  const std::string copy = scratch / "copy.svg";
  fs::copy_file(path, copy);
  EXPECT_EQ(kept_figure(store, digest, copy, {})->name, "copy");
}

TEST(Figure_store, Keeps_no_figure_under_the_digest_of_another) {
  const support::Scratch scratch;
  PartStore store(scratch / "c");
  const std::string path = scratch / "a.svg";
  fs::copy_file(support::demo_svg("tooth"), path);
  const std::string digest = *figure_digest(path);
  support::write(path, support::bytes_of(support::demo_svg("eye")));  // changed meanwhile
  EXPECT_TRUE(kept_figure(store, digest, path, {}).ok());
  EXPECT_EQ(files_in(scratch / "c"), 0U);
}

TEST(Figure_store, Keeps_drawings_by_all_that_they_follow_from) {
  const support::Scratch scratch;
  PartStore store(scratch / "c");
  const emit::KeepArt keep = kept_art(store);
  int drawn = 0;
  const auto draw = [&]() -> Result<std::string> { return "drawing " + std::to_string(++drawn); };
  EXPECT_EQ(*keep("<svg/>1", draw), "drawing 1");
  EXPECT_EQ(*keep("<svg/>2", draw), "drawing 2");
  EXPECT_EQ(*keep("<svg/>1", draw), "drawing 1");
  EXPECT_EQ(*kept_art(store)("<svg/>2", draw), "drawing 2");
  EXPECT_EQ(*keep("<svg><text/></svg>", draw), "drawing 3");
  EXPECT_EQ(*keep("<svg><text/></svg>", draw), "drawing 4");
}

TEST(Figure_store, Draws_anew_whatever_is_of_another_figure_size_or_tint) {
  const text::Typesetter typesetter;
  const auto figure = figure_file(support::demo_svg("tooth"), {});
  ASSERT_TRUE(figure.ok());
  std::set<std::string> asked;
  const auto keys_of = [&](const Figure& drawn, double scale, double tint) {
    compose::Document document;
    compose::Page page;
    page.width = page.height = 400;
    compose::FigureItem item;
    item.transform.scale = scale;
    item.tint = tint;
    page.items = {item};
    document.pages = {page};
    emit::EmitContext context;
    context.typesetter = &typesetter;
    context.art.figure = &drawn;
    context.keep_art = [&](const std::string& from, const auto& draw) {
      asked.insert(from);
      return draw();
    };
    EXPECT_TRUE(emit::pdf(document, context).ok());
    return asked.size();
  };
  EXPECT_EQ(keys_of(*figure, 0.1, 1), 1U);
  EXPECT_EQ(keys_of(*figure, 0.1, 1), 1U);
  EXPECT_EQ(keys_of(*figure, 0.11, 1), 2U);
  EXPECT_EQ(keys_of(*figure, 0.1, 0.5), 3U);
  Figure other = *figure;
  other.svg += "\n";
  EXPECT_EQ(keys_of(other, 0.1, 1), 4U);
  other = *figure;
  other.view_box.x += 1;
  EXPECT_EQ(keys_of(other, 0.1, 1), 5U);
}

TEST(Figure_store, Keeps_no_figure_with_words_whose_look_follows_the_faces_there_are) {
  const support::Scratch scratch;
  PartStore store(scratch / "c");
  const std::string path = scratch / "a.svg";
  support::write(path, R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">
    <rect x="10" y="10" width="80" height="80" fill="#ccc"/><text x="20" y="50">words</text></svg>)");
  EXPECT_TRUE(kept_figure(store, *figure_digest(path), path, {}).ok());
  EXPECT_EQ(files_in(scratch / "c"), 0U);
}

}  // namespace
