// The first page of sheets at true size: what it will be, how to print, check
// and put it together.
#include <algorithm>
#include <cmath>

#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr double text_pt = 11;
constexpr double most_order = 400;  // characters of the list of sheets

std::string order_text(const TrueSizeInput& input) {
  std::string text;
  for (std::size_t i = 1; i < input.order.size(); ++i) {
    text += (text.empty() ? "" : ", ") + place::tile_name(input.order[i]);
    if (static_cast<double>(text.size()) > most_order) return text + " …";
  }
  return text;
}

}  // namespace

std::string scissors_words(const Words& words, std::optional<int> age) {
  if (!age || (*age >= 4 && *age < 7)) return words.at("scissors-caution");
  return *age < 4 ? words.at("scissors-adult") : words.at("scissors-careful");
}

Page cover(const TrueSizeInput& input, Ruler& ruler) {
  const Style& style = *input.style;
  const Words& words = *input.words;
  const std::string& language = input.matter.language;
  const bool ltr = input.matter.direction == text::Direction::left_to_right;
  const std::string family = faces(style);
  const PageBox area = input.printable();
  Page page;
  page.width = input.page_width;
  page.height = input.page_height;
  page.language = language;
  const std::string name = input.matter.title.empty() ? words.at("true-size") : input.matter.title;
  page.title = input.matter.title.empty() ? name : name + " – " + words.at("true-size");
  page.description = page.title;

  text::Font font{family, style.page.title_size, style.type.bold_title, false};
  text::Line line = input.typesetter->line(name, font, language);
  if (line.advance > area.w) {
    font.size = font.size * (area.w / line.advance);
    line = input.typesetter->line(name, font, language);
  }
  double y = area.top() + 0.85 * line.ascent;
  page.items.push_back(
      Group{Role::title, {}, {text_at(line, area.centre().x, y, Align::centre, style.type.ink)}});
  y += line.descent + 2;

  // Footer first, so that the rest knows its room.
  const text::Font small{family, style.page.footer_size, false, false};
  std::string credit;
  const auto add = [&](const std::string& part) { credit += (credit.empty() ? "" : " · ") + part; };
  if (!input.matter.credit.empty()) add(fill(words.at("credit"), "credit", input.matter.credit));
  if (!input.matter.licence.empty())
    add(fill(words.at("licence"), "licence", input.matter.licence));
  add(input.matter.note.empty() ? words.at("learning-note") : input.matter.note);
  const text::Block foot = input.typesetter->paragraph(credit, small, language, 1.3, area.w);
  Group footer{Role::footer, {}, {}};
  double foot_y = area.bottom() - foot.height;
  for (const text::Line& l : foot.lines) {
    footer.items.push_back(text_at(l, ltr ? area.left() : area.right(), foot_y + l.ascent,
                                   ltr ? Align::left : Align::right, style.type.quiet_ink));
    foot_y += foot.leading;
  }
  page.items.push_back(std::move(footer));
  const double bottom = area.bottom() - foot.height - 4;

  // The map on one side, the words on the other.
  const double share = 0.42;
  const PageBox map_box{ltr ? area.left() : area.right() - share * area.w, y, share * area.w,
                        bottom - y};
  const double gap = 7;
  const PageBox words_box{ltr ? map_box.right() + gap : area.left(), y, area.w - map_box.w - gap,
                          bottom - y};
  const PageBox room = ruler_room(Way::across);

  Group text{Role::instruction, {}, {}};
  const double wanted = text_pt * std::max(1.0, std::sqrt(std::min(area.w, area.h) / 190));
  double size = wanted;
  std::vector<std::pair<text::Block, double>> blocks;  // and the gap above
  const auto set = [&] {
    blocks.clear();
    double height = 0;
    const auto say = [&](const std::string& what, double grow, bool bold, double above) {
      if (what.empty()) return;
      const text::Font f{family, Length::pt(size * grow), bold, false};
      blocks.emplace_back(input.typesetter->paragraph(what, f, language, 1.25, words_box.w),
                          above * size / text_pt);
      height += blocks.back().first.height + blocks.back().second;
    };
    say(input.length_text, 1.4, true, 0);
    say(input.length_note, 0.9, false, 0.5);
    say(fill(words.at("sheet-count"), "number", std::to_string(input.tiling.printed.size())), 1.4,
        true, 1);
    say(words.at("print-at-100"), 1.15, true, 5);
    say(words.at("check-ruler"), 1, false, 1.5);
    say(words.at("trim-edges"), 1, false, 4);
    if (input.tiling.printed.size() > 1) {
      say(words.at("glue-strips"), 1, false, 2);
      say(fill(words.at("assemble"), "name", place::tile_name(input.order.front())), 1, false, 2);
      say(fill(words.at("assemble-order"), "order", order_text(input)), 1, false, 1);
    }
    const auto cells = static_cast<std::size_t>(input.tiling.rows) *
                       static_cast<std::size_t>(input.tiling.columns);
    if (input.tiling.printed.size() < cells) say(words.at("empty-left-out"), 1, false, 2);
    say(scissors_words(words, input.age), 1.15, true, 4);
    return height;
  };
  // Smaller type where the words would not fit above the ruler.
  while (set() > words_box.h - room.h - 4 && size > 6) size *= 0.95;
  double at = words_box.top();
  for (const auto& [block, above] : blocks) {
    at += above;
    double baseline = at + block.lines.front().ascent;
    for (const text::Line& l : block.lines) {
      text.items.push_back(text_at(l, ltr ? words_box.left() : words_box.right(), baseline,
                                   ltr ? Align::left : Align::right, style.type.ink));
      baseline += block.leading;
    }
    at += block.height;
  }
  page.items.push_back(std::move(text));

  Group measure{Role::plain, {}, {}};
  RulerLook look;
  look.font = text::Font{family, Length::pt(7), false, false};
  look.language = language;
  look.ink = style.type.ink;
  look.line = 0.3;
  const double ruler_x = room.w <= words_box.w ? words_box.left() : area.right() - room.w;
  ruler = add_ruler(measure, *input.typesetter, look, Way::across, {ruler_x, bottom - room.h});

  // The map ends above a ruler that reaches into its column.
  PageBox free = map_box;
  if (ltr && ruler_x < map_box.right()) free.h = std::max(10.0, bottom - room.h - 3 - free.y);
  Group map{Role::plain, {}, {}};
  const double cells_wide = std::max(1, input.tiling.columns);
  const text::Font named{family, Length::mm(std::clamp(free.w / cells_wide / 4, 2.2, 6.0)), true,
                         false};
  add_tile_map(map, input, free, std::nullopt, &named);
  page.items.push_back(std::move(map));
  page.items.push_back(std::move(measure));
  return page;
}

}  // namespace platewright::compose
