// Picture cards, cards to find in pairs or threes, quiz cards.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/review/card_pages.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

constexpr double context = 1.6;   // of a part's surroundings on its picture

text::Font face_font(const SheetInput& input, const PageBox& box, double share, bool bold) {
  // Cards grow with their size, and stay in the reader's type.
  const AgeRow& age = input.style->for_age(input.matter.youngest);
  return reading_font(input,
                      Length::pt(std::clamp(box.w * share, age.text_floor.pt(),
                                            std::max(age.text_floor, age.text_wanted * 1.1).pt())),
                      bold);
}

CardFace picture_of(const StudyTerm& term, bool named) {
  return [term, named](Group& group, const SheetInput& in, const PageBox& box) {
    PageBox frame = box;
    if (named) {
      const double foot = std::min(0.26 * box.h, 18.0);
      frame.h -= foot;
      add_centred(group, in, plain(term.text), face_font(in, box, 0.32, true),
                  {box.x, frame.bottom() + 1, box.w, foot - 1}, in.style->type.ink);
    }
    add_part_picture(group, in, term.anchor, frame, context, true);
    group.items.push_back(
        rectangle(frame, std::nullopt, Pen{in.style->ruling.base, 0.35, {}, true}));
  };
}

CardFace name_of_part(const StudyTerm& term) {
  return [term](Group& group, const SheetInput& in, const PageBox& box) {
    add_centred(group, in, plain(term.text), face_font(in, box, 0.36, true), box,
                in.style->type.ink);
  };
}

CardFace clue_of(const StudyTerm& term) {
  return [term](Group& group, const SheetInput& in, const PageBox& box) {
    add_centred(group, in, plain(term.clue), face_font(in, box, 0.27, false), box,
                in.style->type.ink);
  };
}

CardFace name_and_clue(const StudyTerm& term) {
  return [term](Group& group, const SheetInput& in, const PageBox& box) {
    const bool clued = !term.clue.empty();
    const PageBox top{box.x, box.y + 0.08 * box.h, box.w, box.h * (clued ? 0.36 : 0.8)};
    add_centred(group, in, plain(term.text), face_font(in, box, 0.36, true), top,
                in.style->type.ink);
    if (clued)
      add_centred(group, in, plain(term.clue), face_font(in, box, 0.24, false),
                  {box.x, top.bottom() + 2, box.w, box.bottom() - top.bottom() - 2},
                  in.style->type.ink);
  };
}

// All alike: a soft pattern well inside the edges, which may drift, and the title.
void pattern(Group& group, const SheetInput& in, const PageBox& box) {
  const PageBox inner = box.grown(-1.5);
  const Colour soft{0xe6, 0xec, 0xf3};
  for (int row = 0; row < 7; ++row)
    for (int column = 0; column < 5; ++column) {
      const PagePoint at{inner.x + (column + 0.5) * inner.w / 5, inner.y + (row + 0.5) * inner.h / 7};
      group.items.push_back(circle(at, ((row + column) % 2 ? 0.16 : 0.3) * inner.w / 5, soft,
                                   std::nullopt));
    }
  const std::string title = in.matter.title.empty() ? in.words->at("untitled") : in.matter.title;
  const text::Font font = face_font(in, box, 0.22, true);
  const double wide = 0.84 * inner.w;
  const double high =
      std::clamp(set_text(in, title, font, wide - 4).height + 4, 0.32 * inner.h, 0.9 * inner.h);
  const PageBox plate{inner.x + 0.08 * inner.w, inner.centre().y - high / 2, wide, high};
  group.items.push_back(rectangle(plate, Colour{255, 255, 255},
                                  Pen{in.style->ruling.base, 0.4, {}, true}, 3));
  add_centred(group, in, title, font, plate.grown(-2), in.style->type.ink);
}

// How many cards the game of this age has terms for.
std::vector<StudyTerm> few_of(const SheetInput& input, std::vector<StudyTerm> terms,
                              Random& random) {
  return dealt(std::move(terms),
               static_cast<std::size_t>(input.style->puzzles_for(input.matter.youngest).words),
               random);
}

}  // namespace

Result<ComposedSheet> cards(const SheetInput& input) {
  if (Findings few = enough_terms(input, 1, "a set of cards"); !few.empty()) return few;
  std::vector<Card> all;
  for (const StudyTerm& term : input.terms)
    all.push_back({picture_of(term, input.labels), name_and_clue(term)});
  auto pages = card_pages(input, "cards", input.words->at("instruction-cards"), all);
  if (!pages.ok()) return pages.findings();
  ReviewPages key(input, "cards", input.words->at("instruction-cards"), true);
  add_part_key(key, input.terms);
  return ComposedSheet{std::move(*pages), key.take()};
}

