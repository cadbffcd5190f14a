#include "compose/frame.hpp"

#include <algorithm>
#include <cmath>

namespace platewright::compose {
namespace {

// Share of the footer's width that the running text may take; the rest is for
// the check code.
constexpr double footer_text_share = 0.74;
constexpr double title_leading = 1.15;
constexpr int most_title_lines = 3;
constexpr double least_title = 0.7;  // of its size, before a title takes more lines
constexpr double row_size_pt = 12;

std::string footer_text(const Matter& matter, const Words& words) {
  std::string text;
  const auto add = [&text](const std::string& part) {
    if (!text.empty()) text += " · ";
    text += part;
  };
  // A licence follows what it is of: the drawing where there is one.
  const std::string compiled = matter.compiler.empty()
                                   ? std::string()
                                   : fill(words.at("compiled"), "compiler", matter.compiler);
  const bool drawn = !matter.credit.empty();
  if (drawn) add(fill(words.at("credit"), "credit", matter.credit));
  if (!drawn && !compiled.empty()) add(compiled);
  if (!matter.licence.empty()) add(fill(words.at("licence"), "licence", matter.licence));
  if (drawn && !compiled.empty()) add(compiled);
  add(matter.note.empty() ? words.at("learning-note") : matter.note);
  return text;
}

// Lines that the tallest instruction of any kind of sheet takes: room is kept on
// all of them, so that the figure stays where it is.
std::size_t most_row_lines(const text::Font& font, double width, double growth, const Style& style,
                           const Matter& matter, const Words& words,
                           const text::Typesetter& typesetter) {
  std::size_t most = 1;
  for (const char* key : {"instruction-worksheet", "instruction-worksheet-numbered",
                          "instruction-copywork", "instruction-copywork-numbered"})
    most = std::max(most, set_row(words.at(key), true, font, width, growth, style, matter, words,
                                  typesetter)
                              .lines.size());
  for (const char* key : {"instruction-colouring", "list-heading", "key-mark"})
    most = std::max(most, set_row(words.at(key), false, font, width, growth, style, matter, words,
                                  typesetter)
                              .lines.size());
  return most;
}

}  // namespace

RowSetting set_row(std::string_view instruction, bool name_line, const text::Font& font,
                   double width, double growth, const Style& style, const Matter& matter,
                   const Words& words, const text::Typesetter& typesetter) {
  constexpr double longest_rule = 60;  // mm on a page 210 mm across
  constexpr double rule_share = 0.3;   // of the row
  RowSetting row;
  double free = width;
  if (name_line) {
    row.name = typesetter.line(words.at("name-line"), font, matter.language);
    row.rule = std::min(longest_rule * growth, rule_share * width);
    free -= row.name.advance + 2 + row.rule + 6;
  }
  text::Font own = font;
  text::Line line = typesetter.line(instruction, own, matter.language);
  if (line.advance > free && name_line) {
    const double give = std::min(row.rule / 2, line.advance - free);
    row.rule -= give;
    free += give;
  }
  row.lines = {line};
  if (line.advance > free) {
    own.size = std::max(own.size * (free / line.advance),
                        style.for_age(matter.youngest).text_floor);
    row.lines = typesetter.paragraph(instruction, own, matter.language, 1.2, free).lines;
  }
  row.step = 1.2 * own.size.mm();
  return row;
}

std::string faces(const Style& style) {
  std::string all = style.type.face;
  for (const std::string& face : style.type.further_faces) all += "," + face;
  return all;
}

text::Block title_block(const text::Typesetter& typesetter, const std::string& title,
                        const text::Font& font, const std::string& language, double width) {
  auto ways = typesetter.ways(title, font, language, title_leading, most_title_lines);
  for (text::Block& way : ways)
    if (way.width <= width * 1.001) return std::move(way);
  return std::move(ways.back());
}

Frame frame(const Paper& paper, const Style& style, const Matter& matter, const Words& words,
            const text::Typesetter& typesetter) {
  Frame f;
  f.width = paper.width.mm();
  f.height = paper.height.mm();
  const double shorter = std::min(f.width, f.height);
  f.growth = shorter / 210.0;
  // On small cards the usual margin would leave no room: never more than an eighth.
  f.margin = std::min(std::max(style.page.margin.mm(), style.page.margin_share * shorter),
                      shorter / 8);
  const double inner = f.width - 2 * f.margin;
  const AgeRow& age = style.for_age(matter.youngest);

  const std::string family = faces(style);
  f.title_font = {family, style.page.title_size * f.growth, style.type.bold_title, false};
  const Length row_size = std::max(Length::pt(row_size_pt * std::sqrt(f.growth)), age.text_floor);
  f.row_font = {family, row_size, false, false};
  f.list_font = {family, row_size, false, false};
  f.footer_font = {family, style.page.footer_size * std::max(1.0, std::sqrt(f.growth)), false,
                   false};

  double y = f.margin;
  if (style.page.title && !matter.title.empty()) {
    // A little smaller in one line, or in more lines.
    const auto ways = typesetter.ways(matter.title, f.title_font, matter.language, title_leading,
                                      most_title_lines);
    double size = 0;
    for (const text::Block& way : ways) {
      if (size >= least_title) break;
      size = std::max(size, std::min(1.0, inner / way.width));
    }
    f.title_font.size = f.title_font.size * size;
    const text::Block block =
        title_block(typesetter, matter.title, f.title_font, matter.language, inner);
    const text::Line& line = block.lines.back();
    // The type's line box is taller than its letters: the page's margin is white enough.
    const double h =
        (static_cast<double>(block.lines.size()) - 1) * block.leading + line.ascent + line.descent;
    f.title = {f.margin, y - 0.15 * line.ascent, inner, h};
    y = f.title.bottom() - 0.3 * line.descent;
  } else {
    f.title = {f.margin, y, inner, 0};
  }
  const text::Line row = typesetter.line(words.at("name-line"), f.row_font, matter.language);
  const std::size_t lines =
      most_row_lines(f.row_font, inner, f.growth, style, matter, words, typesetter);
  f.row = {f.margin, y, inner,
           row.ascent + row.descent +
               1.2 * f.row_font.size.mm() * static_cast<double>(lines - 1)};
  y = f.row.bottom() + style.page.title_gap.mm() * 0.5;

  double bottom = f.height - f.margin;
  if (style.page.footer) {
    text::Block block = typesetter.paragraph(footer_text(matter, words), f.footer_font,
                                             matter.language, 1.3, inner * footer_text_share);
    f.footer_lines = block.lines;
    f.footer = {f.margin, bottom - block.height, inner, block.height};
    bottom = f.footer.top() - style.page.footer_gap.mm();
  } else {
    f.footer = {f.margin, bottom, inner, 0};
  }
  f.area = {f.margin, y, inner, std::max(1.0, bottom - y)};
  return f;
}

}  // namespace platewright::compose
