#include "platewright/style.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <utility>

#include "finding_matchers.hpp"
#include "read/read.hpp"
#include "read/style_fields.hpp"
#include "read/yaml.hpp"

namespace platewright {
namespace {

const std::string shipped_styles = PW_SOURCE_DIR "/styles";

class Style_files : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(::testing::TempDir()) /
              (std::string("pw-style-") +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  void write(const std::string& name, const std::string& text) {
    std::ofstream(folder_ / (name + ".yaml")) << text;
  }
  Result<Style> read(const std::string& text) {
    write("mine", text);
    return read::style("mine", {folder_.string(), shipped_styles});
  }
  Findings findings_of(const std::string& text) { return read(text).findings(); }
  std::string faults(const std::string& text) { return places_and_codes(findings_of(text)); }
  std::filesystem::path folder_;
};

// A value of any type, to count the members of an aggregate: the largest number
// of them that it can be initialised with.
struct AnyValue {
  template <class T>
  operator T() const;  // NOLINT(google-explicit-constructor)
};

template <class T, std::size_t... I>
constexpr bool takes(std::index_sequence<I...>) {
  return requires { T{((void)I, AnyValue{})...}; };
}

template <class T, std::size_t N = 40>
constexpr std::size_t member_count() {
  if constexpr (N == 0 || takes<T>(std::make_index_sequence<N>{}))
    return N;
  else
    return member_count<T, N - 1>();
}

std::size_t keys_in(std::string_view section) {
  std::size_t count = 0;
  for (const auto& field : read::style_fields()) count += field.section == section;
  return count;
}

TEST(Style_keys, Every_member_of_a_style_has_one) {
  EXPECT_EQ(keys_in("page"), member_count<PageStyle>());
  EXPECT_EQ(keys_in("type"), member_count<TypeStyle>());
  EXPECT_EQ(keys_in("leader"), member_count<LeaderStyle>());
  EXPECT_EQ(keys_in("rules"), member_count<RuleStyle>());
  EXPECT_EQ(keys_in("cost"), member_count<CostStyle>());
  EXPECT_EQ(keys_in("calm"), member_count<CalmStyle>());
  EXPECT_EQ(keys_in("groups"), member_count<GroupStyle>());
  EXPECT_EQ(keys_in("ruling"), member_count<RulingStyle>());
  EXPECT_EQ(keys_in("true-size"), member_count<TrueSizeStyle>());
  EXPECT_EQ(keys_in("review"), member_count<ReviewStyle>());
  EXPECT_EQ(keys_in("proof"), member_count<ProofStyle>());
  EXPECT_EQ(keys_in("pack"), member_count<PackStyle>());
  EXPECT_EQ(read::age_fields().size() + 1, member_count<AgeRow>());
  EXPECT_EQ(read::puzzle_fields().size() + 1, member_count<PuzzleRow>());
  // name, description, twelve sections, ages, puzzles, sets, then the members without a section.
  EXPECT_EQ(keys_in("output") + keys_in("art") + 17, member_count<Style>());
}

TEST(Style_keys, Each_has_a_place_of_its_own) {
  Style style;
  std::set<const void*> places;
  for (const auto& field : read::style_fields()) {
    const void* place =
        std::visit([](auto* p) { return static_cast<const void*>(p); }, field.target(style));
    EXPECT_TRUE(places.insert(place).second) << field.section << ' ' << field.key;
  }
}

// classroom.yaml is the reference that people read: complete, and the default.
TEST(Style_keys, The_classroom_style_shows_every_key) {
  std::ifstream file(shipped_styles + "/classroom.yaml");
  std::ostringstream text;
  text << file.rdbuf();
  read::Reading reading{"classroom.yaml", {}};
  const read::YamlNode root = read::parse_yaml(text.str(), reading);
  for (const auto& field : read::style_fields()) {
    bool shown = false;
    for (const auto& section : root.entries)
      for (const auto& entry : section.value.entries)
        shown = shown || (section.key.text == field.section && entry.key.text == field.key);
    EXPECT_TRUE(shown) << field.section << ' ' << field.key;
  }
}

TEST(Style_keys, The_classroom_style_is_the_default) {
  auto classroom = read::style("classroom", {shipped_styles});
  ASSERT_TRUE(classroom) << all_text(classroom.findings());
  Style standard;
  for (const auto& field : read::style_fields()) {
    const auto theirs = field.target(classroom.value());
    const auto ours = field.target(standard);
    std::visit(
        [&](auto* a) {
          auto* b = std::get<decltype(a)>(ours);
          if constexpr (std::is_same_v<decltype(a), Length*>)
            EXPECT_NEAR(a->mm(), b->mm(), 1e-12) << field.section << ' ' << field.key;
          else
            EXPECT_EQ(*a, *b) << field.section << ' ' << field.key;
        },
        theirs);
  }
  ASSERT_EQ(classroom->ages.size(), standard.ages.size());
  for (std::size_t i = 0; i < standard.ages.size(); ++i) {
    EXPECT_EQ(classroom->ages[i].up_to, standard.ages[i].up_to);
    for (const auto& field : read::age_fields())
      EXPECT_NEAR((classroom->ages[i].*field.member).mm(), (standard.ages[i].*field.member).mm(),
                  1e-12)
          << i << ' ' << field.key;
  }
  ASSERT_EQ(classroom->puzzles.size(), standard.puzzles.size());
  for (std::size_t i = 0; i < standard.puzzles.size(); ++i) {
    EXPECT_EQ(classroom->puzzles[i].up_to, standard.puzzles[i].up_to);
    for (const auto& field : read::puzzle_fields())
      EXPECT_EQ(classroom->puzzles[i].*field.member, standard.puzzles[i].*field.member)
          << i << ' ' << field.key;
  }
}

// School biology, as examiners ask for it: ruled thin lines, no arrowheads or
// dots, horizontal where possible (CXC biology SBA guidance).
TEST(Shipped_styles, School_biology_has_bare_ruled_leaders) {
  const auto style = read::style("school-biology", {shipped_styles});
  EXPECT_EQ(style->leader.mark, LeaderMark::none);
  EXPECT_LT(style->leader.width, Style{}.leader.width);
  EXPECT_GT(style->cost.slope, 2 * Style{}.cost.slope);
}

// Press practice: bleed 3 mm, crop marks 0.25 pt and 5 to 6 mm long, safe zone 3 to 6 mm.
TEST(Shipped_styles, Press_has_bleed_and_crop_marks) {
  const auto style = read::style("press", {shipped_styles});
  EXPECT_DOUBLE_EQ(style->page.bleed.mm(), 3.0);
  EXPECT_TRUE(style->page.crop_marks);
  EXPECT_NEAR(style->page.crop_mark_width.pt(), 0.25, 1e-12);
  EXPECT_GE(style->page.margin, Length::mm(6));
}

TEST(Shipped_styles, Large_print_is_never_smaller_than_18_pt) {
  const auto style = read::style("large-print", {shipped_styles});
  for (const AgeRow& row : style->ages) EXPECT_GE(row.text_floor.pt(), 18 - 1e-9) << row.up_to;
}

TEST(Shipped_styles, Ink_saver_prints_outlines) {
  EXPECT_TRUE(read::style("ink-saver", {shipped_styles})->outline_art);
}

TEST_F(Style_files, A_style_says_only_what_differs) {
  const auto style = read(
      "extends: press\ndescription: Ours\npage: {margin: 1 in}\n"
      "type: {face: Comic Neue, further-faces: [Noto Sans, DejaVu Sans]}\n"
      "leader: {mark: dot, colour: \"#abc\"}\nart: {tint: 0.5}\n");
  ASSERT_TRUE(style) << all_text(style.findings());
  EXPECT_EQ(style->name, "mine");
  EXPECT_EQ(style->description, "Ours");
  EXPECT_DOUBLE_EQ(style->page.margin.in(), 1.0);
  EXPECT_TRUE(style->page.crop_marks);
  EXPECT_EQ(style->type.further_faces, (std::vector<std::string>{"Noto Sans", "DejaVu Sans"}));
  EXPECT_EQ(style->leader.mark, LeaderMark::dot);
  EXPECT_EQ(style->leader.colour, (Colour{0xaa, 0xbb, 0xcc}));
  EXPECT_DOUBLE_EQ(style->art_tint, 0.5);
}

TEST_F(Style_files, Ages_replace_the_list_and_take_missing_keys_from_it) {
  const auto style =
      read("extends: classroom\nages:\n  - {up-to: 7, text-wanted: 30 pt}\n  - {up-to: 99}\n");
  ASSERT_TRUE(style) << all_text(style.findings());
  ASSERT_EQ(style->ages.size(), 2U);
  EXPECT_NEAR(style->for_age(5).text_wanted.pt(), 30, 1e-12);
  EXPECT_NEAR(style->for_age(5).pitch.mm(), 8, 1e-12);
  EXPECT_NEAR(style->for_age(12).text_wanted.pt(), 12, 1e-12);
}

TEST_F(Style_files, Sets_carry_the_properties_that_a_csv_cannot) {
  const auto style = read("extends: classroom\nsets: {klein: {ages: 4-6, language: de}}\n");
  ASSERT_TRUE(style) << all_text(style.findings());
  const auto terms = read::terms("anchor,klein\na,A\n", "t.csv", style->sets);
  ASSERT_TRUE(terms);
  EXPECT_TRUE(terms.findings().empty()) << all_text(terms.findings());
  EXPECT_EQ(terms->sets[0].oldest, 6);
  EXPECT_EQ(terms->sets[0].language, "de");
}

TEST_F(Style_files, Is_found_by_name_or_by_path) {
  write("mine", "extends: base\n");
  write("base", "page: {margin: 20 mm}\n");
  const auto by_path = read::style((folder_ / "mine.yaml").string(), {shipped_styles});
  ASSERT_TRUE(by_path) << all_text(by_path.findings());
  EXPECT_DOUBLE_EQ(by_path->page.margin.mm(), 20);
  EXPECT_TRUE(
      has_code(read::style((folder_ / "none.yaml").string(), {}).findings(), "file-missing"));
}

TEST_F(Style_files, One_of_ours_may_extend_the_shipped_one_of_the_same_name) {
  write("classroom", "extends: classroom\npage: {margin: 20 mm}\n");
  const auto style = read::style("classroom", {folder_.string(), shipped_styles});
  ASSERT_TRUE(style) << all_text(style.findings());
  EXPECT_DOUBLE_EQ(style->page.margin.mm(), 20);
}

TEST_F(Style_files, An_unknown_style_comes_with_the_nearest_known_one) {
  const auto findings = read::style("clasroom", {shipped_styles}).findings();
  EXPECT_EQ(places_and_codes(findings), "0:0 style-unknown");
  EXPECT_EQ(findings[0].advice, "did you mean \"classroom\"");
  EXPECT_EQ(faults("extends: pres\n"), "1:10 style-unknown");
  EXPECT_EQ(faults("extends: ../press\n"), "1:10 style-extends");
}

TEST_F(Style_files, A_ring_of_extends_is_a_finding) {
  write("one", "extends: two\n");
  write("two", "extends: one\n");
  EXPECT_TRUE(has_code(read::style("one", {folder_.string()}).findings(), "style-cycle"));
  write("self", "extends: self\n");
  EXPECT_TRUE(has_code(read::style("self", {folder_.string()}).findings(), "style-cycle"));
  // Where no other folder has one of that name either.
  EXPECT_TRUE(has_code(read::style((folder_ / "self.yaml").string(), {shipped_styles}).findings(),
                       "style-cycle"));
}

TEST_F(Style_files, Unknown_keys_and_sections_are_findings) {
  EXPECT_EQ(faults("pages: {margin: 20 mm}\n"), "1:1 key-unknown");
  EXPECT_EQ(faults("page: {margins: 20 mm}\n"), "1:8 key-unknown");
  EXPECT_EQ(findings_of("page: {margins: 20 mm}\n")[0].advice, "did you mean \"margin\"");
  EXPECT_EQ(faults("page: {margin: 20 mm, margin: 3 mm}\n"), "1:23 key-duplicate");
  EXPECT_EQ(faults("page: 12\n"), "1:7 not-a-map");
}

TEST_F(Style_files, Values_of_the_wrong_kind_are_findings) {
  EXPECT_EQ(faults("page: {margin: 20}\n"), "1:16 length-invalid");
  EXPECT_EQ(faults("page: {margin: [20 mm]}\n"), "1:16 style-value");
  EXPECT_EQ(faults("page: {background: blue}\n"), "1:20 colour-invalid");
  EXPECT_EQ(faults("page:\n  background: #fff\n"), "2:3 colour-invalid");
  EXPECT_EQ(faults("page: {title: maybe}\n"), "1:15 style-value");
  EXPECT_EQ(faults("type: {leading: wide}\n"), "1:17 style-value");
  EXPECT_EQ(faults("type: {leading: .nan}\n"), "1:17 style-value");
  EXPECT_EQ(faults("type: {most-lines: 2.5}\n"), "1:20 style-value");
  EXPECT_EQ(faults("type: {face: \"\"}\n"), "1:14 style-value");
  EXPECT_EQ(faults("type: {further-faces: Andika}\n"), "1:23 style-value");
  EXPECT_EQ(faults("leader: {mark: dots}\n"), "1:16 style-value");
  EXPECT_EQ(faults("ages: 12\n"), "1:7 style-value");
  EXPECT_EQ(faults("ages: [{text-wanted: 12 pt}]\n"), "1:8 style-value");
  EXPECT_EQ(faults("- a\n"), "1:1 style-value");
  EXPECT_TRUE(has_code(findings_of(""), "style-value"));
}

TEST_F(Style_files, Values_out_of_range_are_findings) {
  EXPECT_EQ(faults("page: {margin: -1 mm}\n"), "1:16 style-range");
  EXPECT_EQ(faults("page: {margin: 2.9 mm}\n"), "1:16 style-range");
  EXPECT_EQ(faults("rules: {label-gap: 0.5 mm}\n"), "1:20 style-range");
  EXPECT_EQ(faults("rules: {leader-gap: 0.7 mm}\n"), "1:21 style-range");
  EXPECT_EQ(faults("rules: {anchor-gap: 0.9 mm}\n"), "1:21 style-range");
  EXPECT_EQ(faults("type: {most-lines: 0}\n"), "1:20 style-range");
  EXPECT_EQ(faults("cost: {slope: -1}\n"), "1:15 style-range");
  EXPECT_EQ(faults("art: {tint: 1.5}\n"), "1:13 style-range");
  EXPECT_EQ(faults("leader: {gutter: 40 mm}\n"), "0:0 style-range");
  EXPECT_EQ(faults("ages: [{up-to: 99, text-wanted: 15 pt, text-floor: 16 pt}]\n"),
            "1:8 style-range");
  EXPECT_TRUE(read("rules: {label-gap: 1 mm, leader-gap: 0.8 mm, anchor-gap: 1 mm}\n").ok());
}

// The ends of every range are allowed and what lies beyond is not: nothing in
// the table is out of reach.
TEST_F(Style_files, Every_default_lies_within_its_range) {
  Style style;
  for (const auto& field : read::style_fields()) {
    const auto target = field.target(style);
    double value = 0;
    if (const auto* length = std::get_if<Length*>(&target))
      value = (*length)->mm();
    else if (const auto* number = std::get_if<double*>(&target))
      value = **number;
    else if (const auto* whole = std::get_if<int*>(&target))
      value = **whole;
    else
      continue;
    EXPECT_LE(field.least, value) << field.section << ' ' << field.key;
    EXPECT_GE(field.most, value) << field.section << ' ' << field.key;
    EXPECT_LT(field.least, field.most) << field.section << ' ' << field.key;
  }
}

TEST_F(Style_files, Ages_must_be_sorted_and_low_floors_are_a_warning) {
  EXPECT_TRUE(has_code(findings_of("ages: [{up-to: 10}, {up-to: 6}]\n"), "ages-order"));
  EXPECT_TRUE(
      has_code(findings_of("puzzles: [{up-to: 10}, {up-to: 6}]\n"), "puzzles-order"));
  EXPECT_TRUE(has_code(findings_of("puzzles: [{up-to: 10, directions: 3}]\n"), "style-range"));
  EXPECT_TRUE(has_code(findings_of("puzzles: [{up-to: 10, grid: 400}]\n"), "style-range"));
  EXPECT_TRUE(has_code(findings_of("puzzles: 7\n"), "style-value"));
  const auto low = read("ages: [{up-to: 6, text-floor: 12 pt}, {up-to: 99}]\n");
  EXPECT_TRUE(low.ok());  // the second row is for sevens too, and takes over 8 pt
  EXPECT_EQ(places_and_codes(low.findings()), "1:8 text-floor-low\n1:39 text-floor-low");
}

TEST_F(Style_files, Weak_contrast_is_a_warning) {
  const auto weak = read("type: {ink: \"#aaaaaa\"}\n");
  EXPECT_TRUE(weak.ok());
  EXPECT_EQ(places_and_codes(weak.findings()), "0:0 contrast-low");
}

TEST_F(Style_files, All_faults_are_told_at_once) {
  EXPECT_EQ(faults("page: {margin: 1, bled: 3 mm}\nleader: {mark: x}\n"),
            "1:16 length-invalid\n1:19 key-unknown\n2:16 style-value");
}

TEST(Style_names, Lists_styles_and_no_words_files) {
  for (const std::string& name : read::style_names({shipped_styles, "/nowhere/at/all"}))
    EXPECT_FALSE(name.starts_with("words")) << name;
}

}  // namespace
}  // namespace platewright
