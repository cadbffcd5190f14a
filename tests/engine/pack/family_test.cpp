// Sets that share a layout: planned once for all, as each would be by itself.
#include "engine/family.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>

#include "engine/part_source.hpp"
#include "engine/plan_members.hpp"
#include "platewright/pack.hpp"
#include "support/demo.hpp"
#include "support/scratch.hpp"

namespace {

namespace fs = std::filesystem;
using namespace platewright;

std::string bits(const Planned& planned) { return ExactWriter().add(planned.plan).bytes(); }

TEST(Member_plans, Are_those_that_each_set_would_be_given_by_itself) {
  const text::Typesetter typesetter;
  SheetRequest request;
  request.figure = support::demo_svg("heart");
  request.terms = support::demo_terms("heart");
  request.kinds = {SheetKind::poster};
  request.one_layout = true;
  request.titles.by = {{"en", "A heart"}, {"de", "Ein Herz"}};
  MemberPlans first;
  for (const std::string& set : support::demo_sets("heart")) {
    request.set = set;
    const auto loaded = load_to_compose(request, usual_environment(), typesetter);
    ASSERT_TRUE(loaded.ok());
    const auto all = member_plans(**loaded, Placing::shared, request.orientation, typesetter, nullptr);
    ASSERT_TRUE(all.ok());
    if (first.empty()) first = *all;
    ASSERT_EQ(all->size(), first.size());
    for (const auto& [name, planned] : *all)
      EXPECT_EQ(bits(*planned), bits(*first.at(name))) << name << " asked for as " << set;
    const auto own = shared_plan(**loaded, request.orientation, typesetter, nullptr);
    ASSERT_TRUE(own.ok());
    EXPECT_EQ(bits(*own), bits(*first.at(set))) << set;
    const auto numbered =
        member_plans(**loaded, Placing::numbered, request.orientation, typesetter, nullptr);
    EXPECT_EQ(bits(*numbered_plan(**loaded, request.orientation, typesetter)), bits(*numbered->at(set)));
    const auto bare = member_plans(**loaded, Placing::bare, request.orientation, typesetter, nullptr);
    EXPECT_EQ(bits(*bare_plan(**loaded, request.orientation, typesetter)), bits(*bare->at(set)));
  }
}

// A pack of the demo's tooth for readers of two ages who share one layout.
struct ToothPack {
  support::Scratch scratch;
  ToothPack() {
    for (const char* file : {"tooth.svg", "tooth.terms.yaml"})
      fs::copy_file(fs::path(support::demo_svg("tooth")).parent_path() / file, scratch / file);
    support::write(scratch / "p.yaml",
                   "title: Teeth\npapers: a4\nsets: [little, middle]\nkinds: [poster, worksheet]\n"
                   "figures:\n  tooth: {terms: tooth.terms.yaml, one-layout: yes}\n");
  }
  void change(const std::string& what, const std::string& by) const {
    std::string text = support::bytes_of(scratch / "tooth.terms.yaml");
    const std::size_t at = text.find(what);
    ASSERT_NE(at, std::string::npos);
    support::write(scratch / "tooth.terms.yaml", text.replace(at, what.size(), by));
  }
  MadePack make(const std::string& out, const std::string& cache) const {
    PackRequest request;
    request.manifest = scratch / "p.yaml";
    request.out = scratch / out;
    request.cache = scratch / cache;
    request.jobs = 2;
    const auto made = make_pack(request, usual_environment());
    EXPECT_TRUE(made.ok()) << to_json(made.findings());
    return made.ok() ? *made : MadePack{};
  }
  std::map<std::string, std::string> files(const std::string& out) const {
    std::map<std::string, std::string> all;
    for (const auto& entry : fs::directory_iterator(scratch / out))
      all[entry.path().filename()] = support::bytes_of(entry.path());
    return all;
  }
};

TEST(Family, Makes_only_the_parts_of_the_set_whose_word_changed_while_the_leaders_stay) {
  const ToothPack pack;
  EXPECT_EQ(pack.make("out", "cache").parts_made, 2);
  const auto before = pack.files("out");
  // Shorter than what stands beside it in the other sets: no box grows.
  pack.change("middle: Crown,", "middle: Cap,");
  EXPECT_EQ(pack.make("out", "cache").parts_made, 1);
  const auto after = pack.files("out");
  EXPECT_EQ(after.at("p-little-a4.pdf"), before.at("p-little-a4.pdf"));
  EXPECT_NE(after.at("p-middle-a4.pdf"), before.at("p-middle-a4.pdf"));
  EXPECT_EQ(pack.make("out", "cache").parts_made, 0);
  pack.make("cold", "another");
  EXPECT_EQ(pack.files("cold"), after);
}

TEST(Family, Makes_all_parts_whose_leaders_a_longer_word_moves) {
  const ToothPack pack;
  pack.make("out", "cache");
  pack.change("middle: Crown,", "middle: The part of a tooth that is seen,");
  EXPECT_EQ(pack.make("out", "cache").parts_made, 2);
  pack.make("cold", "another");
  EXPECT_EQ(pack.files("cold"), pack.files("out"));
}

}  // namespace
