#include "compose/listing.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/random.hpp"

namespace platewright::compose {
namespace {

constexpr double column_gap = 7;    // mm
constexpr double number_gap = 2;    // mm between number and word
constexpr double bank_padding = 3;  // mm

std::string without_soft_hyphens(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i, 2) == "\xC2\xAD") {
      ++i;
      continue;
    }
    out += text[i];
  }
  return out;
}

}  // namespace

ListSetting set_list(const std::vector<ListEntry>& entries, double width, const text::Font& font,
                     const std::string& language, const text::Typesetter& typesetter) {
  ListSetting s;
  s.font = font;
  s.step = 1.35 * font.size.mm();
  int highest = 0;
  double widest = 0;
  for (const ListEntry& e : entries) highest = std::max(highest, e.number);
  text::Font bold = font;
  bold.bold = true;
  if (highest > 0)
    s.number_width =
        typesetter.line(highest < 10 ? "8" : highest < 100 ? "88" : "888", bold, language).advance +
        number_gap;
  for (const ListEntry& e : entries)
    widest = std::max(widest, typesetter.line(e.text, font, language).advance);
  const double wanted = s.number_width + widest;
  const double count = std::floor((width + column_gap) / (wanted + column_gap));
  const int most = std::max(1, static_cast<int>(entries.size()));
  const auto lines_in = [&](double column) {
    std::vector<std::vector<text::Line>> lines;
    for (const ListEntry& e : entries)
      lines.push_back(
          typesetter.paragraph(e.text, font, language, 1.2, column - s.number_width).lines);
    return lines;
  };
  const auto width_of = [&](int columns) { return (width - column_gap * (columns - 1)) / columns; };
  s.columns = std::clamp(static_cast<int>(std::min(count, 1e6)), 1, most);
  s.column_width = width_of(s.columns);
  s.lines = lines_in(s.column_width);
  const auto total_of = [](const std::vector<std::vector<text::Line>>& lines) {
    std::size_t sum = 0;
    for (const auto& entry : lines) sum += entry.size();
    return static_cast<int>(sum);
  };
  int total = total_of(s.lines);
  // A few long entries do not make a long list narrow: they wrap where more columns are
  // much lower.
  constexpr double much_lower = 0.72;
  constexpr std::size_t most_lines = 3;  // of an entry
  // Words without numbers wrap only where one of them would take the whole width: else the
  // second line of one is read as a word of its own.
  const int widest_list = highest > 0 || s.columns == 1 ? most : s.columns;
  for (int columns = s.columns + 1; columns <= widest_list; ++columns) {
    const double column = width_of(columns);
    if (column < s.number_width + 0.4 * widest || column < 5 * font.size.mm()) break;
    auto lines = lines_in(column);
    const bool fits = std::all_of(lines.begin(), lines.end(), [&](const auto& entry) {
      return entry.size() <= most_lines &&
             std::all_of(entry.begin(), entry.end(), [&](const text::Line& line) {
               return line.advance <= column - s.number_width + 1e-6;
             });
    });
    if (!fits) break;
    const int needed = total_of(lines);
    if (static_cast<double>(needed) / columns <
        much_lower * static_cast<double>(total) / s.columns) {
      s.columns = columns;
      s.column_width = column;
      s.lines = std::move(lines);
      total = needed;
    }
  }
  // The lowest column height that takes all entries whole.
  for (s.lines_per_column = (total + s.columns - 1) / std::max(1, s.columns);;
       ++s.lines_per_column) {
    int column = 0, used = 0;
    bool fits = true;
    s.first_line.clear();
    for (const auto& lines : s.lines) {
      const int n = static_cast<int>(lines.size());
      if (used + n > s.lines_per_column && used > 0) {
        ++column;
        used = 0;
      }
      if (column >= s.columns || n > s.lines_per_column) {
        fits = false;
        break;
      }
      s.first_line.push_back(column * s.lines_per_column + used);
      used += n;
    }
    if (fits) break;
  }
  s.height = s.lines_per_column * s.step;
  if (!s.lines.empty()) {
    const text::Line& l = s.lines.front().front();
    s.height += std::max(0.0, l.ascent + l.descent - s.step);
  }
  return s;
}

Group draw_list(const SheetInput& input, const std::vector<ListEntry>& entries,
                const ListSetting& s, double x, double y) {
  Group group{Role::blank_list, {}, {}};
  const bool ltr = input.matter.direction == text::Direction::left_to_right;
  const double width = s.column_width * s.columns + column_gap * (s.columns - 1);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const int column = s.lines_per_column > 0 ? s.first_line[i] / s.lines_per_column : 0;
    const int row = s.lines_per_column > 0 ? s.first_line[i] % s.lines_per_column : 0;
    const double offset = column * (s.column_width + column_gap);
    const double start = ltr ? x + offset : x + width - offset;
    double baseline = y + s.lines[i].front().ascent + row * s.step;
    if (entries[i].number > 0) {
      text::Font bold = s.font;
      bold.bold = true;
      const text::Line number = input.typesetter->line(std::to_string(entries[i].number), bold,
                                                       input.matter.language);
      const double end = s.number_width - number_gap;
      group.items.push_back(text_at(number, ltr ? start + end : start - end, baseline,
                                    ltr ? Align::right : Align::left, input.style->type.ink));
    }
    for (const text::Line& line : s.lines[i]) {
      group.items.push_back(text_at(line, ltr ? start + s.number_width : start - s.number_width,
                                    baseline, ltr ? Align::left : Align::right,
                                    input.style->type.ink));
      baseline += s.step;
    }
  }
  return group;
}

