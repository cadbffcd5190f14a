#include "compose/pack_parts.hpp"

#include <algorithm>

namespace platewright::compose {

bool reads_right(const PackInput& input) {
  return input.matter.direction == text::Direction::left_to_right;
}

Blankpage::Blankpage(const PackInput& from, const std::string& title, std::string far_note)
    : note(std::move(far_note)) {
  input.plan = &plan;
  input.style = from.style;
  input.words = from.words;
  input.typesetter = from.typesetter;
  input.matter = from.matter;
  input.matter.title = title;
  plan.frame = frame(from.paper, *from.style, input.matter, *from.words, *from.typesetter);
  plan.leading = from.style->type.leading;
  const Frame& f = plan.frame;
  // These pages have no instruction below the title.
  const double top = f.title.h > 0 ? f.title.bottom() + 2 : f.margin;
  room = {f.area.left(), top, f.area.w, f.area.bottom() - top};
}

LinkedPage Blankpage::start(const std::string& page_title) const {
  LinkedPage linked{start_page(input, page_title, note), {}};
  linked.page.title = page_title;
  linked.page.description = page_title;
  return linked;
}

TextItem line_in(const PackInput& input, const text::Line& line, double x, double y, double width,
                 bool far_side, Colour colour) {
  const bool at_left = reads_right(input) != far_side;
  return text_at(line, at_left ? x : x + width, y, at_left ? Align::left : Align::right, colour);
}

Page running_page(const PackInput& input, const RunningLine& line) {
  const Style& style = *input.style;
  Page page;
  page.width = line.width;
  page.height = line.height;
  page.slug = line.around;
  page.language = input.matter.language;
  const double shorter = std::min(line.width, line.height);
  const double margin = std::min(
      std::max(style.page.margin.mm(), style.page.margin_share * shorter), shorter / 8);
  const text::Font font{faces(style), style.pack.running_size, false, false};
  text::Font bold = font;
  bold.bold = true;
  const text::Line number = input.typesetter->line(line.number, bold, input.matter.language);
  // Below the footer, yet clear of the quarter inch that most printers can't reach.
  const double ascent = number.ascent;
  const double y = line.height - std::max(margin - ascent - 1.2, 0.5 * margin);
  const double inner = line.width - 2 * margin;
  text::Line words = input.typesetter->line(line.text, font, input.matter.language);
  Group footer{Role::footer, {}, {}};
  if (words.advance <= inner - number.advance - 4)
    footer.items.push_back(
        line_in(input, words, margin, y, inner, false, style.type.quiet_ink));
  footer.items.push_back(line_in(input, number, margin, y, inner, true, style.type.ink));
  page.items.push_back(std::move(footer));
  return page;
}

LinkedPage empty_page(const PackInput& input) {
  return Blankpage(input, {}).start(input.matter.title);
}

LinkedPage pack_cover(const PackInput& input, const Cover& cover) {
  const Style& style = *input.style;
  std::string paper = input.paper.name;  // "a4" is printed as "A4"
  if (!paper.empty() && paper[0] >= 'a' && paper[0] <= 'z')
    paper[0] = static_cast<char>(paper[0] - 'a' + 'A');
  PackInput credited = input;
  if (cover.figure != nullptr && style.pack.cover_figure > 0 &&
      !(cover.credit.empty() && cover.licence.empty())) {
    credited.matter.credit = cover.credit;
    credited.matter.licence = cover.licence;
  }
  const Blankpage blank(credited, {}, fill(input.words->at("paper-name"), "paper", paper));
  LinkedPage linked = blank.start(cover.title);
  const Frame& f = blank.plan.frame;
  const PageBox room = blank.room;
  const double middle = room.centre().x;
  const std::string family = faces(style);
  const std::string& language = input.matter.language;

  Group title{Role::title, {}, {}};
  text::Font font{family, style.pack.cover_title * f.growth, style.type.bold_title, false};
  text::Block block;
  // A long title is set smaller before it takes more than three lines.
  for (;; font.size = font.size * 0.94) {
    block = input.typesetter->ways(cover.title, font, language, 1.1, 3).back();
    const text::Block narrow = input.typesetter->paragraph(cover.title, font, language, 1.1, room.w);
    if (narrow.lines.size() < block.lines.size() || block.width > room.w) block = narrow;
    if ((block.width <= room.w && block.lines.size() <= 3) || font.size.pt() < 14) break;
  }
  double y = room.top() + 0.06 * room.h;
  for (const text::Line& line : block.lines) {
    title.items.push_back(text_at(line, middle, y + line.ascent, Align::centre, style.type.ink));
    y += block.leading > 0 ? block.leading : line.ascent + line.descent;
  }
  y += block.lines.back().descent;
  linked.page.items.push_back(std::move(title));

  Group words{Role::instruction, {}, {}};
  if (!cover.subtitle.empty()) {
    const text::Font small{family, Length::pt(15) * f.growth, false, false};
    const text::Block under =
        input.typesetter->paragraph(cover.subtitle, small, language, 1.3, 0.86 * room.w);
    y += 2 * f.growth;
    for (const text::Line& line : under.lines) {
      words.items.push_back(
          text_at(line, middle, y + line.ascent, Align::centre, style.type.quiet_ink));
      y += under.leading;
    }
  }
  const text::Font readers{family, Length::pt(22) * f.growth, true, false};
  const text::Line ages = input.typesetter->line(cover.readers, readers, language);
  const double foot = room.bottom() - 0.04 * room.h;
  words.items.push_back(
      text_at(ages, middle, foot - ages.descent, Align::centre, style.type.ink));
  const double rule_y = foot - ages.ascent - ages.descent - 3;
  words.items.push_back(stroke({middle - 0.16 * room.w, rule_y}, {middle + 0.16 * room.w, rule_y},
                               Pen{style.ruling.base, 0.6, {}, true}));

  const PageBox free{room.left(), y + 8, room.w, rule_y - 8 - (y + 8)};
  if (cover.figure != nullptr && free.h > 20 && style.pack.cover_figure > 0) {
    const FigureBox& painted = cover.figure->painted;
    const double high = std::min(free.h, style.pack.cover_figure * f.height);
    const double scale = std::min(0.9 * free.w / painted.w, high / painted.h);
    const PagePoint at = free.centre();
    FigureItem item;
    item.transform = {scale, {at.x - scale * painted.centre().x, at.y - scale * painted.centre().y}};
    item.art = style.outline_art ? Art::outlines : Art::painted;
    item.outline_width = style.for_age(input.matter.youngest).colouring_line.mm();
    item.tint = style.outline_art ? 1.0 : style.art_tint;
    linked.page.items.push_back(item);
  }
  linked.page.items.push_back(std::move(words));
  return linked;
}

std::vector<LinkedPage> contents_pages(const PackInput& input, const std::string& title,
                                       const std::vector<ContentsEntry>& entries,
                                       const std::string& note) {
  const Style& style = *input.style;
  const Blankpage blank(input, title);
  const std::string family = faces(style);
  const double size = style.pack.contents_size.pt();
  constexpr double indent = 4.5;  // mm a level
  const auto strips_for = [&](double width) {
    std::vector<Strip> strips;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const ContentsEntry& entry = entries[i];
      const double grow = entry.level == 0 ? 1.18 : entry.level == 1 ? 1.0 : 0.94;
      const text::Font font{family, Length::pt(size * grow), entry.level < 2, false};
      text::Font plain = font;
      plain.bold = entry.level == 0;
      const double left = entry.level * indent;
      const text::Line number = input.typesetter->line(entry.page, plain, input.matter.language);
      // Numbers take at most four digits, whatever they are.
      const double reserved =
          input.typesetter->line("8888", plain, input.matter.language).advance + 2;
      const text::Block block = input.typesetter->paragraph(
          entry.text, font, input.matter.language, 1.2, width - left - reserved);
      Strip strip;
      strip.above = entry.level == 0 ? 4.5 : entry.level == 1 ? 1.6 : 0.2;
      strip.height = block.height;
      // A section's heading stays with its first entry, a figure with its sheets.
      const int next = i + 1 < entries.size() ? entries[i + 1].level : -1;
      strip.stay = next > entry.level || (entry.level == 2 && next == 2);
      strip.draw = [&input, &style, entry, block, number, left](LinkedPage& page, double x,
                                                                double y, double column) {
        const bool ltr = reads_right(input);
        Group group{Role::blank_list, {}, {}};
        double baseline = y + block.lines.front().ascent;
        const double text_x = ltr ? x + left : x;
        for (const text::Line& line : block.lines) {
          group.items.push_back(line_in(input, line, text_x, baseline, column - left, false,
                                        style.type.ink));
          baseline += block.leading;
        }
        baseline -= block.leading;
        if (!entry.page.empty()) {
          const double from = left + block.lines.back().advance + 1.8;
          const double to = column - number.advance - 1.8;
          if (to - from > 4)
            group.items.push_back(stroke({ltr ? x + from : x + column - from, baseline - 0.3},
                                         {ltr ? x + to : x + column - to, baseline - 0.3},
                                         Pen{style.ruling.line, 0.35, {0.01, 1.7}, true}));
          group.items.push_back(
              line_in(input, number, x, baseline, column, true, style.type.ink));
        }
        page.page.items.push_back(std::move(group));
        if (entry.target >= 0)
          page.links.push_back({{x, y, column, block.height}, entry.target, {}, entry.text});
      };
      strips.push_back(std::move(strip));
    }
    if (!note.empty()) {
      const text::Font font{family, Length::pt(size * 0.94), false, true};
      const text::Block block =
          input.typesetter->paragraph(note, font, input.matter.language, 1.2, width);
      Strip strip;
      strip.above = 5;
      strip.height = block.height;
      strip.draw = [&input, &style, block](LinkedPage& page, double x, double y, double column) {
        Group group{Role::instruction, {}, {}};
        double baseline = y + block.lines.front().ascent;
        for (const text::Line& line : block.lines) {
          group.items.push_back(
              line_in(input, line, x, baseline, column, false, style.type.quiet_ink));
          baseline += block.leading;
        }
        page.page.items.push_back(std::move(group));
      };
      strips.push_back(std::move(strip));
    }
    return strips;
  };
  Columns columns{blank.room, 1, 10};
  std::vector<Strip> strips = strips_for(columns.width());
  if (height_of(strips) > columns.area.h) {
    columns.count = 2;
    strips = strips_for(columns.width());
  }
  return flow(strips, columns, reads_right(input), [&] { return blank.start(title); });
}

}  // namespace platewright::compose
