// A composed page: a list of few kinds of drawing item, in millimetres from the
// top left corner of the trimmed page. Emitters see this and nothing else.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "platewright/colour.hpp"
#include "platewright/geometry.hpp"
#include "text/text.hpp"

namespace platewright::compose {

struct Pen {
  Colour colour;
  double width = 0.35;            // mm
  std::vector<double> dashes;     // mm; empty: solid
  bool round = true;              // caps and joins
};

struct MoveTo { PagePoint to; };
struct LineTo { PagePoint to; };
struct CurveTo { PagePoint control1, control2, to; };
struct ClosePath {};
using PathStep = std::variant<MoveTo, LineTo, CurveTo, ClosePath>;

// A drawn path: filled, stroked or both (fill first).
struct PathItem {
  std::vector<PathStep> steps;
  std::optional<Colour> fill;
  std::optional<Pen> pen;
};

// One line of type. (x, y) is the left end of its baseline.
struct TextItem {
  text::Line line;
  PagePoint at;
  Colour colour;
  std::optional<Pen> outline;   // letters to trace: outlined, not filled
};

// How the figure's art is shown.
enum class Art { painted, outlines };

// The whole figure, or one part of it, placed by `transform`; clipped to `clip`
// when given.
struct FigureItem {
  FigureToPage transform;
  Art art = Art::painted;
  double outline_width = 0.7;   // mm on paper, for outlines
  double tint = 1.0;            // 1: as drawn; less: mixed with white
  std::optional<PageBox> clip;
  int part = -1;                // which of the parts' documents; < 0: the figure
};

struct Group;

using Item = std::variant<PathItem, TextItem, FigureItem, Group>;

// What a group is, which the SVG names by class and the tests look for.
enum class Role { plain, title, label, leader, mark, blank_list, footer, instruction, word_bank, crop_marks, ruling };

// leader: holds exactly one PathItem (drawn from the label to the target), which
// becomes <path class="pw-leader">; mark: one PathItem; label: text, blank or number.
struct Group {
  Role role = Role::plain;
  std::string anchor;           // for label, leader, mark
  std::vector<Item> items;
  double turn = 0;              // degrees clockwise that all of it is turned about `pivot`
  PagePoint pivot = {};
  std::vector<PathStep> clip = {};  // nothing of it is drawn outside; turned with it; empty: no clip
};

struct Bookmark {
  std::string title;
  int level = 0;
};

struct Page {
  double width = 0;             // mm, trimmed
  double height = 0;
  double bleed = 0;             // mm beyond the trim on all sides
  double slug = 0;              // mm beyond the bleed, for crop marks
  std::string title;            // <title>, PDF bookmark
  std::string description;      // <desc>: alternative text
  std::string language;         // BCP 47
  std::string label;            // page label, "1"
  std::vector<Item> items;
};

struct Document {
  std::string title;
  std::string language;
  std::string author;           // credit; may be empty
  std::vector<Page> pages;
  bool print_scaling_off = false;
  text::Direction direction = text::Direction::left_to_right;
};

// A stable text dump, one item a line, three decimals: for tests and for seeing
// what changed.
std::string dump(const Page& page);

}  // namespace platewright::compose
