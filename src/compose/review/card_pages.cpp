#include "compose/review/card_pages.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "compose/guides.hpp"
#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr double clear = 1.5;     // mm between the cards and the words above and below them
constexpr double least_head = 5;  // pt, where else not one card would fit
constexpr double head_step = 0.94;
constexpr double least_card = 0.8;  // of the style's card, to keep as many on a page

// The instruction above the cards, and at the foot credit and check code; backs have neither.
Page bare_page(const SheetInput& input, const CardPaper& paper, std::string_view kind, bool front) {
  Plan plan = paper.plan;
  plan.frame.title.h = 0;
  if (!front) plan.frame.footer.h = 0;
  SheetInput own = input;
  own.plan = &plan;
  Page page = start_page(own, input.words->at(kind), code_note(input));
  if (!front) return page;
  Group head{Role::instruction, {}, {}};
  const Frame& f = plan.frame;
  const double top = std::max(f.margin, paper.grid.box(0, 0).top() - clear - paper.head.height);
  add_text(head, own, paper.head, {f.margin, top, f.width - 2 * f.margin, paper.head.height}, top,
           input.style->type.ink);
  page.items.push_back(std::move(head));
  return page;
}

// The page as it lies for most cards, with the instruction in this size.
CardPaper paper_with(const SheetInput& input, const std::string& instruction, Length size) {
  const ReviewStyle& style = input.style->review;
  CardPaper best;
  for (const Orientation way : {Orientation::portrait, Orientation::landscape}) {
    if (input.orientation != Orientation::automatic && way != input.orientation) continue;
    CardPaper trial;
    trial.plan = *input.plan;
    trial.plan.layout.paper = oriented(input.plan->layout.paper, way);
    trial.plan.frame = frame(trial.plan.layout.paper, *input.style, input.matter, *input.words,
                             *input.typesetter);
    const Frame& f = trial.plan.frame;
    trial.head = set_text(input, instruction, reading_font(input, size), f.width - 2 * f.margin);
    const double above = f.margin + trial.head.height + clear;
    const double below = f.footer.h > 0 ? f.height - f.footer.top() + clear : f.margin;
    const double card_w = style.card.width.mm(), card_h = style.card.height.mm();
    const double free = std::max(above, below);
    trial.grid = card_grid(f.width, f.height, f.margin, free, card_w, card_h);
    // Cards a little smaller, rather than fewer on a page.
    const CardGrid full = card_grid(f.width, f.height, f.margin, f.margin, card_w, card_h);
    const double share = (f.height - 2 * free) / (full.rows * card_h);
    if (full.count() > trial.grid.count() && share >= least_card)
      trial.grid = {f.width, f.height, share * card_w, share * card_h, full.columns, full.rows};
    // Turning over the long edge turns wide paper over its horizontal one.
    trial.over_horizontal = (f.width > f.height) != style.short_edge;
    if (best.grid.columns == 0 || trial.grid.count() > best.grid.count()) best = std::move(trial);
  }
  return best;
}

}  // namespace

CardPaper card_paper(const SheetInput& input, const std::string& instruction) {
  const Length floor = input.style->for_age(input.matter.youngest).text_floor;
  CardPaper paper = paper_with(input, instruction, floor);
  // As large as other sheets' instructions where that costs no card.
  if (const Length usual = input.plan->frame.row_font.size; usual > floor)
    if (CardPaper large = paper_with(input, instruction, usual);
        large.grid.count() >= paper.grid.count())
      return large;
  for (Length size = floor; paper.grid.count() < 1 && size.pt() > least_head;) {
    size = size * head_step;
    paper = paper_with(input, instruction, size);
  }
  return paper;
}

Result<std::vector<Page>> card_pages(const SheetInput& input, std::string_view kind,
                                     const std::string& instruction,
                                     const std::vector<Card>& cards) {
  const std::string& both = input.words->at(
      input.style->review.short_edge ? "print-both-sides-short" : "print-both-sides");
  const std::string told =
      instruction + " " + scissors_words(*input.words, input.matter.youngest) + " " + both;
  const CardPaper paper =
      card_paper(input, input.matter.title.empty() ? told : input.matter.title + " · " + told);
  const CardGrid& grid = paper.grid;
  if (grid.count() < 1)
    return error("card-large", {input.style->name, 0, 0},
                 "a card of " + format_number(input.style->review.card.width.mm(), 1) + " x " +
                     format_number(input.style->review.card.height.mm(), 1) +
                     " mm does not fit this paper",
                 "take a larger paper, or a smaller card under review");
  SheetInput in = input;
  in.plan = &paper.plan;
  const ReviewStyle& style = input.style->review;
  const Pen cut{in.style->type.ink, in.style->true_size.cut_width.mm(), {}, false};
  const double inset = 2 * style.drift.mm();
  std::vector<Page> pages;
  for (std::size_t first = 0; first < cards.size(); first += static_cast<std::size_t>(grid.count())) {
    Page front = bare_page(in, paper, kind, true);
    front.description = front.title + ". " + told;
    Page back = bare_page(in, paper, kind, false);
    back.description = back.title + ". ";
    Group lines{Role::plain, {}, {}};
    const std::size_t here =
        std::min(cards.size() - first, static_cast<std::size_t>(grid.count()));
    for (std::size_t i = 0; i < here; ++i) {
      const int column = static_cast<int>(i) % grid.columns;
      const int row = static_cast<int>(i) / grid.columns;
      const int shown = leads_right(in) ? column : grid.columns - 1 - column;
      const PageBox box = grid.box(shown, row);
      lines.items.push_back(rectangle(box, std::nullopt, cut));
      Group face{Role::plain, {}, {}};
      cards[first + i].front(face, in, box.grown(-inset));
      front.items.emplace_back(std::move(face));
      const BackPlace place = back_place(grid, shown, row, paper.over_horizontal);
      const PageBox behind = grid.box(place.column, place.row);
      Group other{Role::plain, {}, {}};
      cards[first + i].back(other, in, behind.grown(-inset));
      if (place.turned) {
        other.turn = 180;
        other.pivot = behind.centre();
      }
      back.items.emplace_back(std::move(other));
    }
    // Beside a line that is cut across, clear of the words above and below.
    const PageBox first_card = grid.box(0, 0);
    if (grid.rows > 1)
      add_scissors(lines, {first_card.left() - 1, first_card.bottom()}, Way::across,
                   {in.style->type.ink, 0.3, {}, true});
    front.items.emplace_back(std::move(lines));
    pages.push_back(std::move(front));
    pages.push_back(std::move(back));
  }
  return pages;
}

}  // namespace platewright::compose
