// Sheets made of clue sentences: true or false, and words to fill in.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "base/random.hpp"
#include "base/utf8.hpp"
#include "compose/listing.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

constexpr double number_room = 1.9;   // ems of the type
constexpr double block_gap = 4;       // mm

struct Statement {
  StudyTerm term;
  std::optional<StudyTerm> told;      // whose clue stands there instead; none: it is true
};

// Half of them false, with clues that make a fair trap: of the same group for older
// readers, of another one for the young.
std::vector<Statement> statements(const SheetInput& input, const std::vector<StudyTerm>& terms,
                                  Random& random) {
  std::vector<StudyTerm> asked =
      dealt(terms, static_cast<std::size_t>(input.style->puzzles_for(input.matter.youngest).words),
            random);
  std::vector<char> wrong(asked.size(), 0);
  for (std::size_t i = 0; i < asked.size() / 2; ++i) wrong[i] = 1;
  shuffle(wrong, random);
  const bool old = input.matter.youngest > 7;
  std::vector<Statement> all;
  for (std::size_t i = 0; i < asked.size(); ++i) {
    Statement s{asked[i], std::nullopt};
    if (wrong[i]) {
      std::vector<StudyTerm> others;
      // A clue that is told already would give itself away: first such as are not.
      for (const auto& [fresh, fair] : {std::pair{true, true}, {true, false}, {false, false}}) {
        for (const StudyTerm& other : terms) {
          const bool told = std::any_of(all.begin(), all.end(), [&](const Statement& before) {
            return (before.told ? before.told->clue : before.term.clue) == other.clue;
          });
          if (other.clue != s.term.clue && short_name(other.text) != short_name(s.term.text) &&
              (!fair || (other.group == s.term.group) == old) && (!fresh || !told))
            others.push_back(other);
        }
        if (!others.empty()) break;
      }
      if (!others.empty()) s.told = others[random.below(others.size())];
    }
    all.push_back(std::move(s));
  }
  return all;
}

void add_number(Group& group, const SheetInput& input, std::size_t number, const text::Font& font,
                const PageBox& box, double baseline) {
  text::Font bold = font;
  bold.bold = true;
  const text::Line line =
      input.typesetter->line(std::to_string(number), bold, input.matter.language);
  group.items.push_back(
      text_at(line, start_of(input, box), baseline, at_start(input), input.style->type.ink));
}

void add_tick(Group& group, const PageBox& box, Colour ink) {
  const Pen pen{ink, std::max(0.7, box.w * 0.14), {}, true};
  PathItem tick{{MoveTo{{box.x + 0.15 * box.w, box.y + 0.5 * box.h}},
                 LineTo{{box.x + 0.42 * box.w, box.y + 0.8 * box.h}},
                 LineTo{{box.x + 0.95 * box.w, box.y + 0.02 * box.h}}},
                std::nullopt,
                pen};
  group.items.push_back(std::move(tick));
}

std::vector<Page> statement_pages(const SheetInput& input, const std::vector<Statement>& all,
                                  bool key) {
  ReviewPages pages(input, "true-or-false", input.words->at("instruction-true-or-false"), key);
  const SheetInput& in = pages.input();
  // Room for what is right, kept on the sheet too, so that sheet and key look alike.
  const bool any_false =
      std::any_of(all.begin(), all.end(), [](const Statement& s) { return s.told.has_value(); });
  flow(pages, block_gap, [&](const text::Font& font, double width) {
    const double em = font.size.mm();
    const double tick = 0.85 * em;
    text::Font small = font;
    small.size = std::max(in.style->for_age(in.matter.youngest).text_floor, font.size * 0.75);
    const text::Line yes = in.typesetter->line(in.words->at("is-true"), small, in.matter.language);
    const text::Line no = in.typesetter->line(in.words->at("is-false"), small, in.matter.language);
    const double answers = yes.advance + no.advance + 2 * tick + 3 * em;
    // The boxes stand beside short lines, below the sentence where it would be squeezed.
    const bool beside = width - answers > 0.55 * width;
    const double text_width = width - number_room * em - (beside ? answers + em : 0);
    std::vector<FlowBlock> blocks;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Statement& s = all[i];
      text::Font bold = font;
      bold.bold = true;
      const text::Block name = set_text(in, plain(s.term.text), bold, text_width);
      const text::Block clue =
          set_text(in, plain(s.told ? s.told->clue : s.term.clue), font, text_width);
      text::Block right;
      if (s.told)
        right = set_text(in, fill(in.words->at("right-name"), "name", plain(s.told->text)), small,
                         text_width);
      else
        right = set_text(in, " ", small, text_width);
      const double text_height = name.height + clue.height;
      const double height = text_height + (beside ? 0 : 1.5 * em) + (any_false ? right.height : 0);
      blocks.push_back({height, [=, &in](Group& group, const PageBox& box) {
        const Colour ink = in.style->type.ink;
        const PageBox words = part_of(in, box, number_room * em, text_width);
        add_number(group, in, i + 1, font, box, box.top() + name.lines.front().ascent);
        add_text(group, in, name, words, box.top(), ink);
        add_text(group, in, clue, words, box.top() + name.height, ink);
        const double baseline = beside ? box.top() + text_height / 2 + 0.3 * em
                                       : box.top() + text_height + 1.05 * em;
        double from = beside ? box.w - answers : number_room * em;
        for (const bool truth : {true, false}) {
          const text::Line& line = truth ? yes : no;
          const PageBox mark_room = part_of(in, box, from, tick);
          const PageBox mark{mark_room.x, baseline - 0.8 * tick, tick, tick};
          group.items.push_back(rectangle(mark, std::nullopt, Pen{ink, 0.4, {}, true}, 0.6));
          if (key && truth == !s.told.has_value()) add_tick(group, mark, ink);
          const PageBox word = part_of(in, box, from + tick + 0.35 * em, line.advance);
          group.items.push_back(text_at(line, word.left(), baseline, Align::left, ink));
          from += tick + line.advance + 1.5 * em;
        }
        if (key && s.told)
          add_text(group, in, right, words, box.bottom() - right.height, in.style->type.quiet_ink);
      }});
    }
    return blocks;
  });
  return pages.take();
}

