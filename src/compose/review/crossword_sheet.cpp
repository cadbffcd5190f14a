// A criss-cross drawn: numbered squares, and the clues across and down.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/quote.hpp"
#include "base/random.hpp"
#include "compose/listing.hpp"
#include "compose/review/answers.hpp"
#include "compose/review/criss_cross.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"

namespace platewright::compose {
namespace {

constexpr double clue_gap = 6;      // mm between grid and clues, and between their columns
constexpr double widest_cell = 13;  // mm
constexpr double least_square = 5.5;
constexpr double least_number = 2.12;  // mm, 6 pt, of a square's number
constexpr double usual_number = 0.27;  // of its square
constexpr double most_number = 0.4;
constexpr double hand_square = 11;    // as much as a small hand needs
constexpr double least_share = 0.75;  // of the wanted type, to keep grid and clues together
constexpr std::size_t longest_answer = 16;

// "(4, 4)": letters of each word.
std::string lengths_of(const Answer& answer) {
  std::string text;
  for (const std::size_t n : answer.lengths)
    text += (text.empty() ? "(" : ",\u00a0") + std::to_string(n);
  return text + ")";
}

struct Clue {
  int number = 0;      // 0: a heading
  std::string text;
};

// Clues set one below another in `width`.
struct ClueColumn {
  std::vector<std::pair<Clue, text::Block>> set;
  double number_width = 0;
  double height = 0;
};

ClueColumn clue_column(const SheetInput& input, const std::vector<Clue>& clues,
                       const text::Font& font, double width) {
  ClueColumn column;
  text::Font bold = font;
  bold.bold = true;
  column.number_width = input.typesetter->line("88", bold, input.matter.language).advance + 2;
  for (const Clue& clue : clues) {
    const bool heading = clue.number == 0;
    column.set.emplace_back(clue, set_text(input, clue.text, heading ? bold : font,
                                           heading ? width : width - column.number_width));
    column.height += column.set.back().second.height + 0.25 * font.size.mm();
  }
  return column;
}

void add_clues(Group& group, const SheetInput& input, const ClueColumn& column,
               const text::Font& font, const PageBox& box) {
  text::Font bold = font;
  bold.bold = true;
  double y = box.top();
  for (const auto& [clue, block] : column.set) {
    if (clue.number == 0) {
      add_text(group, input, block, box, y, input.style->type.ink);
    } else {
      const text::Line number =
          input.typesetter->line(std::to_string(clue.number), bold, input.matter.language);
      group.items.push_back(text_at(number, start_of(input, box), y + block.lines.front().ascent,
                                    at_start(input), input.style->type.ink));
      add_text(group, input, block,
               part_of(input, box, column.number_width, box.w - column.number_width), y,
               input.style->type.ink);
    }
    y += block.height + 0.25 * font.size.mm();
  }
}

void add_grid(Group& group, const SheetInput& input, const CrissCross& puzzle,
              const std::vector<Answer>& answers, const PageBox& box, double square, bool key) {
  const Colour ink = input.style->type.ink;
  const bool ltr = leads_right(input);
  std::map<std::pair<int, int>, std::string> letters;
  std::map<std::pair<int, int>, int> numbers;
  for (const CrossWord& word : puzzle.words) {
    const Spelling& spelling = answers[word.word].letters;
    for (int i = 0; i < static_cast<int>(spelling.size()); ++i)
      letters[{word.row + (word.down ? i : 0), word.column + (word.down ? 0 : i)}] =
          spelling[static_cast<std::size_t>(i)];
    numbers[{word.row, word.column}] = word.number;
  }
  // A square's number in type of the readers' floor, where that leaves its letter room.
  const Length floor = input.style->for_age(input.matter.youngest).text_floor;
  const double in_corner =
      std::max({least_number, usual_number * square, std::min(floor.mm(), most_number * square)});
  const text::Font small = reading_font(input, Length::mm(in_corner));
  const text::Font large = reading_font(input, Length::mm(square * 0.58));
  const text::Line capital = input.typesetter->line("H", large, "en");
  for (const auto& [at, letter] : letters) {
    const int column = ltr ? at.second : puzzle.columns - 1 - at.second;
    const PageBox cell{box.x + column * square, box.y + at.first * square, square, square};
    group.items.push_back(rectangle(cell, Colour{255, 255, 255}, Pen{ink, 0.35, {}, false}));
    if (const auto number = numbers.find(at); number != numbers.end()) {
      const text::Line line =
          input.typesetter->line(std::to_string(number->second), small, input.matter.language);
      group.items.push_back(text_at(line, ltr ? cell.left() + 0.06 * square
                                              : cell.right() - 0.06 * square,
                                    cell.top() + 0.05 * square + line.ink_top, at_start(input),
                                    ink));
    }
    if (!key) continue;
    const text::Line line = input.typesetter->line(letter, large, input.matter.language);
    group.items.push_back(text_at(line, cell.centre().x + 0.06 * square,
                                  cell.bottom() - 0.12 * square, Align::centre, ink));
  }
}

std::vector<Page> pages_of(const SheetInput& input, const CrissCross& puzzle,
                           const std::vector<Answer>& answers,
                           const std::vector<std::string>& bank, bool key) {
  ReviewPages pages(input, "criss-cross", input.words->at("instruction-criss-cross"), key);
  const SheetInput& in = pages.input();
  pages.begin();
  const PageBox area = pages.area();
  std::vector<Clue> across{{0, in.words->at("across")}}, down{{0, in.words->at("down")}};
  for (const CrossWord& word : puzzle.words) {
    const Answer& answer = answers[word.word];
    (word.down ? down : across)
        .push_back({word.number, plain(answer.term.clue) + " " + lengths_of(answer)});
  }
  std::vector<ListEntry> entries;
  for (const std::string& word : bank) entries.push_back({0, word});

  // The largest type for which grid, words and clues share the page; else the clues go on.
  const double column_width = (area.w - clue_gap) / 2;
  const auto bank_at = [&](const text::Font& font) {
    return set_list(entries, area.w - 8, font, in.matter.language, *in.typesetter);
  };
  text::Font font = reading_font(in, reading_sizes(in).front());
  double square = 0;
  bool together = false;
  const auto square_in = [&](double high) {
    return std::min({widest_cell, area.w / puzzle.columns, high / puzzle.rows});
  };
  const auto bank_room = [&](const text::Font& f) {
    return entries.empty() ? 0.0 : bank_at(f).height + 4 + clue_gap;
  };
  for (const Length size : reading_sizes(in)) {
    if (size < reading_sizes(in).front() * least_share) break;
    font.size = size;
    const double clues = std::max(clue_column(in, across, font, column_width).height,
                                  clue_column(in, down, font, column_width).height);
    square = square_in(area.h - clues - clue_gap - bank_room(font));
    // Room for a letter in the reader's hand.
    const double pitch = in.style->for_age(in.matter.youngest).pitch.mm();
    if (square >= std::min(std::clamp(std::max(pitch, std::min(1.45 * pitch, 8.0)),
                                       least_square + 1, hand_square),
                           0.95 * area.w / puzzle.columns)) {
      together = true;
      break;
    }
  }
  if (!together) {
    font.size = std::max(reading_sizes(in).back(), reading_sizes(in).front() * 0.8);
    square = square_in(area.h - bank_room(font));
  }
  double y = area.top();
  Group group{Role::blank_list, {}, {}};
  if (!entries.empty()) {
    const ListSetting list = bank_at(font);
    const PageBox frame{area.x, y, area.w, list.height + 4};
    group.items.push_back(
        rectangle(frame, std::nullopt, Pen{in.style->ruling.base, 0.4, {}, true}, 3));
    group.items.push_back(draw_list(in, entries, list, frame.x + 4, frame.y + 2));
    y += frame.h + clue_gap;
  }
  const PageBox grid{area.centre().x - square * puzzle.columns / 2, y, square * puzzle.columns,
                     square * puzzle.rows};
  add_grid(group, in, puzzle, answers, grid, square, key);
  if (together) {
    const PageBox clues{area.x, grid.bottom() + clue_gap, area.w,
                        area.bottom() - grid.bottom() - clue_gap};
    add_clues(group, in, clue_column(in, across, font, column_width), font,
              part_of(in, clues, 0, column_width));
    add_clues(group, in, clue_column(in, down, font, column_width), font,
              part_of(in, clues, column_width + clue_gap, column_width));
    pages.current().items.push_back(std::move(group));
    return pages.take();
  }
  pages.current().items.push_back(std::move(group));
  // On as many pages as they need: across, then down, in full width.
  std::vector<Clue> all = across;
  all.insert(all.end(), down.begin(), down.end());
  for (std::size_t at = 0; at < all.size();) {
    std::vector<Clue> part;
    while (at < all.size()) {
      part.push_back(all[at]);
      if (clue_column(in, part, font, area.w).height > area.h && part.size() > 1) {
        part.pop_back();
        break;
      }
      ++at;
    }
    // A heading goes with its first clue.
    if (part.size() > 1 && part.back().number == 0 && at < all.size()) {
      part.pop_back();
      --at;
    }
    Page& page = pages.begin();
    Group clues{Role::blank_list, {}, {}};
    add_clues(clues, in, clue_column(in, part, font, area.w), font, area);
    page.items.push_back(std::move(clues));
  }
  return pages.take();
}

}  // namespace

namespace {

// A puzzle of `answers`; those that cross no other give their place to the spare ones in turn.
CrissCross joined(std::vector<Answer>& answers, std::vector<Answer> spare, const CrossRules& rules,
                  Random& random) {
  const auto puzzle_of = [&](const std::vector<Answer>& all) {
    std::vector<Spelling> spellings;
    for (const Answer& a : all) spellings.push_back(a.letters);
    return criss_cross(spellings, rules, random);
  };
  CrissCross best = puzzle_of(answers);
  while (!best.left_out.empty() && !spare.empty()) {
    std::vector<Answer> others = answers;
    for (const std::size_t i : best.left_out) {
      if (spare.empty()) break;
      others[i] = std::move(spare.front());
      spare.erase(spare.begin());
    }
    CrissCross next = puzzle_of(others);
    if (next.words.size() <= best.words.size()) continue;
    best = std::move(next);
    answers = std::move(others);
  }
  return best;
}

}  // namespace

Result<ComposedSheet> criss_cross_sheet(const SheetInput& input) {
  auto terms = with_clues(input, 2);
  if (!terms.ok()) return terms.findings();
  const PuzzleRow& row = input.style->puzzles_for(input.matter.youngest);
  Random random(input.seed, "criss-cross");
  std::vector<Answer> answers, spare;
  for (const StudyTerm& term : dealt(*terms, 0, random)) {
    Answer answer = answer_of(input, term);
    const auto same = [&](const Answer& a) { return a.letters == answer.letters; };
    if (answer.letters.size() < 2 || answer.letters.size() > longest_answer ||
        std::any_of(answers.begin(), answers.end(), same) ||
        std::any_of(spare.begin(), spare.end(), same))
      continue;
    (answers.size() < static_cast<std::size_t>(row.words) ? answers : spare)
        .push_back(std::move(answer));
  }
  CrossRules rules;
  // Room for the age's squares on this page.
  rules.most_columns = std::max(
      static_cast<int>(longest_answer),
      static_cast<int>(input.plan->frame.area.w / std::max(7.5, least_square)));
  rules.most_rows = std::max(static_cast<int>(longest_answer), rules.most_columns - 2);
  const CrissCross puzzle = joined(answers, spare, rules, random);
  if (puzzle.words.size() < 2)
    return error("terms-few", {input.table, 0, 0},
                 "no two words of the label set cross: they are too few, too long or share no letter",
                 "fill in more of its column");
  std::vector<std::string> bank;
  if (input.word_bank || input.matter.youngest <= bank_age) {
    for (const CrossWord& word : puzzle.words) bank.push_back(answers[word.word].shown);
    std::sort(bank.begin(), bank.end());
    shuffle(bank, random);
  }
  ComposedSheet made{pages_of(input, puzzle, answers, bank, false),
                     pages_of(input, puzzle, answers, bank, true)};
  made.facts = {{"words", static_cast<double>(puzzle.words.size())},
                {"columns", puzzle.columns},
                {"rows", puzzle.rows},
                {"crossings", puzzle.crossings},
                {"most_crossings", puzzle.most_crossings}};
  Findings findings = terms.findings();
  if (!puzzle.left_out.empty()) {
    std::vector<std::string_view> out;
    for (const std::size_t i : puzzle.left_out) out.push_back(answers[i].shown);
    findings.push_back(warning("words-left-out", {input.table, 0, 0},
                               "no puzzle was found in which these words cross another: " +
                                   listed(out),
                               "try another --seed"));
  }
  return {std::move(made), std::move(findings)};
}

}  // namespace platewright::compose
