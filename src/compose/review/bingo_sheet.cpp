// Bingo drawn: two cards a page, then, with the key, the caller's cards.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/guides.hpp"
#include "compose/review/bingo.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr double card_gap = 10;         // mm between two cards
constexpr std::size_t most_words = 30;  // more make games too long
constexpr int least_different = 3;      // squares of any two cards

// A star with five points, for a free square.
PathItem star(PagePoint centre, double radius, Colour fill) {
  PathItem path;
  path.fill = fill;
  for (int i = 0; i < 10; ++i) {
    const double r = i % 2 ? 0.45 * radius : radius;
    const double angle = (-90 + 36 * i) * 3.14159265358979323846 / 180;
    const PagePoint p{centre.x + r * std::cos(angle), centre.y + r * std::sin(angle)};
    if (i == 0)
      path.steps.push_back(MoveTo{p});
    else
      path.steps.push_back(LineTo{p});
  }
  path.steps.push_back(ClosePath{});
  return path;
}

void add_card(Group& group, const SheetInput& in, const BingoShape& shape,
              const std::vector<int>& card, const std::vector<StudyTerm>& words, int number,
              const PageBox& box, bool pictures) {
  const Colour ink = in.style->type.ink;
  const text::Font small =
      reading_font(in, std::max(floor_of(in), in.plan->frame.footer_font.size * 1.3));
  const text::Line name =
      in.typesetter->line(fill(in.words->at("card-number"), "number", std::to_string(number)), small,
                          in.matter.language);
  const double head = name.ascent + name.descent + 1;
  group.items.push_back(text_at(name, start_of(in, box), box.top() + name.ascent, at_start(in),
                                in.style->type.quiet_ink));
  const double w = box.w / shape.side, h = (box.h - head) / shape.side;
  const Pen pen{ink, 0.6, {}, true};
  text::Font font = reading_font(in, reading_sizes(in).front());
  for (int s = 0; s < shape.side * shape.side; ++s) {
    const int column = leads_right(in) ? s % shape.side : shape.side - 1 - s % shape.side;
    const PageBox cell{box.x + column * w, box.y + head + (s / shape.side) * h, w, h};
    group.items.push_back(rectangle(cell, std::nullopt, pen));
    const int word = card[static_cast<std::size_t>(s)];
    if (word < 0) {
      const PageBox foot{cell.x + 2, cell.bottom() - 0.3 * h, w - 4, 0.26 * h};
      group.items.push_back(
          star({cell.centre().x, cell.y + 0.4 * h}, 0.28 * std::min(w, h), Colour{0xd9, 0xe2, 0xec}));
      add_centred(group, in, in.words->at("free-square"), small, foot, in.style->type.quiet_ink);
      continue;
    }
    const StudyTerm& term = words[static_cast<std::size_t>(word)];
    if (pictures) {
      const PageBox frame{cell.x + 2, cell.y + 2, w - 4, 0.6 * h - 2};
      add_part_picture(group, in, term.anchor, frame, 1.5, true);
      add_centred(group, in, plain(term.text), font,
                  {cell.x + 1.5, frame.bottom() + 0.5, w - 3, cell.bottom() - frame.bottom() - 1.5},
                  ink);
    } else {
      add_centred(group, in, plain(term.text), font, cell.grown(-2), ink);
    }
  }
}

// Cards to draw from a hat: the word, and the clue to read out for those who want more.
void caller_pages(ReviewPages& key, const std::vector<StudyTerm>& words) {
  const SheetInput& in = key.input();
  const PageBox area = key.area();
  const Pen cut{in.style->type.ink, in.style->true_size.cut_width.mm(), {}, false};
  constexpr double low = 20, tall = 26, padding = 2, between = 1.5;
  const Length floor = floor_of(in);
  const text::Font font = reading_font(in, std::max(floor, in.plan->frame.list_font.size));
  text::Font bold = font, small = font;
  bold.bold = true;
  small.size = std::max(floor, std::min(font.size, Length::pt(9)));
  const std::string rules = in.words->at("instruction-bingo-caller") + " " +
                            scissors_words(*in.words, in.matter.youngest);
  const text::Block head = set_text(in, rules, font, area.w);
  const double room = area.h - head.height - 4;
  const auto count = static_cast<double>(words.size());
  // As many columns as leave all type its size on the fewest pages.
  int columns = 1, pages = 0;
  double least = 0;
  for (const int wide : {3, 2, 1}) {
    const double width = area.w / wide - 2 * padding;
    double needed = low;
    for (const StudyTerm& term : words) {
      double height = set_text(in, plain(term.text), bold, width).height;
      if (!term.clue.empty())
        height += between + set_text(in, plain(term.clue), small, width).height;
      needed = std::max(needed, height + 2 * padding);
    }
    needed = std::min(needed, room);
    const int taken = static_cast<int>(std::ceil(count / (wide * std::floor(room / needed))));
    if (pages == 0 || taken < pages) columns = wide, pages = taken, least = needed;
  }
  const double w = area.w / columns;
  // Higher where there is room.
  const double height =
      std::clamp(room / std::ceil(count / (columns * pages)) - 1e-6, least, std::max(least, tall));
  const int rows = std::max(1, static_cast<int>(room / height));
  for (std::size_t i = 0; i < words.size(); ++i) {
    const int place = static_cast<int>(i) % (rows * columns);
    if (place == 0) {
      Group group{Role::instruction, {}, {}};
      Page& page = key.begin();
      page.title = page.title + " – " + in.words->at("caller-cards");
      add_text(group, in, head, area, area.top(), in.style->type.ink);
      page.items.push_back(std::move(group));
    }
    PageBox cell = part_of(in, area, (place % columns) * w, w);
    cell.y = area.top() + head.height + 4 + (place / columns) * height;
    cell.h = height;
    Group group{Role::plain, {}, {}};
    group.items.push_back(rectangle(cell, std::nullopt, cut));
    const PageBox inside = cell.grown(-padding);
    const std::string name = plain(words[i].text), clue = plain(words[i].clue);
    double upper = inside.h;
    if (!clue.empty()) {
      const text::Block asked = set_text(in, clue, small, inside.w);
      const double named = set_text(in, name, bold, inside.w).height;
      upper = named / (named + asked.height) * (inside.h - between);
      const double room_left = inside.h - upper - between;
      add_text(group, in, asked, inside,
               inside.bottom() - room_left + (room_left - asked.height) / 2, in.style->type.ink,
               true);
    }
    add_centred(group, in, name, bold, {inside.x, inside.y, inside.w, upper}, in.style->type.ink);
    key.current().items.push_back(std::move(group));
  }
}

}  // namespace

