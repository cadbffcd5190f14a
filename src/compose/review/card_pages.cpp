#include "compose/review/card_pages.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "compose/guides.hpp"
#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr double head_room = 3.2;  // mm for a line of small type above and below the cards
constexpr double head_pt = 8;
constexpr double below_line = 0.25;  // ems that letters reach below their baseline

// One line in the room above or below the cards, smaller until it fits: its letters keep to the
// side away from the cards.
void add_line(Page& page, const SheetInput& input, Role role, const std::string& text, double top,
              double width, double left, Colour colour) {
  text::Font font{faces(*input.style), Length::pt(head_pt), false, false};
  text::Line line = input.typesetter->line(text, font, input.matter.language);
  if (line.advance > width) {
    font.size = font.size * (width / line.advance);
    line = input.typesetter->line(text, font, input.matter.language);
  }
  const PageBox box{left, top, width, head_room};
  page.items.push_back(Group{role,
                             {},
                             {text_at(line, start_of(input, box),
                                      role == Role::footer
                                          ? top + head_room - below_line * font.size.mm()
                                          : top + line.ink_top,
                                      at_start(input), colour)}});
}

Page bare_page(const SheetInput& input, const CardPaper& paper, std::string_view kind,
               const std::string& head) {
  const Frame& f = paper.plan.frame;
  Page page;
  page.width = f.width;
  page.height = f.height;
  page.language = input.matter.language;
  const std::string& name = input.words->at(kind);
  page.title = input.matter.title.empty() ? name : input.matter.title + " – " + name;
  page.description = page.title + ". " + head;
  const PageBox first = paper.grid.box(0, 0);
  const PageBox last = paper.grid.box(paper.grid.columns - 1, paper.grid.rows - 1);
  const double width = f.width - 2 * f.margin;
  if (!head.empty())
    add_line(page, input, Role::instruction, input.matter.title + " · " + head,
             std::max(f.margin, first.top() - 1 - head_room), width, f.margin,
             input.style->type.ink);
  std::string credit;
  const auto add = [&](const std::string& part) { credit += (credit.empty() ? "" : " · ") + part; };
  if (!input.matter.credit.empty())
    add(fill(input.words->at("credit"), "credit", input.matter.credit));
  if (!input.matter.licence.empty())
    add(fill(input.words->at("licence"), "licence", input.matter.licence));
  add(input.words->at("learning-note"));
  if (!head.empty())
    add_line(page, input, Role::footer, credit,
             std::min(f.height - f.margin - head_room, last.bottom() + 1), width, f.margin,
             input.style->type.quiet_ink);
  return page;
}

}  // namespace

CardPaper card_paper(const SheetInput& input) {
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
    trial.grid = card_grid(f.width, f.height, f.margin, f.margin + head_room,
                           style.card.width.mm(), style.card.height.mm());
    // Turning over the long edge turns wide paper over its horizontal one.
    trial.over_horizontal = (f.width > f.height) != style.short_edge;
    if (best.grid.columns == 0 || trial.grid.count() > best.grid.count()) best = std::move(trial);
  }
  return best;
}

Result<std::vector<Page>> card_pages(const SheetInput& input, std::string_view kind,
                                     const std::string& instruction,
                                     const std::vector<Card>& cards) {
  const CardPaper paper = card_paper(input);
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
  const std::string both = in.words->at(style.short_edge ? "print-both-sides-short"
                                                         : "print-both-sides");
  const std::string caution = scissors_words(*in.words, in.matter.youngest);
  const Pen cut{in.style->type.ink, in.style->true_size.cut_width.mm(), {}, false};
  const double inset = 2 * style.drift.mm();
  std::vector<Page> pages;
  for (std::size_t first = 0; first < cards.size(); first += static_cast<std::size_t>(grid.count())) {
    Page front = bare_page(in, paper, kind,
                           instruction + " " + caution + " " + both);
    Page back = bare_page(in, paper, kind, "");
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
      front.items.push_back(std::move(face));
      const BackPlace place = back_place(grid, shown, row, paper.over_horizontal);
      const PageBox behind = grid.box(place.column, place.row);
      Group other{Role::plain, {}, {}};
      cards[first + i].back(other, in, behind.grown(-inset));
      if (place.turned) {
        other.turn = 180;
        other.pivot = behind.centre();
      }
      back.items.push_back(std::move(other));
    }
    // Beside a line that is cut across, clear of the words above and below.
    const PageBox first_card = grid.box(0, 0);
    if (grid.rows > 1)
      add_scissors(lines, {first_card.left() - 1, first_card.bottom()}, Way::across,
                   {in.style->type.ink, 0.3, {}, true});
    front.items.push_back(std::move(lines));
    pages.push_back(std::move(front));
    pages.push_back(std::move(back));
  }
  return pages;
}

}  // namespace platewright::compose