std::vector<Page> blank_pages(const SheetInput& input, const std::vector<StudyTerm>& asked,
                              const std::vector<std::string>& bank, bool key) {
  ReviewPages pages(input, "fill-in", input.words->at("instruction-fill-in"), key);
  const SheetInput& in = pages.input();
  const AgeRow& age = in.style->for_age(in.matter.youngest);
  std::size_t letters = 0;
  for (const StudyTerm& term : asked)
    letters = std::max(letters, utf8_length(plain(term.text)));
  flow(pages, block_gap, [&](const text::Font& font, double width) {
    const double em = font.size.mm();
    std::vector<FlowBlock> blocks;
    if (!bank.empty()) {
      std::vector<ListEntry> entries;
      for (const std::string& word : bank) entries.push_back({0, word});
      const ListSetting list = set_list(entries, width - 8, font, in.matter.language, *in.typesetter);
      blocks.push_back({list.height + 4, [=, &in](Group& group, const PageBox& box) {
        group.items.push_back(rectangle(box, std::nullopt, Pen{in.style->ruling.base, 0.4, {}, true}, 3));
        group.items.push_back(draw_list(in, entries, list, box.x + 4, box.y + 2));
      }});
    }
    // One ruling for all, as long as the longest answer needs in the reader's hand.
    const double wanted = age.pitch.mm() * static_cast<double>(letters + 1);
    const double text_width = width - number_room * em;
    const double rule = std::min(text_width, std::max(wanted, 0.3 * width));
    const double height = age.ruling.mm() * std::min(1.0, em / age.text_wanted.mm());
    const double descender = height * in.style->ruling.descender;
    // A large hand needs the midline too, and room for it below the clue.
    const bool midline = height >= Length::in(0.5).mm() - 1e-9;
    for (std::size_t i = 0; i < asked.size(); ++i) {
      const text::Block clue = set_text(in, plain(asked[i].clue), font, text_width);
      // On the clue's last line where there is room for it.
      const double last = clue.lines.back().advance;
      const bool beside = !midline && last + em + rule <= text_width;
      const double lift = beside ? std::max(0.0, height - clue.lines.front().ascent) : 0;
      const bool first_line = clue.lines.size() == 1;
      const double above = beside && first_line ? lift : 0;
      const double total = above + clue.height + (beside ? descender * 0.4 : height + descender);
      blocks.push_back({total, [=, &in](Group& group, const PageBox& box) {
        const PageBox words = part_of(in, box, number_room * em, text_width);
        const double top = box.top() + above;
        add_number(group, in, i + 1, font, box, top + clue.lines.front().ascent);
        add_text(group, in, clue, words, top, in.style->type.ink);
        const double baseline = beside ? top + clue.height - clue.lines.back().descent + 0.6
                                       : top + clue.height + height;
        const PageBox line = part_of(in, words, beside ? text_width - rule : 0, rule);
        group.items.push_back(ruling(in, line.left(), baseline, rule, height,
                                     midline));
        if (!key) return;
        text::Font answer = font;
        text::Line word = in.typesetter->line(plain(asked[i].text), answer, in.matter.language);
        if (word.advance > rule - 2) {
          answer.size = answer.size * ((rule - 2) / word.advance);
          word = in.typesetter->line(plain(asked[i].text), answer, in.matter.language);
        }
        group.items.push_back(text_at(word, line.centre().x, baseline - 1.0, Align::centre,
                                      in.style->type.ink));
      }});
    }
    return blocks;
  });
  return pages.take();
}

}  // namespace

Result<ComposedSheet> true_or_false(const SheetInput& input) {
  auto terms = with_clues(input, 2);
  if (!terms.ok()) return terms.findings();
  Random random(input.seed, "true-or-false");
  const std::vector<Statement> all = statements(input, *terms, random);
  return {ComposedSheet{statement_pages(input, all, false), statement_pages(input, all, true)},
          terms.findings()};
}

Result<ComposedSheet> fill_in(const SheetInput& input) {
  auto terms = with_clues(input, 1);
  if (!terms.ok()) return terms.findings();
  Random random(input.seed, "fill-in");
  const std::vector<StudyTerm> asked =
      dealt(*terms, static_cast<std::size_t>(input.style->puzzles_for(input.matter.youngest).words),
            random);
  std::vector<std::string> bank;
  if (input.word_bank || input.matter.youngest <= bank_age) {
    for (const StudyTerm& term : asked) bank.push_back(plain(term.text));
    std::sort(bank.begin(), bank.end());
    bank.erase(std::unique(bank.begin(), bank.end()), bank.end());
    shuffle(bank, random);
  }
  return {ComposedSheet{blank_pages(input, asked, bank, false),
                        blank_pages(input, asked, bank, true)},
          terms.findings()};
}

}  // namespace platewright::compose
