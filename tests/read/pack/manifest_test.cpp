// A pack's manifest: what it may say, and one finding with its place for each fault.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "read/read.hpp"

namespace {

using platewright::Finding;
using platewright::Manifest;
using platewright::SheetKind;

const std::string whole = R"(title: {en: Bodies, de: Körper}
papers: [a4, letter]
sets: [little, klein]
kinds: [poster, key]
keys: file
figures:
  heart: heart.terms.yaml
  child:
    terms: figures/child.terms.yaml
    versions: [as-drawn, dark]
    kinds: poster
versions:
  dark: {title: dark, tints: {skin: "#8a5a3c"}, hide: [hair], show: hat, ink-saving: no}
pages:
  reading: {en: r.en.txt, klein: r.txt}
sections:
  - {title: One, before: reading, figures: [heart, child], contents: yes}
except:
  - {figures: heart, kinds: key, papers: a4}
)";

std::string codes(const platewright::Findings& findings) {
  std::string text;
  for (const Finding& f : findings)
    text += f.code + "@" + std::to_string(f.at.line) + ":" + std::to_string(f.at.column) + " ";
  return text;
}

std::string faults(std::string text) {
  return codes(platewright::read::manifest(text, "packs/p.yaml").findings());
}

// The whole manifest with one line in place of another.
std::string with(const std::string& line, const std::string& instead) {
  std::string text = whole;
  const std::size_t at = text.find(line);
  EXPECT_NE(at, std::string::npos) << line;
  return text.replace(at, line.size(), instead);
}

TEST(Manifest, Says_of_a_figure_by_itself_whether_its_sets_share_a_layout) {
  const auto read = platewright::read::manifest(
      with("    kinds: poster\n", "    kinds: poster\n    one-layout: no\n") + "one-layout: yes\n",
      "packs/p.yaml");
  ASSERT_TRUE(read.ok()) << codes(read.findings());
  EXPECT_TRUE(read->one_layout);
  EXPECT_FALSE(read->figures[0].one_layout);
  ASSERT_TRUE(read->figures[1].one_layout);
  EXPECT_FALSE(*read->figures[1].one_layout);
}

TEST(Manifest, Says_figures_versions_pages_sections_and_exceptions) {
  const auto read = platewright::read::manifest(whole, "packs/p.yaml");
  ASSERT_TRUE(read.ok()) << codes(read.findings());
  EXPECT_EQ(codes(read.findings()), "");
  const Manifest& m = *read;
  EXPECT_EQ(m.name, "p");
  EXPECT_EQ(m.title.by.at("de"), "Körper");
  EXPECT_EQ(m.keys, platewright::KeyPlace::file);
  EXPECT_THAT(m.kinds, testing::ElementsAre(SheetKind::poster, SheetKind::key));
  ASSERT_EQ(m.figures.size(), 2U);
  EXPECT_EQ(m.figures[0].terms, "packs/heart.terms.yaml");
  EXPECT_EQ(m.figures[1].terms, "packs/figures/child.terms.yaml");
  ASSERT_TRUE(m.figures[1].kinds.has_value());
  EXPECT_THAT(*m.figures[1].kinds, testing::ElementsAre(SheetKind::poster));
  ASSERT_EQ(m.versions.size(), 1U);
  EXPECT_EQ(m.versions[0].tints[0].first.name, "skin");
  EXPECT_EQ(to_hex(m.versions[0].tints[0].second), "#8a5a3c");
  EXPECT_EQ(m.versions[0].hide[0].name, "hair");
  EXPECT_EQ(m.versions[0].show[0].name, "hat");
  EXPECT_EQ(m.pages[0].file.by.at("klein"), "packs/r.txt");
  EXPECT_TRUE(m.sections[0].contents);
  EXPECT_EQ(m.sections[0].before[0].name, "reading");
  ASSERT_EQ(m.exceptions.size(), 1U);
  EXPECT_EQ(m.exceptions[0].papers[0].name, "a4");
  EXPECT_EQ(m.style.everywhere, "classroom");
}

