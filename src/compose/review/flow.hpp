// What review pages share: pages with their title and instruction, blocks that flow down
// them, type in the reader's size, and pictures of one part of the figure.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/random.hpp"
#include "compose/parts.hpp"
#include "compose/plan.hpp"

namespace platewright::compose {

inline constexpr int bank_age = 10;  // readers up to this age see the words to choose from

// One kind's pages in the making: its sheet, or its key, which has no line for a name.
class ReviewPages {
 public:
  ReviewPages(const SheetInput& input, std::string_view kind, std::string instruction, bool key);
  // For boards and the like: what nobody writes on has no line for a name.
  void unnamed() { named_ = false; }
  ReviewPages(const ReviewPages&) = delete;
  ReviewPages& operator=(const ReviewPages&) = delete;

  Page& begin();                          // the name line stands on the first page
  Page& current() { return pages_.back(); }
  bool empty() const { return pages_.empty(); }
  const SheetInput& input() const { return input_; }  // its plan's frame has room for the instruction
  PageBox area() const { return plan_.frame.area; }
  bool key() const { return key_; }
  std::vector<Page> take() { return std::move(pages_); }

 private:
  Plan plan_;
  SheetInput input_;
  std::string kind_;
  std::string instruction_;
  bool key_;
  bool named_ = true;
  std::vector<Page> pages_;
};

bool leads_right(const SheetInput& input);
// x of a box's starting edge, where reading begins, and of its far edge.
double start_of(const SheetInput& input, const PageBox& box);
double end_of(const SheetInput& input, const PageBox& box);
Align at_start(const SheetInput& input);
Align at_end(const SheetInput& input);
// The part of a box from `from` to `from + width`, counted from its starting edge.
PageBox part_of(const SheetInput& input, const PageBox& box, double from, double width);

// Sizes of type to try, wanted first and floor last.
std::vector<Length> reading_sizes(const SheetInput& input);
text::Font reading_font(const SheetInput& input, Length size, bool bold = false);

// Sets a paragraph and draws it from `top` at the starting edge of `box`, or in its middle.
// The smallest type that the readers of the sheet are given.
Length floor_of(const SheetInput& input);

text::Block set_text(const SheetInput& input, std::string_view text, const text::Font& font,
                     double width);
void add_text(Group& group, const SheetInput& input, const text::Block& block, const PageBox& box,
              double top, Colour colour, bool centred = false);
// One line in the middle of a box, set smaller until it fits; two lines before very small type.
void add_centred(Group& group, const SheetInput& input, std::string_view text,
                 const text::Font& font, const PageBox& box, Colour colour);

// Something as wide as the area (or a column of it), drawn where it comes to stand.
struct FlowBlock {
  double height = 0;
  std::function<void(Group&, const PageBox&)> draw;
  bool keep_with_next = false;  // a heading
};
// Blocks down as many pages as they take, evenly spread where one page has room to spare.
// `blocks_at` is asked in ever smaller type until one page holds them all; if none does, the
// largest type that takes no more pages than a middling size.
void flow(ReviewPages& pages, double gap,
          const std::function<std::vector<FlowBlock>(const text::Font&, double width)>& blocks_at);

// A window on the figure around an anchor, its part in the middle, drawn into `box` with a
// mark on the part. `context`: how much of the surroundings shows, in sizes of the part.
void add_part_picture(Group& group, const SheetInput& input, std::string_view anchor,
                      const PageBox& box, double context, bool marked);
// The whole figure as large as `box` takes it, in its middle.
FigureToPage fit_figure(const Figure& figure, const PageBox& box);

// The figure's own outer border, rounded, nothing of its inside.
PathItem silhouette_of(const Figure& figure, const FigureToPage& to_page, const Pen& pen);

// Pages of a key that show, six a page, where each part lies, its name and its clue.
void add_part_key(ReviewPages& key, const std::vector<StudyTerm>& terms);

// The terms in an order dealt by `random`; at most `most`, 0: all.
std::vector<StudyTerm> dealt(std::vector<StudyTerm> terms, std::size_t most, Random& random);

// "Check code ..." for the footers of sheet and key.
std::string code_note(const SheetInput& input);

// A word as puzzles and labels in rows show it: without soft hyphens and line breaks.
std::string plain(std::string_view text);
// The same without what stands in brackets: "Trachea (windpipe)" is "Trachea".
std::string short_name(std::string_view text);

}  // namespace platewright::compose
