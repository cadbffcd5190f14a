// Sheets of letters: word searches, mixed-up letters, missing letters.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/listing.hpp"
#include "compose/review/answers.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "compose/review/word_play.hpp"
#include "compose/review/word_search.hpp"

namespace platewright::compose {
namespace {

constexpr double widest_square = 15;    // mm of a word search's square
constexpr double letter_share = 0.62;   // of a square, for the type
constexpr int joined_age = 8;           // from this age on, terms of several words stay whole
constexpr std::size_t longest_word = 22;

PuzzleRow puzzle_row(const SheetInput& input) {
  return input.style->puzzles_for(input.matter.youngest);
}

// A ring around a line of squares.
PathItem ring(PagePoint from, PagePoint to, double radius, const Pen& pen) {
  const double length = std::max(1e-9, distance(from, to));
  const double ux = (to.x - from.x) / length, uy = (to.y - from.y) / length;
  const double k = radius * 4 / 3;  // a half circle by one curve, near enough for a ring
  const auto at = [&](PagePoint p, double along, double side) -> PagePoint {
    return {p.x + ux * along - uy * side, p.y + uy * along + ux * side};
  };
  return {{MoveTo{at(from, 0, -radius)}, LineTo{at(to, 0, -radius)},
           CurveTo{at(to, k, -radius), at(to, k, radius), at(to, 0, radius)},
           LineTo{at(from, 0, radius)},
           CurveTo{at(from, -k, radius), at(from, -k, -radius), at(from, 0, -radius)},
           ClosePath{}},
          std::nullopt,
          pen};
}

void add_letter(Group& group, const SheetInput& input, const std::string& letter,
                const PageBox& square, const text::Font& font, Colour colour) {
  const text::Line line = input.typesetter->line(letter, font, input.matter.language);
  const text::Line model = input.typesetter->line("H", font, "en");
  group.items.push_back(text_at(line, square.centre().x, square.centre().y + model.ink_top / 2,
                                Align::centre, colour));
}

std::vector<Page> search_pages(const SheetInput& input, const WordGrid& grid,
                               const std::vector<Answer>& answers, int directions, bool key) {
  const char* way = directions == 1   ? "words-across"
                    : directions == 2 ? "words-down"
                    : directions == 4 ? "words-aslant"
                                      : "words-backwards";
  ReviewPages pages(input, "word-search",
                    input.words->at("instruction-word-search") + " " + input.words->at(way), key);
  const SheetInput& in = pages.input();
  Page& page = pages.begin();
  const PageBox area = pages.area();
  const Colour ink = in.style->type.ink;

  // The list takes what it needs below the grid, in the reader's type.
  std::vector<ListEntry> entries;
  for (const Answer& a : answers) entries.push_back({0, a.shown});
  std::sort(entries.begin(), entries.end(),
            [](const ListEntry& a, const ListEntry& b) { return a.text < b.text; });
  constexpr double between = 6;
  const bool beside = area.w > area.h;
  ListSetting list;
  PageBox room = area;
  for (const Length size : reading_sizes(in)) {
    const double width = beside ? area.w - area.h - between : area.w;
    list = set_list(entries, width, reading_font(in, size), in.matter.language, *in.typesetter);
    if (list.height <= (beside ? area.h : 0.3 * area.h)) break;
  }
  if (beside)
    room = part_of(in, area, 0, area.h);
  else
    room.h -= list.height + between;
  const double square = std::min({widest_square, room.w / grid.size, room.h / grid.size});
  const double side = square * grid.size;
  const PageBox box{room.centre().x - side / 2, room.y, side, side};

  Group group{Role::blank_list, {}, {}};
  const text::Font font = reading_font(in, Length::mm(square * letter_share));
  const auto square_at = [&](int column, int row) -> PageBox {
    const int shown = leads_right(in) ? column : grid.size - 1 - column;
    return {box.x + shown * square, box.y + row * square, square, square};
  };
  group.items.push_back(
      rectangle(box.grown(1), std::nullopt, Pen{in.style->ruling.base, 0.5, {}, true}, 3));
  for (int row = 0; row < grid.size; ++row)
    for (int column = 0; column < grid.size; ++column)
      add_letter(group, in, grid.at(column, row), square_at(column, row), font, ink);
  if (key)
    for (std::size_t w = 0; w < answers.size(); ++w) {
      const PlacedWord& p = grid.words[w];
      const int last = static_cast<int>(answers[w].letters.size()) - 1;
      group.items.push_back(ring(square_at(p.column, p.row).centre(),
                                 square_at(p.column + last * p.step.column,
                                           p.row + last * p.step.row)
                                     .centre(),
                                 square * 0.4, Pen{ink, std::max(0.4, square * 0.05), {}, true}));
    }
  page.items.push_back(std::move(group));
  if (beside) {
    const PageBox side_box = part_of(in, area, area.h + between, area.w - area.h - between);
    page.items.push_back(draw_list(in, entries, list, side_box.x, side_box.y));
  } else {
    page.items.push_back(draw_list(in, entries, list, area.x, box.bottom() + between));
  }
  return pages.take();
}

// A word in squares, and what helps to find it: the part's picture for the young, its clue
// for others.
struct Spelled {
  Answer answer;
  Spelling tiles;             // mixed up; empty: no tiles
  std::vector<bool> open;     // squares left empty
};

std::vector<Page> square_pages(const SheetInput& input, std::string_view kind,
                               std::string_view instruction, const std::vector<Spelled>& words,
                               bool key) {
  ReviewPages pages(input, kind, input.words->at(instruction), key);
  const SheetInput& in = pages.input();
  const AgeRow& age = in.style->for_age(in.matter.youngest);
  const bool pictures = in.matter.youngest < in.style->review.clue_age;
  flow(pages, 5, [&](const text::Font& font, double width) {
    std::vector<FlowBlock> blocks;
    const double shrink = font.size.mm() / age.text_wanted.mm();
    const double em = font.size.mm();
    const double number = 1.9 * em;
    // Squares to write in, as wide as the reader's letters, one size for all words.
    double square = std::max(6.5, age.pitch.mm() * 1.15 * std::max(0.75, shrink));
    const double picture = pictures ? std::max(20.0, 34 * shrink) : 0;
    const double left = number + (pictures ? picture * 1.3 + 5 : 0);
    const double space = 0.5;  // squares between words
    const auto across = [&](const Answer& a) {
      return static_cast<double>(a.letters.size()) +
             space * static_cast<double>(a.lengths.size() - 1);
    };
    for (const Spelled& word : words)
      square = std::min(square, (width - left) / across(word.answer));
    for (std::size_t i = 0; i < words.size(); ++i) {
      const Spelled& word = words[i];
      const double row_width = across(word.answer) * square;
      const bool tiles = !word.tiles.empty();
      // Tiles and squares side by side where both fit.
      const bool one_row = tiles && 2 * row_width + 3 * em <= width - left;
      text::Font small = font;
      small.size = std::max(age.text_floor, font.size * 0.8);
      const bool clued = !pictures && !word.answer.term.clue.empty();
      const text::Block clue =
          set_text(in, clued ? plain(word.answer.term.clue) : " ", small, width - left);
      const double rows = tiles && !one_row ? 2 * square + 2 : square;
      const double height = std::max(picture, rows + (clued ? clue.height + 1 : 0));
      blocks.push_back({height, [=, &in](Group& group, const PageBox& box) {
        const Colour ink = in.style->type.ink;
        const Pen pen{in.style->ruling.base, 0.4, {}, true};
        if (pictures) {
          const PageBox frame = part_of(in, {box.x, box.y, box.w, picture}, number, picture * 1.3);
          add_part_picture(group, in, word.answer.term.anchor, frame, 1.5, true);
          group.items.push_back(rectangle(frame, std::nullopt, pen));
        }
        double y = box.top();
        if (clued) {
          add_text(group, in, clue, part_of(in, box, left, width - left), y, ink);
          y += clue.height + 1;
        } else if (pictures) {
          y += (height - rows) / 2;
        }
        text::Font bold = font;
        bold.bold = true;
        const text::Line count = in.typesetter->line(std::to_string(i + 1), bold, in.matter.language);
        group.items.push_back(text_at(count, start_of(in, box),
                                      clued ? box.top() + clue.lines.front().ascent
                                            : box.top() + height / 2 + 0.35 * em,
                                      at_start(in), ink));
        const text::Font letters = reading_font(in, Length::mm(square * letter_share));
        const auto row_of = [&](double from, double top, bool empty) {
          double at = from;
          std::size_t letter = 0;
          for (const std::size_t length : word.answer.lengths) {
            for (std::size_t l = 0; l < length; ++l, ++letter) {
              PageBox cell = part_of(in, box, at, square);
              cell.y = top;
              cell.h = square;
              const PageBox shown = cell.grown(-0.35);
              if (!empty) {
                group.items.push_back(rectangle(shown, Colour{0xef, 0xef, 0xef}, pen, 1.2));
                add_letter(group, in, word.tiles[letter], cell, letters, ink);
              } else {
                group.items.push_back(rectangle(shown, std::nullopt, pen, 0.6));
                const bool asked = word.open[letter];
                if (!asked || key)
                  add_letter(group, in, word.answer.letters[letter], cell, letters,
                             asked ? in.style->ruling.base : ink);
              }
              at += square;
            }
            at += space * square;
          }
        };
        if (tiles) {
          row_of(left, y, false);
          if (one_row)
            row_of(left + row_width + 3 * em, y, true);
          else
            row_of(left, y + square + 2, true);
        } else {
          row_of(left, y, true);
        }
      }});
    }
    return blocks;
  });
  return pages.take();
}

// Words for squares: dealt, of a length that fits a line.
std::vector<Answer> short_words(const SheetInput& input, Random& random) {
  std::vector<Answer> answers;
  for (const StudyTerm& term : dealt(input.terms, 0, random)) {
    Answer answer = answer_of(input, term);
    const bool known = std::any_of(answers.begin(), answers.end(), [&](const Answer& a) {
      return a.letters == answer.letters;
    });
    if (answer.letters.size() >= 3 && answer.letters.size() <= longest_word && !known)
      answers.push_back(std::move(answer));
  }
  const auto most = static_cast<std::size_t>(puzzle_row(input).words);
  if (answers.size() > most) answers.resize(most);
  return answers;
}

Findings no_words(const SheetInput& input, std::string_view kind) {
  return {error("terms-few", {input.table, 0, 0},
                "no term of the label set has the letters for " + std::string(kind),
                "add shorter words, or choose another kind")};
}

}  // namespace

Result<ComposedSheet> word_search_sheet(const SheetInput& input) {
  const PuzzleRow row = puzzle_row(input);
  Random random(input.seed, "word-search");
  const std::vector<Answer> answers = separate_answers(
      input, dealt(input.terms, 0, random), 3, static_cast<std::size_t>(row.grid),
      static_cast<std::size_t>(row.words), input.matter.youngest < joined_age);
  if (answers.empty()) return no_words(input, "a word search");
  GridRules rules;
  rules.least_size = row.grid;
  rules.directions = row.directions;
  if (input.letters) rules.frequency = input.letters->frequency;
  // Folded fillers for folded words.
  for (auto& [letter, share] : rules.frequency)
    if (const Spelling folded = spelt(input, letter); !folded.empty()) letter = folded.front();
  rules.unwanted = unwanted_of(input);
  std::vector<Spelling> words;
  for (const Answer& a : answers) words.push_back(a.letters);
  const WordGrid grid = word_search(words, rules, random);
  return ComposedSheet{search_pages(input, grid, answers, row.directions, false),
                       search_pages(input, grid, answers, row.directions, true)};
}

Result<ComposedSheet> scramble(const SheetInput& input) {
  Random random(input.seed, "scramble");
  const std::vector<Answer> answers = short_words(input, random);
  if (answers.empty()) return no_words(input, "mixed-up letters");
  const std::vector<Spelling> unwanted = unwanted_of(input);
  std::vector<Spelling> all;
  for (const Answer& a : answers) all.push_back(a.letters);
  std::vector<Spelled> words;
  for (const Answer& a : answers) {
    Spelled word{a, {}, std::vector<bool>(a.letters.size(), true)};
    // Each word of a term is mixed by itself.
    auto from = a.letters.begin();
    for (const std::size_t length : a.lengths) {
      const Spelling part(from, from + static_cast<std::ptrdiff_t>(length));
      const Spelling mixed = scrambled(part, all, unwanted, random);
      word.tiles.insert(word.tiles.end(), mixed.begin(), mixed.end());
      from += static_cast<std::ptrdiff_t>(length);
    }
    if (input.matter.youngest <= input.style->review.first_letter) word.open.front() = false;
    words.push_back(std::move(word));
  }
  return ComposedSheet{square_pages(input, "scramble", "instruction-scramble", words, false),
                       square_pages(input, "scramble", "instruction-scramble", words, true)};
}

Result<ComposedSheet> missing_letters(const SheetInput& input) {
  Random random(input.seed, "missing-letters");
  const std::vector<Answer> answers = short_words(input, random);
  if (answers.empty()) return no_words(input, "missing letters");
  std::vector<Spelled> words;
  for (const Answer& a : answers) {
    Spelled word{a, {}, {}};
    for (const std::size_t length : a.lengths)
      for (const bool gone : gaps(length, puzzle_row(input).missing, random))
        word.open.push_back(gone);
    words.push_back(std::move(word));
  }
  return ComposedSheet{
      square_pages(input, "missing-letters", "instruction-missing-letters", words, false),
      square_pages(input, "missing-letters", "instruction-missing-letters", words, true)};
}

}  // namespace platewright::compose
