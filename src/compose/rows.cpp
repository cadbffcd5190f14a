// Pages of ruled rows: where labels' blanks don't fit beside the figure, the
// numbers at its leaders come back here with lines to write on.
#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "compose/listing.hpp"

namespace platewright::compose {
namespace {

constexpr double rows_apart = 8;  // mm
constexpr double row_number_gap = 3;

// One ruled line: what is traced or written on it.
struct RuledLine {
  std::string trace;      // letters to trace at its start
  double trace_width = 0;
  double copy_at = -1;    // where copying begins on the same line; < 0: it does not
};

struct Row {
  const PlacedLabel* label = nullptr;
  std::vector<RuledLine> lines;
};

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find(' ', start), text.size());
    if (end > start) words.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return words;
}

// Words of a label on as few ruled lines as hold them, each followed by room to
// copy it: on the same line where both fit, else on a line of its own.
std::vector<RuledLine> trace_lines(const SheetInput& input, const std::string& text, double width,
                                   double height) {
  std::vector<std::string> parts;
  for (const std::string& word : words_of(text)) {
    const std::string joined = parts.empty() ? word : parts.back() + " " + word;
    if (!parts.empty() && trace_width(input, joined, height) <= width)
      parts.back() = joined;
    else
      parts.push_back(word);
  }
  std::vector<RuledLine> lines;
  for (const std::string& part : parts) {
    const double w = trace_width(input, part, height);
    const double gap = height * 0.6;
    // Handwriting runs wider than the model: a tenth more room to copy.
    if (w + gap + 1.1 * w <= width) {
      lines.push_back({part, w, w + gap});
    } else {
      lines.push_back({part, w, -1});
      lines.push_back({});
    }
  }
  return lines;
}

// How large the rulings are on a page, and how much room beside the number they have.
struct RulingSize {
  double step = 0, height = 0;  // from one baseline to the next; baseline to top line
  double number_width = 0;
  double full = 0;              // a ruled line over the whole width
  bool words_fit = true;        // traced at the height for the age; else the rulings are lower
};

RulingSize ruling_size(const SheetInput& input, bool trace) {
  const Plan& plan = *input.plan;
  const RulingStyle& style = input.style->ruling;
  // Descenders hang into the gap to the next ruling, which is at least as high.
  const double pace = 1 + std::max(style.descender, style.gap);
  RulingSize size;
  // A little one's tall ruling must still fit a small page.
  size.step = std::min(plan.blank.ruling * pace, plan.frame.area.h / 2);
  size.height = size.step / pace;
  text::Font bold = plan.frame.list_font;
  bold.bold = true;
  size.number_width =
      input.typesetter->line("88", bold, input.matter.language).advance + row_number_gap;
  size.full = plan.frame.area.w - size.number_width;
  if (!trace) return size;
  double widest = 0;
  for (const PlacedLabel* label : by_number(plan.layout))
    for (const std::string& word : words_of(label->text))
      widest = std::max(widest, trace_width(input, word, size.height));
  if (widest > size.full) {
    size.words_fit = false;
    size.step *= size.full / widest;
    size.height *= size.full / widest;
  }
  return size;
}

// Where a row of ruled lines stands: page and column from 0, mm on the page.
struct RowPlace {
  std::size_t page = 0;
  int column = 0;
  double top = 0;
};

// Columns that rows are set in one below another; the first page may begin lower.
struct RowColumns {
  int count = 1;
  double first_top = 0, top = 0, bottom = 0;
};

// Fills each column down to `foot` mm; a row is never parted, and one that is
// higher than a column has it alone.
std::vector<RowPlace> fill_columns(std::span<const double> heights, const RowColumns& columns,
                                   double foot) {
  std::vector<RowPlace> places;
  RowPlace at{0, 0, columns.first_top};
  for (const double height : heights) {
    if (!places.empty() && at.top + height > foot + 1e-6) {
      if (++at.column == columns.count) at = {at.page + 1, 0, 0};
      at.top = at.page == 0 ? columns.first_top : columns.top;
    }
    places.push_back(at);
    at.top += height;
  }
  return places;
}

