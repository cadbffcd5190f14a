#include "compose/review/flow.hpp"

#include <algorithm>
#include <cmath>

#include "base/random.hpp"

namespace platewright::compose {
namespace {

constexpr double leading = 1.25;         // ems
constexpr double size_step = 0.94;
constexpr double middling = 0.8;         // of the wanted size, where several pages are needed
constexpr double smallest = 0.66;        // of it, to keep all on one page
constexpr double least_window = 0.16;    // of the figure's longer side
constexpr double point_window = 0.26;    // the same around a mere point, which shows no outline
constexpr double mark_margin = 0.14;     // of a picture's sides, between its mark and its edge

}  // namespace

ReviewPages::ReviewPages(const SheetInput& input, std::string_view kind, std::string instruction,
                         bool key)
    : plan_(*input.plan), input_(input), kind_(kind), instruction_(std::move(instruction)),
      key_(key) {
  // The frame's row has room for other kinds' instructions: make room for this one.
  Frame& f = plan_.frame;
  const RowSetting row =
      set_row(key_ ? input.words->at("key-mark") : instruction_, !key_, f.row_font, f.row.w,
              f.growth, *input.style, input.matter, *input.words, *input.typesetter);
  const double height = row.lines.front().ascent + row.lines.back().descent +
                        row.step * static_cast<double>(row.lines.size() - 1);
  const double more = height - f.row.h;
  f.row.h += more;
  f.area.y += more;
  f.area.h = std::max(1.0, f.area.h - more);
  input_.plan = &plan_;
}

Page& ReviewPages::begin() {
  Page page = start_page(input_, input_.words->at(kind_), code_note(input_));
  if (key_) page.title += " – " + input_.words->at("key");
  page.description = page.title + ". " + instruction_;
  if (key_)
    add_row(page, input_, input_.words->at("key-mark"), false);
  else
    add_row(page, input_, instruction_, named_ && pages_.empty());
  pages_.push_back(std::move(page));
  return pages_.back();
}

bool leads_right(const SheetInput& input) {
  return input.matter.direction == text::Direction::left_to_right;
}
double start_of(const SheetInput& input, const PageBox& box) {
  return leads_right(input) ? box.left() : box.right();
}
double end_of(const SheetInput& input, const PageBox& box) {
  return leads_right(input) ? box.right() : box.left();
}
Align at_start(const SheetInput& input) { return leads_right(input) ? Align::left : Align::right; }
Align at_end(const SheetInput& input) { return leads_right(input) ? Align::right : Align::left; }

PageBox part_of(const SheetInput& input, const PageBox& box, double from, double width) {
  return {leads_right(input) ? box.left() + from : box.right() - from - width, box.y, width, box.h};
}

std::vector<Length> reading_sizes(const SheetInput& input) {
  const AgeRow& age = input.style->for_age(input.matter.youngest);
  const double grown = std::sqrt(std::max(1.0, input.plan->frame.growth));
  std::vector<Length> sizes;
  for (Length size = age.text_wanted * grown; size > age.text_floor * 1.02;
       size = size * size_step)
    sizes.push_back(size);
  sizes.push_back(age.text_floor);
  return sizes;
}

text::Font reading_font(const SheetInput& input, Length size, bool bold) {
  return {faces(*input.style), size, bold, false};
}

Length floor_of(const SheetInput& input) {
  return input.style->for_age(input.matter.youngest).text_floor;
}

text::Block set_text(const SheetInput& input, std::string_view text, const text::Font& font,
                     double width) {
  return input.typesetter->paragraph(text, font, input.matter.language, leading, width);
}

void add_text(Group& group, const SheetInput& input, const text::Block& block, const PageBox& box,
              double top, Colour colour, bool centred) {
  double baseline = top + block.lines.front().ascent;
  for (const text::Line& line : block.lines) {
    group.items.push_back(text_at(line, centred ? box.centre().x : start_of(input, box), baseline,
                                  centred ? Align::centre : at_start(input), colour));
    baseline += block.leading;
  }
}

void add_centred(Group& group, const SheetInput& input, std::string_view text,
                 const text::Font& font, const PageBox& box, Colour colour) {
  const std::string_view language = input.matter.language;
  const auto height = [](const text::Block& b) { return b.height; };
  text::Font own = font;
  text::Block block;
  const double floor = floor_of(input).pt();
  for (int round = 0; round < 40; ++round) {
    // Whole words first: the fewest lines that are narrow enough.
    bool fits = false;
    const int lines = std::clamp(static_cast<int>(box.h / (leading * own.size.mm())), 4, 8);
    for (const text::Block& way : input.typesetter->ways(text, own, language, leading, lines)) {
      block = way;
      if (way.width <= box.w + 1e-6 && height(way) <= box.h + 1e-6) {
        fits = true;
        break;
      }
    }
    if (fits) break;
    if (own.size.pt() <= floor * 0.75) {
      block = input.typesetter->paragraph(text, own, language, leading, box.w);
      break;
    }
    own.size = own.size * size_step;
  }
  add_text(group, input, block, box, box.centre().y - block.height / 2, colour, true);
}

void flow(ReviewPages& pages, double gap,
          const std::function<std::vector<FlowBlock>(const text::Font&, double width)>& blocks_at) {
  const SheetInput& input = pages.input();
  const PageBox area = pages.area();
  const auto total_of = [&](const std::vector<FlowBlock>& blocks) {
    double total = 0;
    for (const FlowBlock& b : blocks) total += b.height + gap;
    return total - gap;
  };
  using Blocks = std::vector<FlowBlock>;
  // First blocks of the pages, none taller than `room` where it can be helped.
  const auto breaks_at = [&](const Blocks& blocks, double room) {
    std::vector<std::size_t> firsts{0};
    double used = 0;
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      double need = blocks[i].height;
      if (blocks[i].keep_with_next && i + 1 < blocks.size()) need += gap + blocks[i + 1].height;
      if (used + need > room + 1e-6 && used > 0) {
        firsts.push_back(i);
        used = 0;
      }
      used += blocks[i].height + gap;
    }
    return firsts;
  };
  Blocks blocks;
  const std::vector<Length> sizes = reading_sizes(input);
  bool one_page = false;
  for (const Length size : sizes) {
    if (size < sizes.front() * smallest) break;
    blocks = blocks_at(reading_font(input, size), area.w);
    if ((one_page = total_of(blocks) <= area.h + 1e-6)) break;
  }
  if (!one_page) {
    // The largest type that takes no more pages than a middling size would.
    const Length least = std::max(sizes.back(), sizes.front() * middling);
    Blocks middling_blocks = blocks_at(reading_font(input, least), area.w);
    const std::size_t count = breaks_at(middling_blocks, area.h).size();
    bool found = false;
    for (const Length size : sizes) {
      if (!(size > least)) break;
      blocks = blocks_at(reading_font(input, size), area.w);
      if ((found = breaks_at(blocks, area.h).size() <= count)) break;
    }
    if (!found) blocks = std::move(middling_blocks);
  }
  // As few pages as can be, about equally full, each evenly spread.
  std::vector<std::size_t> firsts = breaks_at(blocks, area.h);
  for (double room = area.h * 0.98; room > 0.3 * area.h; room -= area.h * 0.02) {
    std::vector<std::size_t> lower = breaks_at(blocks, room);
    if (lower.size() > firsts.size()) break;
    firsts = std::move(lower);
  }
  for (std::size_t p = 0; p < firsts.size(); ++p) {
    const std::size_t end = p + 1 < firsts.size() ? firsts[p + 1] : blocks.size();
    double used = -gap;
    for (std::size_t i = firsts[p]; i < end; ++i) used += blocks[i].height + gap;
    const auto gaps = static_cast<double>(end - firsts[p]) - 1;
    const double spread =
        gap + (gaps > 0 ? std::clamp((area.h - used) / gaps, 0.0, 1.2 * gap + 2) : 0);
    pages.begin();
    double y = area.top();
    for (std::size_t i = firsts[p]; i < end; ++i) {
      Group group{Role::blank_list, {}, {}};
      blocks[i].draw(group, {area.x, y, area.w, blocks[i].height});
      pages.current().items.push_back(std::move(group));
      y += blocks[i].height + spread;
    }
  }
}

