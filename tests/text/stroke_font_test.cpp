// Single-stroke letters, from Debian's hershey-fonts-data.
#include "text/stroke_font.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

namespace platewright::text {
namespace {

const std::string folder = "/usr/share/hershey-fonts/";

StrokeFont sans() {
  auto font = StrokeFont::read(folder + "futural.jhf");
  if (!font) throw std::runtime_error("hershey-fonts-data is not installed");
  return *font;
}

struct Ink {
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
};

Ink ink(const StrokeText& text) {
  Ink result;
  for (const auto& stroke : text.strokes)
    for (const PagePoint& p : stroke) {
      result.left = std::min(result.left, p.x);
      result.right = std::max(result.right, p.x);
      result.top = std::min(result.top, p.y);
      result.bottom = std::max(result.bottom, p.y);
    }
  return result;
}

std::string written(const std::string& name, const std::string& bytes) {
  const auto* test = testing::UnitTest::GetInstance()->current_test_info();
  const std::string path = testing::TempDir() + test->name() + "." + name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

TEST(StrokeFont, A_capital_is_as_tall_as_asked_and_stands_on_the_baseline) {
  const auto text = sans().set("H", 10);
  ASSERT_TRUE(text);
  EXPECT_EQ(text->strokes.size(), 3u);
  EXPECT_DOUBLE_EQ(ink(*text).top, -10);
  EXPECT_DOUBLE_EQ(ink(*text).bottom, 0);
}

TEST(StrokeFont, Letters_follow_each_other_and_stay_within_the_advance) {
  const StrokeFont font = sans();
  const auto a = font.set("A", 7), b = font.set("b", 7), both = font.set("Ab", 7);
  EXPECT_DOUBLE_EQ(both->advance, a->advance + b->advance);
  EXPECT_GE(ink(*both).left, 0);
  EXPECT_LE(ink(*both).right, both->advance);
}

TEST(StrokeFont, Every_printable_ascii_character_is_covered_in_every_latin_face) {
  for (const char* face : {"futural", "futuram", "rowmans", "scripts", "cursive", "rowmant"}) {
    const auto font = StrokeFont::read(folder + face + ".jhf");
    ASSERT_TRUE(font) << face;
    for (char c = ' '; c <= '~'; ++c) {
      const auto text = font->set(std::string(1, c), 5);
      ASSERT_TRUE(text) << face << c;
      EXPECT_EQ(text->strokes.empty(), c == ' ') << face << c;
    }
  }
}

TEST(StrokeFont, Letters_of_german_french_spanish_and_their_neighbours_are_built) {
  const StrokeFont font = sans();
  for (const char* text :
       {"Herzöhrchen", "GROSSE HÄLFTE ÜBER", "weiß", "cœur gauche", "Œsophage", "façade", "naïve",
        "corazón", "pequeño", "¿Qué?", "¡Sí!", "Åsa søster Ærø væske", "žlučník Ďaleko ťava",
        "śródbłonek ą ę Łza", "şarj ığne", "țară", "vēnas ģimene ķīlis", "“Heart” – it’s 37 °C…"})
    EXPECT_TRUE(font.set(text, 8)) << text;
}

TEST(StrokeFont, A_mark_sits_above_its_letter_and_takes_no_width) {
  const StrokeFont font = sans();
  const auto plain = font.set("o", 8), marked = font.set("ö", 8), apart = font.set("o\u0308", 8);
  EXPECT_DOUBLE_EQ(plain->advance, marked->advance);
  EXPECT_LT(ink(*marked).top, ink(*plain).top);
  EXPECT_EQ(marked->strokes.size(), plain->strokes.size() + 2);
  EXPECT_EQ(apart->strokes.size(), marked->strokes.size());
}

TEST(StrokeFont, An_accent_replaces_the_dot_of_the_i) {
  const StrokeFont font = sans();
  EXPECT_EQ(font.set("í", 8)->strokes.size(), font.set("i", 8)->strokes.size());
}

TEST(StrokeFont, Other_scripts_are_not_covered) {
  for (const char* text : {"καρδιά", "сердце", "القلب", "心", "Aorta 心", "ⱥ", "a\u20dd"})
    EXPECT_FALSE(sans().set(text, 8)) << text;
}

TEST(StrokeFont, A_glyph_may_run_over_several_lines) {
  std::string bytes, folded;
  {
    std::ifstream file(folder + "futural.jhf", std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(file), {});
  }
  std::size_t column = 0;
  for (const char c : bytes) {
    folded += c;
    column = c == '\n' ? 0 : column + 1;
    if (column == 72) folded += '\n', column = 0;
  }
  ASSERT_NE(bytes, folded);
  const auto font = StrokeFont::read(written("folded.jhf", folded));
  ASSERT_TRUE(font);
  EXPECT_EQ(font->set("8&@", 5)->strokes, sans().set("8&@", 5)->strokes);
}

TEST(StrokeFont, A_broken_file_is_a_finding) {
  const std::string good = "12345  1JZ\n";
  for (const std::string& bytes :
       {std::string(), good, std::string("hello world"), std::string("12345 99JZAB\n"),
        std::string("12345  0JZ\n"), std::string("12345 -1JZ\n"), std::string("123"),
        std::string(300, '\0'), std::string(2 << 20, 'R'), [&] {
          std::string all;
          for (int i = 0; i < 96; ++i) all += good;
          return all;
        }()}) {
    const auto font = StrokeFont::read(written("broken.jhf", bytes));
    ASSERT_FALSE(font);
    EXPECT_EQ(font.findings().front().code, "stroke-font");
  }
  EXPECT_FALSE(StrokeFont::read("/no/such/file.jhf"));
}

}  // namespace
}  // namespace platewright::text
