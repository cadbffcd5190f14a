// Labels to cut out and boxes at the leaders' ends that fit them, on the poster's layout.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/guides.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr double young_gap = 8;   // mm between labels to cut, for hands that are learning
constexpr double cut_gap = 4;

// Text and box of a label: as large as the label's neighbours leave free.
struct Slip {
  const PlacedLabel* label = nullptr;
  PageBox box;       // at the leader's end
};

std::vector<Slip> slips_of(const SheetInput& input) {
  // Half of what the rules keep between labels, less the line's own width.
  const double grown = std::max(0.2, input.style->rules.label_gap.mm() / 2 - 0.35);
  std::vector<Slip> slips;
  for (const PlacedLabel* label : by_number(input.plan->layout)) {
    PageBox box = text_box(input, *label);
    box.y -= grown;
    box.h += 2 * grown;
    // Sideways there is the gap to the leader on one side, white paper on the other.
    const double side = std::min(input.style->leader.label_gap.mm() * 0.8, 2.0);
    box.x -= side;
    box.w += 2 * side;
    slips.push_back({label, box});
  }
  // Never over another's box: a pair that would touch shares the room between.
  for (Slip& a : slips)
    for (const Slip& b : slips)
      if (&a != &b && overlap(a.box, b.box)) {
        const PageBox text = text_box(input, *a.label);
        a.box = text.grown(0.1);
      }
  // Nor off the paper that prints.
  const PageBox area = input.plan->frame.area;
  for (Slip& s : slips) {
    const double left = std::max(s.box.left(), area.left() - 1.5);
    const double right = std::min(s.box.right(), area.right() + 1.5);
    s.box = {left, s.box.y, right - left, s.box.h};
  }
  return slips;
}

Page figure_page(const SheetInput& input, const std::vector<Slip>& slips, bool key) {
  Page page = start_page(input, input.words->at("paste"), code_note(input));
  if (key) page.title += " – " + input.words->at("key");
  page.description = page.title;
  add_row(page, input, input.words->at(key ? "key-mark" : "instruction-paste"), !key);
  add_figure(page, input, Art::painted,
             input.style->for_age(input.matter.youngest).colouring_line.mm());
  add_leaders(page, input);
  const Pen pen{input.style->ruling.base, 0.4, {}, true};
  for (const Slip& slip : slips) {
    Group group{Role::label, slip.label->anchor, {}};
    group.items.push_back(rectangle(slip.box, Colour{255, 255, 255}, pen, 0.8));
    if (slip.label->as_number) {
      const text::Line number = input.typesetter->line(std::to_string(slip.label->number),
                                                       input.plan->label_font,
                                                       input.matter.language);
      group.items.push_back(text_at(number, slip.box.centre().x,
                                    slip.box.centre().y + (number.ascent - number.descent) / 2,
                                    Align::centre, input.style->type.ink));
    }
    page.items.push_back(std::move(group));
  }
  if (key) add_label_texts(page, input);
  return page;
}

// The words of a label as they stand in its box.
void add_slip(Group& group, const SheetInput& input, const Slip& slip, const PageBox& box) {
  const PlacedLabel& label = *slip.label;
  const Plan& plan = *input.plan;
  const double step = plan.leading * plan.label_font.size.mm();
  const std::vector<std::string> lines =
      label.as_number ? std::vector<std::string>{plain(label.text)} : label.lines;
  std::vector<text::Line> set;
  for (const std::string& line : lines)
    set.push_back(input.typesetter->line(line, plan.label_font, input.matter.language));
  const double height = set.front().ascent + set.back().descent +
                        step * static_cast<double>(set.size() - 1);
  double baseline = box.centre().y - height / 2 + set.front().ascent;
  for (const text::Line& line : set) {
    group.items.push_back(
        text_at(line, box.centre().x, baseline, Align::centre, input.style->type.ink));
    baseline += step;
  }
}

}  // namespace

Result<ComposedSheet> paste(const SheetInput& input) {
  const std::vector<Slip> slips = slips_of(input);
  ComposedSheet sheet;
  sheet.pages.push_back(figure_page(input, slips, false));
  sheet.keys.push_back(figure_page(input, slips, true));

  // Labels that stand as numbers on the figure are pasted into numbered boxes.
  std::vector<const Slip*> dealt;
  for (const Slip& slip : slips) dealt.push_back(&slip);
  Random random(input.seed, "paste");
  shuffle(dealt, random);

  // The cut lines are the boxes' own size, in rows, with room for scissors between.
  const bool young = input.matter.youngest < input.style->true_size.young;
  const double gap = young ? young_gap : cut_gap;
  const Pen cut{input.style->type.ink, input.style->true_size.cut_width.mm(), {}, false};
  const auto size_of = [&](const Slip& slip) -> PageBox {
    if (!slip.label->as_number) return slip.box;
    const text::Line line = input.typesetter->line(plain(slip.label->text), input.plan->label_font,
                                                   input.matter.language);
    return {0, 0, line.advance + 3, line.ascent + line.descent + 1.5};
  };
  ReviewPages pages(input, "paste", input.words->at("cut-solid"), false);
  const PageBox area = pages.area();
  const auto begin = [&] {
    Page& page = pages.begin();
    Group group{Role::instruction, {}, {}};
    const text::Font font = reading_font(input, input.plan->frame.list_font.size, true);
    const text::Block caution =
        set_text(input, scissors_words(*input.words, input.matter.youngest), font, area.w - 12);
    add_text(group, input, caution, part_of(input, area, 12, area.w - 12), area.top(),
             input.style->type.ink);
    add_scissors(group, {start_of(input, area) + (leads_right(input) ? 8 : -2),
                         area.top() + caution.height / 2},
                 Way::across, {input.style->type.ink, 0.4, {}, true});
    page.items.push_back(std::move(group));
    return area.top() + caution.height + gap;
  };
  double x = 0, row = 0, y = begin();
  for (const Slip* slip : dealt) {
    const PageBox box = size_of(*slip);
    if (x > 0 && x + box.w > area.w) {
      x = 0;
      y += row + gap;
      row = 0;
    }
    if (y + box.h > area.bottom()) {
      y = begin();
      x = row = 0;
    }
    PageBox at = part_of(input, area, x, box.w);
    at.y = y;
    at.h = box.h;
    Group group{Role::plain, {}, {}};
    group.items.push_back(rectangle(at, std::nullopt, cut));
    add_slip(group, input, *slip, at);
    pages.current().items.push_back(std::move(group));
    x += box.w + gap;
    row = std::max(row, box.h);
  }
  for (Page& page : pages.take()) sheet.pages.push_back(std::move(page));
  return sheet;
}

}  // namespace platewright::compose