FigureToPage fit_figure(const Figure& figure, const PageBox& box) {
  const FigureBox& p = figure.painted;
  const double scale = std::min(box.w / p.w, box.h / p.h);
  const PagePoint middle = box.centre();
  return {scale, {middle.x - scale * p.centre().x, middle.y - scale * p.centre().y}};
}

void add_part_picture(Group& group, const SheetInput& input, std::string_view anchor_name,
                      const PageBox& box, double context, bool marked) {
  const Anchor* anchor = input.figure->find(anchor_name);
  // No room, no picture: on paper of a few centimetres.
  if (!anchor || anchor->points.empty() || box.w < 2 || box.h < 2) return;
  const FigureBox& whole = input.figure->painted;
  const FigurePoint best = anchor->points.front().at;
  const bool region = anchor->kind == AnchorKind::region;
  const FigurePoint middle = region ? anchor->box.centre() : best;
  const double least = (region ? least_window : point_window) * std::max(whole.w, whole.h);
  const double wanted_w = std::max(region ? anchor->box.w * context : 0, least);
  const double wanted_h = std::max(region ? anchor->box.h * context : 0, least);
  // Never smaller than the whole figure would be.
  const double scale = std::max(std::min(box.w / wanted_w, box.h / wanted_h),
                                std::min(box.w / whole.w, box.h / whole.h));
  // The window slides back onto the figure where it would show much white.
  const auto slid = [](double centre, double window, double low, double length) {
    if (window >= length) return low + length / 2;
    return std::clamp(centre, low + window / 2, low + length - window / 2);
  };
  // The marked place stays well inside the window.
  const auto held = [](double centre, double window, double at) {
    const double reach = (0.5 - mark_margin) * window;
    return std::clamp(centre, at - reach, at + reach);
  };
  const double x = held(slid(middle.x, box.w / scale, whole.x, whole.w), box.w / scale, best.x);
  const double y = held(slid(middle.y, box.h / scale, whole.y, whole.h), box.h / scale, best.y);
  FigureItem item;
  item.transform = {scale, {box.centre().x - scale * x, box.centre().y - scale * y}};
  item.clip = box;
  item.art = input.style->outline_art ? Art::outlines : Art::painted;
  item.outline_width = 0.5;
  item.tint = item.art == Art::outlines ? 1.0 : input.style->art_tint;
  group.items.push_back(item);
  if (!marked) return;
  // Every end of a forked leader that the window shows.
  const LeaderStyle& look = input.style->leader;
  const std::size_t ends = anchor->kind == AnchorKind::points ? anchor->points.size() : 1;
  for (std::size_t i = 0; i < ends; ++i) {
    const PagePoint at = item.transform(anchor->points[i].at);
    if (!box.grown(-look.dot.mm()).contains(at)) continue;
    const double size = std::max(look.dot.mm() * 1.3, 0.045 * std::min(box.w, box.h));
    group.items.push_back(circle(at, size * 0.95, Colour{255, 255, 255}, std::nullopt));
    group.items.push_back(circle(at, size * 0.6, look.colour, std::nullopt));
  }
}

std::vector<StudyTerm> dealt(std::vector<StudyTerm> terms, std::size_t most, Random& random) {
  shuffle(terms, random);
  if (most > 0 && terms.size() > most) terms.resize(most);
  return terms;
}

std::string code_note(const SheetInput& input) {
  return fill(input.words->at("fingerprint"), "code", input.check_code);
}

std::string plain(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text.substr(i, 2) == "\xC2\xAD") {
      ++i;
    } else {
      out += text[i] == '\n' ? ' ' : text[i];
    }
  }
  return out;
}

std::string short_name(std::string_view text) {
  std::string name = plain(text);
  if (const std::size_t bracket = name.find(" ("); bracket != std::string::npos && bracket > 0)
    name.erase(bracket);
  return name;
}

}  // namespace platewright::compose