// The same with columns as short, in steps of `grain` mm, as takes no page more.
std::vector<RowPlace> fill_evenly(std::span<const double> heights, const RowColumns& columns,
                                  double grain) {
  std::vector<RowPlace> full = fill_columns(heights, columns, columns.bottom);
  const double highest = *std::max_element(heights.begin(), heights.end());
  for (double foot = std::max(columns.first_top, columns.top) + highest; foot < columns.bottom;
       foot += grain) {
    std::vector<RowPlace> even = fill_columns(heights, columns, foot);
    if (even.back().page == full.back().page) return even;
  }
  return full;
}

// As few pages as hold the rows, all filled about alike: no column to the foot while
// the next is empty, no page with one last row. Each page takes its share of what is left.
std::vector<RowPlace> place_rows(std::span<const double> heights, RowColumns columns,
                                 double grain) {
  std::vector<RowPlace> places;
  for (std::size_t page = 0; !heights.empty(); ++page) {
    std::size_t here = 0;
    for (RowPlace& place : fill_evenly(heights, columns, grain)) {
      if (place.page > 0) break;
      place.page = page;
      places.push_back(place);
      ++here;
    }
    heights = heights.subspan(here);
    columns.first_top = columns.top;
  }
  return places;
}

std::vector<Page> rows_on(const SheetInput& input, Rows rows, std::string_view kind_name,
                            std::string_view instruction, std::string_view note, bool with_bank) {
  const Plan& plan = *input.plan;
  const PageBox area = plan.frame.area;
  const bool ltr = input.matter.direction == text::Direction::left_to_right;
  const double body = plan.blank.ruling;
  const bool trace = rows == Rows::trace;
  const auto [step, height, number_width, full, words_fit] = ruling_size(input, trace);

  text::Font bold = plan.frame.list_font;
  bold.bold = true;
  const text::Line model =
      input.typesetter->line("Ag", plan.frame.list_font, input.matter.language);
  const double model_height = trace ? model.ascent + model.descent - 0.5 : 0;

  // Columns: as many as the blank allows.
  int columns = 1;
  int lines_each = 1;
  double line_width = full;
  if (!trace) {
    columns = std::clamp(
        static_cast<int>((area.w + rows_apart) / (number_width + plan.blank.width + rows_apart)), 1,
        3);
    line_width = (area.w - rows_apart * (columns - 1)) / columns - number_width;
    lines_each = std::max(1, static_cast<int>(std::ceil(plan.blank.width / line_width - 1e-9)));
    if (lines_each == 1) line_width = std::min(line_width, plan.blank.width);
  }

  std::vector<Row> all;
  for (const PlacedLabel* label : by_number(plan.layout)) {
    Row row{label, {}};
    if (trace)
      row.lines = trace_lines(input, label->text, full, height);
    else
      row.lines.resize(static_cast<std::size_t>(lines_each));
    // A label of more lines than a page holds goes on on the next, each word to
    // trace with its line to copy it on.
    const auto most = static_cast<std::size_t>(
        std::max(1.0, std::floor((area.h - model_height) / step + 1e-9)));
    while (row.lines.size() > most) {
      std::size_t cut = most;
      while (cut > 1 && row.lines[cut].trace.empty() && !row.lines[cut - 1].trace.empty()) --cut;
      all.push_back({label, {row.lines.begin(), row.lines.begin() + static_cast<std::ptrdiff_t>(cut)}});
      row.lines.erase(row.lines.begin(), row.lines.begin() + static_cast<std::ptrdiff_t>(cut));
    }
    all.push_back(std::move(row));
  }

  std::vector<Page> pages;
  const auto begin = [&] {
    Page page = start_page(input, kind_name, note);
    add_row(page, input, instruction, rows != Rows::answered && pages.empty());
    pages.push_back(std::move(page));
  };
  begin();
  const bool guides = trace || body >= Length::in(0.5).mm() - 1e-9;
  // The top line of a tall ruling keeps off the instruction, where that costs no row.
  const double head =
      guides && !trace ? std::min(4.0, std::fmod(area.h + 1e-9, step)) : 0.0;
  double top = area.top() + head;
  if (with_bank) {
    const double bank = bank_height(input, area.w);
    if (bank <= area.h * 0.6) {
      pages.back().items.push_back(draw_bank(input, area.left(), top, area.w));
      top += bank + 5;
    }
  }
  // Several lines to one answer keep off the next answer's, where that takes no page more.
  std::vector<RowPlace> places;
  for (const double between : {0.6 * step, 0.3 * step, 0.0}) {
    std::vector<double> heights;
    for (const Row& row : all)
      heights.push_back(model_height + step * static_cast<double>(row.lines.size()) +
                        (trace || lines_each == 1 ? 0 : between));
    std::vector<RowPlace> apart_so =
        place_rows(heights, {columns, top, area.top() + head, area.bottom()}, step / 4);
    if (places.empty() || apart_so.back().page < places.back().page) places = std::move(apart_so);
  }
  for (std::size_t r = 0; r < all.size(); ++r) {
    const Row& row = all[r];
    while (pages.size() <= places[r].page) begin();
    double y = places[r].top;
    const double offset = places[r].column * (number_width + line_width + rows_apart);
    const double left = ltr ? area.left() + offset + number_width
                            : area.right() - offset - number_width - line_width;
    Group group{Role::blank_list, {}, {}};
    const text::Line number = input.typesetter->line(std::to_string(row.label->number), bold,
                                                     input.matter.language);
    if (trace) {
      // A small printed model of the whole word above its ruling.
      const text::Line word = input.typesetter->line(row.label->text, plan.frame.list_font,
                                                     input.matter.language);
      group.items.push_back(text_at(word, ltr ? left : left + line_width, y + model.ascent - 0.5,
                                    ltr ? Align::left : Align::right, input.style->type.ink));
      y += model_height;
    }
    const double first_baseline = y + height;
    group.items.push_back(text_at(number,
                                  ltr ? left - row_number_gap : left + line_width + row_number_gap,
                                  trace ? y - model_height + model.ascent - 0.5 : first_baseline,
                                  ltr ? Align::right : Align::left, input.style->type.ink));
    for (std::size_t i = 0; i < row.lines.size(); ++i) {
      const double baseline = first_baseline + step * static_cast<double>(i);
      // Guides help hands that are still learning; big rulings mean small hands.
      group.items.push_back(ruling(input, left, baseline, line_width, height, guides));
      const RuledLine& line = row.lines[i];
      if (!line.trace.empty())
        add_trace(group, input, line.trace, ltr ? left : left + line_width - line.trace_width,
                  baseline, height);
    }
    if (rows == Rows::answered) {
      text::Font font = plan.frame.list_font;
      const double h = first_baseline;
      const text::Block block = input.typesetter->paragraph(
          row.label->text, font, input.matter.language, step / font.size.mm(), line_width);
      double baseline = h - 0.8;
      for (std::size_t i = 0; i < block.lines.size() && i < row.lines.size(); ++i) {
        group.items.push_back(text_at(block.lines[i], ltr ? left + 1 : left + line_width - 1,
                                      baseline, ltr ? Align::left : Align::right,
                                      input.style->type.ink));
        baseline += step;
      }
    }
    pages.back().items.push_back(std::move(group));
  }
  return pages;
}

}  // namespace

std::vector<Page> row_pages(const SheetInput& input, Rows rows, std::string_view kind_name,
                            std::string_view instruction, std::string_view note, bool with_bank) {
  const Paper& paper = input.plan->layout.paper;
  if (paper.width <= paper.height)
    return rows_on(input, rows, kind_name, instruction, note, with_bank);
  // Rows have nothing to lie on: upright paper, unless that takes more of it or
  // a word to trace is too wide for it.
  // The word bank has no say, so that worksheet and key turn alike.
  Plan upright = *input.plan;
  upright.frame = frame(oriented(paper, Orientation::portrait), *input.style, input.matter,
                        *input.words, *input.typesetter);
  SheetInput turned = input;
  turned.plan = &upright;
  const auto pages_on = [&](const SheetInput& on) {
    return rows_on(on, rows, kind_name, instruction, note, false).size();
  };
  const bool trace = rows == Rows::trace;
  const bool narrow =
      !ruling_size(turned, trace).words_fit && ruling_size(input, trace).words_fit;
  return rows_on(!narrow && pages_on(turned) <= pages_on(input) ? turned : input, rows, kind_name, instruction,
                 note, with_bank);
}

}  // namespace platewright::compose