TEST(Manifest, Finds_each_fault_where_it_is) {
  EXPECT_EQ(faults(with("keys: file", "keys: apart")), "keys-unknown@5:7 ");
  EXPECT_EQ(faults(with("kinds: [poster, key]", "kinds: [poster, pster]")), "kind-unknown@4:17 ");
  EXPECT_EQ(faults(with("kinds: [poster, key]", "kinds: [poster, poster]")), "name-twice@4:17 ");
  EXPECT_EQ(faults(with("[a4, letter]", "[a4, letter, A4, 297 x 210 mm, 8.5x11in, a5]")),
            "paper-twice@2:22 paper-twice@2:26 paper-twice@2:40 ");
  EXPECT_EQ(faults(with("papers: [a4, letter]", "papers: [a4, lettre]")), "paper-unknown@2:14 ");
  EXPECT_EQ(faults(with("papers: a4}", "papers: a5}")), "paper-unknown@19:42 ");
  EXPECT_EQ(faults(with("[as-drawn, dark]", "[as-drawn, drak]")),
            "version-unknown@10:26 version-unused@13:3 ");
  EXPECT_EQ(faults(with("[heart, child], contents", "[heart, chld], contents")),
            "figure-unused@8:3 figure-unknown@17:52 ");
  EXPECT_EQ(faults(with("before: reading", "before: writing")),
            "page-unused@15:3 page-unknown@17:26 ");
  EXPECT_EQ(faults(with("contents: yes", "contents: maybe")), "not-yes-or-no@17:70 ");
  EXPECT_EQ(faults(with("\"#8a5a3c\"", "brown")), "colour-invalid@13:37 ");
  EXPECT_EQ(faults(with("  heart: heart.terms.yaml", "  heart: {title: Heart}")),
            "terms-missing@7:10 ");
  EXPECT_EQ(faults(with("{figures: heart, kinds: key, papers: a4}", "{}")),
            "exception-empty@19:5 ");
  EXPECT_THAT(faults(with("sections:\n  - {", "sections:\n  {")), testing::HasSubstr("not-a-list@17:3"));
  EXPECT_EQ(faults(with("keys: file", "seed: -1")), "seed-invalid@5:7 ");
  EXPECT_EQ(faults(with("keys: file", "name: a/b")), "name-invalid@5:7 ");
  EXPECT_EQ(faults(with("figures: heart,", "sets: middle,")), "set-unknown@19:12 ");
  EXPECT_EQ(faults(with("  heart: heart.terms.yaml", "  child: heart.terms.yaml")).substr(0, 14),
            "name-twice@8:3");
  EXPECT_EQ(faults(with("before: reading, figures: [heart, child]",
                        "before: reading, figures: [heart, child]}\n  - {figures: heart")),
            "figure-twice@18:15 ");
}

TEST(Manifest, Names_the_nearest_key_for_one_it_does_not_know) {
  const auto read = platewright::read::manifest(with("keys: file", "kyes: file"), "p.yaml");
  ASSERT_EQ(codes(read.findings()), "key-unknown@5:1 ");
  EXPECT_THAT(read.findings().front().advice, testing::HasSubstr("keys"));
}

TEST(Manifest, Tells_all_that_is_wrong_at_once) {
  std::string text = with("kinds: [poster, key]", "kinds: [pster]");
  text.replace(text.find("keys: file"), 10, "kyes: file");
  text.replace(text.find("[a4, letter]"), 12, "[a44]");
  const std::string all = faults(text);
  for (const char* code : {"kind-unknown", "key-unknown", "paper-unknown", "kind-missing"})
    EXPECT_THAT(all, testing::HasSubstr(code));
}

TEST(Manifest, Wants_figures_kinds_and_papers) {
  EXPECT_EQ(faults("title: A\n"), "figures-missing@1:1 kind-missing@1:1 paper-missing@1:1 ");
  EXPECT_EQ(faults(""), "manifest-shape@0:0 ");
  EXPECT_EQ(faults("[a, b]\n"), "manifest-shape@1:1 ");
}

TEST(Manifest, Warns_of_pages_that_no_section_prints) {
  EXPECT_EQ(faults(with("before: reading, ", "")), "page-unused@15:3 ");
}

}  // namespace