std::vector<ListEntry> key_entries(const Layout& layout) {
  std::vector<ListEntry> entries;
  for (const PlacedLabel* label : by_number(layout))
    if (label->as_number) entries.push_back({label->number, label->text});
  return entries;
}

std::vector<std::string> bank_words(const Layout& layout, std::uint64_t seed) {
  std::set<std::string> unique;
  for (const PlacedLabel& label : layout.labels) unique.insert(label.text);
  std::vector<std::string> words(unique.begin(), unique.end());
  // No word where its answer stands, or as few as can be.
  std::vector<std::string> answers;
  for (const PlacedLabel* label : by_number(layout))
    if (std::find(answers.begin(), answers.end(), label->text) == answers.end())
      answers.push_back(label->text);
  constexpr int most_tries = 50;
  Random random(seed);
  std::vector<std::string> best;
  std::size_t fewest = words.size() + 1;
  for (int i = 0; i < most_tries && fewest > 0; ++i) {
    shuffle(words, random);
    std::size_t in_place = 0;
    for (std::size_t k = 0; k < words.size(); ++k) in_place += words[k] == answers[k];
    if (in_place < fewest) fewest = in_place, best = words;
  }
  return best;
}

namespace {

struct Bank {
  text::Line heading;
  ListSetting list;
  std::vector<ListEntry> entries;
  double height = 0;
};

Bank bank(const SheetInput& input, double width) {
  Bank b;
  text::Font bold = input.plan->frame.list_font;
  bold.bold = true;
  b.heading = input.typesetter->line(input.words->at("word-bank"), bold, input.matter.language);
  for (std::string& word : bank_words(input.plan->layout, input.seed))
    b.entries.push_back({0, std::move(word)});
  b.list = set_list(b.entries, width - 2 * bank_padding, input.plan->frame.list_font,
                    input.matter.language, *input.typesetter);
  b.height = b.list.height + b.heading.ascent + b.heading.descent + bank_padding;
  return b;
}

}  // namespace

double bank_height(const SheetInput& input, double width) { return bank(input, width).height; }

Group draw_bank(const SheetInput& input, double x, double y, double width) {
  const Bank b = bank(input, width);
  Group group{Role::word_bank, {}, {}};
  group.items.push_back(rectangle({x, y, width, b.height}, std::nullopt,
                                  Pen{input.style->ruling.base, 0.4, {}, true}, 3));
  const bool ltr = input.matter.direction == text::Direction::left_to_right;
  group.items.push_back(text_at(b.heading, ltr ? x + bank_padding : x + width - bank_padding,
                                y + 1 + b.heading.ascent, ltr ? Align::left : Align::right,
                                input.style->type.ink));
  group.items.push_back(draw_list(input, b.entries, b.list, x + bank_padding,
                                  y + 1 + b.heading.ascent + b.heading.descent));
  return group;
}

double trace_width(const SheetInput& input, std::string_view text, double height) {
  Group scratch;
  return add_trace(scratch, input, text, 0, 0, height);
}

double add_trace(Group& group, const SheetInput& input, std::string_view text, double x,
                 double baseline, double height) {
  const std::string clean = without_soft_hyphens(text);
  const RulingStyle& r = input.style->ruling;
  if (input.strokes) {
    if (const auto strokes = input.strokes->set(clean, height)) {
      PathItem path;
      path.pen = Pen{r.trace, std::max(r.trace_line.mm(), height / 24), {}, true};
      for (const auto& line : strokes->strokes) {
        bool first = true;
        for (const PagePoint& p : line) {
          const PagePoint at{x + p.x, baseline + p.y};
          if (first)
            path.steps.push_back(MoveTo{at});
          else
            path.steps.push_back(LineTo{at});
          first = false;
        }
      }
      if (!path.steps.empty()) group.items.push_back(std::move(path));
      return strokes->advance;
    }
  }
  text::Font font = input.plan->label_font;
  font.size = Length::mm(height / 0.7);
  const text::Line capital = input.typesetter->line("H", font, "en");
  if (capital.ink_top > 0) font.size = font.size * (height / capital.ink_top);
  const text::Line line = input.typesetter->line(clean, font, input.matter.language);
  TextItem item = text_at(line, x, baseline, Align::left, r.trace);
  item.outline = Pen{r.trace, r.trace_line.mm() * 0.7, {}, true};
  group.items.push_back(std::move(item));
  return line.advance;
}

}  // namespace platewright::compose