Result<ComposedSheet> bingo(const SheetInput& input) {
  Random random(input.seed, "bingo");
  std::vector<StudyTerm> words;
  for (const StudyTerm& term : dealt(input.terms, 0, random))
    if (std::none_of(words.begin(), words.end(), [&](const StudyTerm& t) {
          return plain(t.text) == plain(term.text);
        }))
      words.push_back(term);
  if (words.size() > most_words) words.resize(most_words);
  const int count = static_cast<int>(words.size());
  const ReviewStyle& style = input.style->review;
  const auto shape =
      bingo_shape(input.style->puzzles_for(input.matter.youngest).bingo, count, style.bingo_free);
  if (!shape)
    return error("terms-few", {input.table, 0, 0},
                 "bingo needs 6 terms at least; the label set has " + std::to_string(count),
                 "fill in more of its column, or choose another kind");
  const auto cards = deal_bingo(*shape, count, style.bingo_cards, least_different, random);
  const bool pictures = input.matter.youngest < style.clue_age;

  ReviewPages sheet(input, "bingo", input.words->at("instruction-bingo"), false);
  sheet.unnamed();
  const SheetInput& in = sheet.input();
  const PageBox area = sheet.area();
  const bool wide = area.w > area.h;
  for (std::size_t c = 0; c < cards.size(); ++c) {
    if (c % 2 == 0) sheet.begin();
    PageBox box = area;
    if (wide)
      box = part_of(in, area, c % 2 ? (area.w + card_gap) / 2 : 0, (area.w - card_gap) / 2);
    else
      box.h = (area.h - card_gap) / 2;
    if (!wide && c % 2) box.y += box.h + card_gap;
    Group group{Role::blank_list, {}, {}};
    add_card(group, in, *shape, cards[c], words, static_cast<int>(c) + 1, box, pictures);
    if (c % 2) {
      const Pen cut{in.style->type.ink, in.style->true_size.cut_width.mm(), {2, 2}, false};
      if (wide)
        group.items.push_back(stroke({area.centre().x, area.top()},
                                     {area.centre().x, area.bottom()}, cut));
      else
        group.items.push_back(stroke({area.left(), area.centre().y},
                                     {area.right(), area.centre().y}, cut));
    }
    sheet.current().items.push_back(std::move(group));
  }
  ReviewPages key(input, "bingo", input.words->at("instruction-bingo"), true);
  std::sort(words.begin(), words.end(),
            [](const StudyTerm& a, const StudyTerm& b) { return a.text < b.text; });
  caller_pages(key, words);

  ComposedSheet made{sheet.take(), key.take()};
  made.facts = {{"words", count},
                {"squares", shape->squares()},
                {"cards", static_cast<double>(cards.size())},
                {"mean_calls", mean_calls(*shape, count)}};
  for (int k = shape->side; k < count; ++k)
    made.facts.emplace_back("chance_by_" + std::to_string(k), chance_by(*shape, count, k));
  Findings warnings;
  if (static_cast<int>(cards.size()) < style.bingo_cards)
    warnings.push_back(warning("bingo-cards", {input.table, 0, 0},
                               "only " + std::to_string(cards.size()) + " of " +
                                   std::to_string(style.bingo_cards) +
                                   " cards differ in three squares",
                               "fill in more terms, or ask for fewer bingo-cards"));
  return {std::move(made), std::move(warnings)};
}

}  // namespace platewright::compose
