// Two columns to join by lines: words and their clues, or, for readers too young for
// clues, pictures of the parts and their words.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

constexpr double dot_radius = 1.1;      // mm
constexpr double word_share = 0.32;     // of the width, for words beside clues
constexpr double middle_share = 0.2;    // free for lines
constexpr double row_gap = 3;           // mm

// Rows of one page: how many fit a reader's eye.
std::size_t most_rows(const SheetInput& input) {
  const int age = input.matter.youngest;
  return age <= 5 ? 5 : age <= 7 ? 6 : age <= 10 ? 8 : 10;
}

// Which row of the right column belongs to each row of the left: never all in their place.
std::vector<std::size_t> crossed(std::size_t n, Random& random) {
  std::vector<std::size_t> to(n);
  for (std::size_t i = 0; i < n; ++i) to[i] = i;
  for (int attempt = 0; attempt < 50; ++attempt) {
    shuffle(to, random);
    std::size_t fixed = 0;
    for (std::size_t i = 0; i < n; ++i) fixed += to[i] == i;
    if (fixed <= n / 4) break;
  }
  return to;
}

struct Columns {
  PageBox left, right;
  double left_dot, right_dot;  // x
};

Columns columns_of(const SheetInput& input, const PageBox& area, double left_share) {
  const double left = left_share * area.w, free = middle_share * area.w;
  Columns c;
  c.left = part_of(input, area, 0, left);
  c.right = part_of(input, area, left + free, area.w - left - free);
  const double out = leads_right(input) ? 3.5 : -3.5;
  c.left_dot = end_of(input, c.left) + out;
  c.right_dot = start_of(input, c.right) - out;
  return c;
}

void page_of(ReviewPages& pages, const std::vector<StudyTerm>& terms,
             const std::vector<std::size_t>& to, bool pictures) {
  const SheetInput& input = pages.input();
  Page& page = pages.begin();
  const PageBox area = pages.area();
  const Columns columns = columns_of(input, area, pictures ? 0.36 : word_share);
  const auto n = static_cast<double>(terms.size());
  const double step = area.h / n;
  const Colour ink = input.style->type.ink;
  Group group{Role::blank_list, {}, {}};

  // One size of type for all: the largest at which every text fits its row.
  text::Font words = reading_font(input, reading_sizes(input).front(), true);
  text::Font clues = reading_font(input, reading_sizes(input).front());
  for (const Length size : reading_sizes(input)) {
    words.size = clues.size = size;
    bool fits = true;
    for (const StudyTerm& term : terms) {
      const std::string word = plain(term.text);
      fits = fits && set_text(input, word, words, pictures ? columns.right.w : columns.left.w)
                             .height <= step - row_gap;
      if (pictures) continue;
      fits = fits && set_text(input, plain(term.clue), clues, columns.right.w).height <=
                         step - row_gap;
    }
    if (fits) break;
  }

  const auto row_box = [&](const PageBox& column, std::size_t row) -> PageBox {
    return {column.x, area.top() + static_cast<double>(row) * step, column.w, step};
  };
  const auto put = [&](const std::string& text, const text::Font& font, const PageBox& box,
                       bool to_dot) {
    const text::Block block = set_text(input, text, font, box.w);
    const double top = box.centre().y - block.height / 2;
    if (!to_dot) return add_text(group, input, block, box, top, ink);
    double baseline = top + block.lines.front().ascent;
    for (const text::Line& line : block.lines) {
      group.items.push_back(text_at(line, end_of(input, box), baseline, at_end(input), ink));
      baseline += block.leading;
    }
  };
  for (std::size_t i = 0; i < terms.size(); ++i) {
    const PageBox left = row_box(columns.left, i), right = row_box(columns.right, to[i]);
    if (pictures) {
      PageBox frame = left;
      frame.h = std::min(step - row_gap, left.w * 0.75);
      frame.w = std::min(left.w, frame.h * 1.35);
      frame.x = leads_right(input) ? left.right() - frame.w : left.left();
      frame.y = left.centre().y - frame.h / 2;
      add_part_picture(group, input, terms[i].anchor, frame, 1.5, true);
      group.items.push_back(
          rectangle(frame, std::nullopt, Pen{input.style->ruling.base, 0.4, {}, true}));
      put(plain(terms[i].text), words, right, false);
    } else {
      put(plain(terms[i].text), words, left, true);
      put(plain(terms[i].clue), clues, right, false);
    }
    const PagePoint from{columns.left_dot, left.centre().y};
    const PagePoint end{columns.right_dot, right.centre().y};
    group.items.push_back(circle(from, dot_radius, ink, std::nullopt));
    group.items.push_back(circle(end, dot_radius, ink, std::nullopt));
    if (pages.key()) group.items.push_back(stroke(from, end, Pen{ink, 0.7, {}, true}));
  }
  page.items.push_back(std::move(group));
}

}  // namespace

Result<ComposedSheet> matching(const SheetInput& input) {
  if (Findings few = enough_terms(input, 3, "matching"); !few.empty()) return few;
  Findings warnings;
  std::vector<StudyTerm> terms = input.terms;
  const bool any_clue = std::any_of(terms.begin(), terms.end(),
                                    [](const StudyTerm& t) { return !t.clue.empty(); });
  const bool pictures = input.matter.youngest < input.style->review.clue_age || !any_clue;
  if (!pictures) {
    auto clued = with_clues(input, 3);
    if (!clued.ok()) return clued.findings();
    terms = *clued;
    warnings = clued.findings();
  } else if (!any_clue && input.matter.youngest >= input.style->review.clue_age) {
    warnings.push_back(warning("clues-missing", {input.table, 0, 0},
                               "no term has a clue: words are matched with pictures",
                               "add clue: to the rows"));
  }
  Random random(input.seed, "matching");
  terms = dealt(std::move(terms), 0, random);
  const std::string& instruction =
      input.words->at(pictures ? "instruction-matching-pictures" : "instruction-matching");
  ReviewPages sheet(input, "matching", instruction, false);
  ReviewPages key(input, "matching", instruction, true);
  const std::size_t count = (terms.size() + most_rows(input) - 1) / most_rows(input);
  for (std::size_t p = 0; p < count; ++p) {
    const auto from = static_cast<std::ptrdiff_t>(terms.size() * p / count);
    const auto end = static_cast<std::ptrdiff_t>(terms.size() * (p + 1) / count);
    const std::vector<StudyTerm> part(terms.begin() + from, terms.begin() + end);
    const std::vector<std::size_t> to = crossed(part.size(), random);
    page_of(sheet, part, to, pictures);
    page_of(key, part, to, pictures);
  }
  return {ComposedSheet{sheet.take(), key.take()}, std::move(warnings)};
}

}  // namespace platewright::compose