Result<ComposedSheet> memory(const SheetInput& input) {
  if (Findings few = enough_terms(input, 3, "a game of pairs"); !few.empty()) return few;
  Random random(input.seed, "memory");
  std::vector<StudyTerm> terms = input.terms;
  Findings warnings;
  const bool any_clue = std::any_of(terms.begin(), terms.end(),
                                    [](const StudyTerm& t) { return !t.clue.empty(); });
  const bool threes = input.matter.youngest >= input.style->review.triples && any_clue;
  if (threes) {
    auto clued = with_clues(input, 3);
    if (!clued.ok()) return clued.findings();
    terms = *clued;
    warnings = clued.findings();
  }
  // Two parts of one name would be taken for a pair.
  std::vector<StudyTerm> distinct;
  for (const StudyTerm& term : dealt(std::move(terms), 0, random))
    if (std::none_of(distinct.begin(), distinct.end(), [&](const StudyTerm& t) {
          return plain(t.text) == plain(term.text);
        }))
      distinct.push_back(term);
  terms = few_of(input, std::move(distinct), random);
  std::vector<Card> all;
  for (const StudyTerm& term : terms) {
    all.push_back({picture_of(term, false), pattern});
    all.push_back({name_of_part(term), pattern});
    if (threes) all.push_back({clue_of(term), pattern});
  }
  shuffle(all, random);
  const std::string& instruction =
      input.words->at(threes ? "instruction-memory-triples" : "instruction-memory");
  auto pages = card_pages(input, "memory", instruction, all);
  if (!pages.ok()) return pages.findings();
  std::sort(terms.begin(), terms.end(),
            [](const StudyTerm& a, const StudyTerm& b) { return a.anchor < b.anchor; });
  ReviewPages key(input, "memory", instruction, true);
  add_part_key(key, terms);
  return {ComposedSheet{std::move(*pages), key.take()}, std::move(warnings)};
}

Result<ComposedSheet> quiz(const SheetInput& input) {
  auto terms = with_clues(input, 1);
  if (!terms.ok()) return terms.findings();
  Random random(input.seed, "quiz");
  const std::vector<StudyTerm> asked = dealt(*terms, 0, random);
  std::vector<Card> all;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    const StudyTerm& term = asked[i];
    const std::string number = std::to_string(i + 1);
    Card card;
    card.front = [term, number](Group& group, const SheetInput& in, const PageBox& box) {
      // The category on a band at the head, the number beside it.
      const text::Font small = face_font(in, box, 0.19, false);
      const std::string category =
          term.group.empty() ? in.words->at("question") : plain(term.group);
      const double written = set_text(in, category, small, 0.78 * box.w - 1.2).height + 1.5;
      const double band = std::clamp(written, 0.17 * box.h, 0.4 * box.h);
      const PageBox head{box.x, box.y, box.w, band};
      group.items.push_back(rectangle(head, Colour{0xe6, 0xec, 0xf3}, std::nullopt, 2));
      const PageBox count = part_of(in, head, 0, 0.2 * box.w);
      add_centred(group, in, number, face_font(in, box, 0.24, true), count, in.style->type.ink);
      add_centred(group, in, category, small,
                  part_of(in, head, 0.2 * box.w, 0.78 * box.w).grown(-0.6), in.style->type.ink);
      add_centred(group, in, plain(term.clue), face_font(in, box, 0.3, false),
                  {box.x, head.bottom() + 2, box.w, box.bottom() - head.bottom() - 2},
                  in.style->type.ink);
    };
    card.back = [term, number](Group& group, const SheetInput& in, const PageBox& box) {
      const PageBox head{box.x, box.y, box.w, 0.12 * box.h};
      add_centred(group, in, in.words->at("answer") + " " + number, face_font(in, box, 0.19, false),
                  head, in.style->type.quiet_ink);
      const PageBox name{box.x, head.bottom() + 1, box.w, 0.3 * box.h};
      add_centred(group, in, plain(term.text), face_font(in, box, 0.36, true), name,
                  in.style->type.ink);
      const PageBox frame{box.x, name.bottom() + 2, box.w, box.bottom() - name.bottom() - 2};
      add_part_picture(group, in, term.anchor, frame, context, true);
    };
    all.push_back(std::move(card));
  }
  const std::string& instruction = input.words->at("instruction-quiz");
  auto pages = card_pages(input, "quiz", instruction, all);
  if (!pages.ok()) return pages.findings();
  // The key lists the answers by number.
  ReviewPages key(input, "quiz", instruction, true);
  const SheetInput& in = key.input();
  flow(key, 2, [&](const text::Font& wanted, double width) {
    text::Font font = wanted;
    font.size = std::min(wanted.size, std::max(floor_of(in), Length::pt(12)));
    std::vector<FlowBlock> blocks;
    for (std::size_t i = 0; i < asked.size(); ++i) {
      const text::Block name = set_text(in, std::to_string(i + 1) + "  " + plain(asked[i].text),
                                        font, width * 0.4 - 4);
      const text::Block clue = set_text(in, plain(asked[i].clue), font, width * 0.6);
      blocks.push_back({std::max(name.height, clue.height), [=, &in](Group& group,
                                                                    const PageBox& box) {
        add_text(group, in, name, part_of(in, box, 0, width * 0.4 - 4), box.top(),
                 in.style->type.ink);
        add_text(group, in, clue, part_of(in, box, width * 0.4, width * 0.6), box.top(),
                 in.style->type.quiet_ink);
      }});
    }
    return blocks;
  });
  return {ComposedSheet{std::move(*pages), key.take()}, terms.findings()};
}

}  // namespace platewright::compose
