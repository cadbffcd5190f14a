// The stage "text": measuring, wrapping and shaping of type. Pango and
// fontconfig stay behind this header.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "platewright/finding.hpp"
#include "platewright/geometry.hpp"
#include "platewright/length.hpp"

namespace platewright::text {

struct Font {
  std::string face = "Andika";  // family; further families after commas
  Length size = Length::pt(12);
  bool bold = false;
  bool italic = false;
  friend bool operator==(const Font&, const Font&) = default;
};

enum class Direction { left_to_right, right_to_left };

// One line set in one font; all in mm. `advance` is the width its glyphs take,
// which SVG repeats as textLength. `ascent` and `descent` are the font's own
// (logical) extents, the larger over the faces used, both positive.
struct Line {
  std::string text;       // logical order, UTF-8, soft hyphens resolved
  Font font;
  std::string language;   // BCP 47
  Direction direction = Direction::left_to_right;
  double advance = 0;
  double ascent = 0;
  double descent = 0;
  double ink_left = 0;    // ink relative to the line's left end and baseline, y up positive
  double ink_right = 0;
  double ink_top = 0;
  double ink_bottom = 0;
};

// How far ink hangs out of lines, mm: to the left of their common left end (a j at the
// beginning), to the right of their common right end (an f at the end). Never negative.
double hangs_left(const std::vector<Line>& lines);
double hangs_right(const std::vector<Line>& lines);

// A label broken into lines: `width` is the widest advance, `height` from the
// first line's ascent to the last line's descent with `leading` ems between
// baselines; first baseline `ascent` of lines[0] below the top.
struct Block {
  std::vector<Line> lines;
  double width = 0;
  double height = 0;
  double leading = 0;     // mm between baselines
};

class Typesetter {
 public:
  Typesetter();   // sets up fontconfig and Pango
  ~Typesetter();
  Typesetter(const Typesetter&) = delete;
  Typesetter& operator=(const Typesetter&) = delete;

  // One line, no breaks.
  Line line(std::string_view text, const Font& font, std::string_view language) const;

  // Broken where the text asks for it ('\n') and else into the least-ragged
  // lines: returns the ways to break with 1, 2, ... most_lines lines (each
  // kept only if narrower than the one before). Breaks fall at Unicode line-break
  // opportunities; at U+00AD a hyphen is shown. Hard '\n' count as lines and
  // are kept in every way. At least one way.
  std::vector<Block> ways(std::string_view text, const Font& font, std::string_view language,
                          double leading_ems, int most_lines) const;

  // A paragraph filled to `width` mm, left-aligned (right-aligned lines are the
  // caller's business); at least one line; a word longer than `width` is broken.
  Block paragraph(std::string_view text, const Font& font, std::string_view language,
                  double leading_ems, double width) const;

  // Where lines of a text may end, by the Unicode line-breaking algorithm (UAX 14), in bytes;
  // the text's end is the last. Spaces at a line's end come before its break.
  std::vector<std::size_t> breaks(std::string_view text, std::string_view language) const;

  // Characters of `text` that no face of the font's list has (so that they would print
  // as boxes), each once; empty when all is well. The system's other faces do not count.
  std::vector<char32_t> missing(std::string_view text, const Font& font) const;

  // The installed family that serves `face` exactly, or nothing when the first
  // family of `face` is not installed.
  bool installed(std::string_view family) const;

  // The faces that serve a family list and the versions of what shapes them: two
  // machines on which this is the same set type alike.
  std::string identity(std::string_view families) const;

  struct Impl;
  const Impl& impl() const { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

}  // namespace platewright::text
