// A page of the writer's own text, set for its readers: a reading passage, an
// activity, a list of books.
#include <algorithm>
#include <utility>

#include "compose/emphasised.hpp"
#include "compose/pack_parts.hpp"
#include "text/code.hpp"

namespace platewright::compose {
namespace {

class TextPage {
 public:
  TextPage(const PackInput& input, double width)
      : input_(input), style_(*input.style), age_(style_.for_age(input.matter.youngest)),
        width_(width) {
    body_ = {faces(style_),
             std::max(style_.pack.reading_floor, age_.text_wanted * style_.pack.reading), false,
             false};
    em_ = body_.size.mm();
  }

  std::vector<Strip> strips(const PageText& text) {
    for (const PageBlock& block : text.blocks) add(block);
    return std::move(strips_);
  }

 private:
  using Kind = PageBlock::Kind;

  void add(const PageBlock& block) {
    switch (block.kind) {
      case Kind::new_page: turn_ = true; return;
      case Kind::heading: heading(block); break;
      case Kind::paragraph: prose(block, {}, 0); break;
      case Kind::bullet: prose(block, "•", 1.3 * em_); break;
      case Kind::number: prose(block, std::to_string(block.number) + ".", 1.9 * em_); break;
      case Kind::caution: caution(block); break;
      case Kind::link: link(block); break;
    }
    write_on(block.lines);
  }

  void push(Strip strip) {
    strip.turn = std::exchange(turn_, false);
    strips_.push_back(std::move(strip));
  }

  text::Block set(const std::string& text, const text::Font& font, double width) const {
    return input_.typesetter->paragraph(text, font, input_.matter.language,
                                        style_.pack.reading_leading, width);
  }

  // A paragraph's lines, and the step from one to the next.
  std::pair<std::vector<PiecedLine>, double> lines_of(const PageBlock& block,
                                                      const text::Font& font, double width) const {
    const text::Block plain = set(block.text, font, width);
    std::vector<PiecedLine> lines;
    if (block.emphasis.empty())
      for (const text::Line& line : plain.lines)
        lines.push_back({{{line, 0}}, line.advance, line.ascent});
    else
      lines = emphasised(block.text, block.emphasis, font, input_.matter.language,
                         *input_.typesetter, width);
    return {std::move(lines), plain.leading};
  }

  void add_line(Group& group, const PiecedLine& line, double x, double y, double width) const {
    for (const FacedRun& run : line.runs)
      group.items.push_back(line_in(input_, run.line, reads_right(input_) ? x + run.offset : x, y,
                                    width - run.offset, false, style_.type.ink));
  }

  // One line of a block as a strip.
  Strip line_strip(const PiecedLine& line, double indent, double step) const {
    Strip strip;
    strip.height = step;
    strip.draw = [this, line, indent](LinkedPage& page, double x, double y, double width) {
      Group group{Role::instruction, {}, {}};
      add_line(group, line, reads_right(input_) ? x + indent : x, y + line.ascent, width - indent);
      page.page.items.push_back(std::move(group));
    };
    return strip;
  }

  void heading(const PageBlock& block) {
    text::Font font = body_;
    font.bold = true;
    font.size = font.size * 1.25;
    const auto [lines, leading] = lines_of(block, font, width_);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      Strip strip = line_strip(lines[i], 0, leading);
      strip.above = i == 0 ? 0.9 * em_ : 0;
      strip.stay = true;
      push(std::move(strip));
    }
  }

  void prose(const PageBlock& block, const std::string& mark, double indent) {
    if (block.text.empty()) return;
    const auto [lines, leading] = lines_of(block, body_, width_ - indent);
    const bool item = !mark.empty();
    for (std::size_t i = 0; i < lines.size(); ++i) {
      Strip strip = line_strip(lines[i], indent, leading);
      if (i == 0) strip.above = item ? 0.25 * em_ : 0.6 * em_;
      // No single line of a paragraph alone on a page; a question keeps its lines.
      strip.stay = block.lines > 0 || (lines.size() > 1 && (i == 0 || i + 2 == lines.size()));
      if (i == 0 && item) {
        text::Font font = body_;
        font.bold = block.kind == Kind::number;
        const text::Line sign = input_.typesetter->line(mark, font, input_.matter.language);
        const auto below = strip.draw;
        strip.draw = [this, sign, below](LinkedPage& page, double x, double y, double width) {
          page.page.items.push_back(
              Group{Role::instruction,
                    {},
                    {line_in(input_, sign, x, y + sign.ascent, width, false, style_.type.ink)}});
          below(page, x, y, width);
        };
      }
      push(std::move(strip));
    }
  }

  // Ruled lines as tall as the readers write.
  void write_on(int lines) {
    const double ruling = age_.ruling.mm();
    for (int i = 0; i < lines; ++i) {
      Strip strip;
      strip.height = ruling * (1 + style_.ruling.descender);
      strip.stay = i + 1 < lines;
      strip.draw = [this, ruling](LinkedPage& page, double x, double y, double width) {
        const Pen pen{style_.ruling.base, style_.ruling.blank_line.mm(), {}, false};
        page.page.items.push_back(
            Group{Role::ruling, {}, {stroke({x, y + ruling}, {x + width, y + ruling}, pen)}});
      };
      push(std::move(strip));
    }
  }

  void caution(const PageBlock& block) {
    const double pad = 0.7 * em_;
    const double sign = 2.2 * em_;  // side of the triangle
    text::Font bold = body_;
    bold.bold = true;
    const text::Line head =
        input_.typesetter->line(input_.words->at("caution"), bold, input_.matter.language);
    const auto [lines, leading] = lines_of(block, body_, width_ - 3 * pad - sign);
    const double text_height = leading * static_cast<double>(1 + lines.size()) + 0.2 * em_;
    Strip strip;
    strip.above = 0.8 * em_;
    strip.height = std::max(text_height, 0.87 * sign) + 2 * pad;
    const text::Font mark_font{body_.face, Length::mm(0.5 * sign), true, false};
    const text::Line mark = input_.typesetter->line("!", mark_font, "en");
    strip.draw = [this, pad, sign, head, lines = lines, leading = leading, mark,
                  height = strip.height](LinkedPage& page, double x, double y, double width) {
      const Colour colour = style_.pack.caution;
      Group group{Role::instruction, {}, {}};
      group.items.push_back(
          rectangle({x, y, width, height}, std::nullopt, Pen{colour, 0.7, {}, true}, 2.5));
      const bool ltr = reads_right(input_);
      const double left = ltr ? x + pad : x + width - pad - sign;
      const double top = y + (height - 0.87 * sign) / 2;
      group.items.push_back(PathItem{{MoveTo{{left + sign / 2, top}},
                                      LineTo{{left + sign, top + 0.87 * sign}},
                                      LineTo{{left, top + 0.87 * sign}}, ClosePath{}},
                                     std::nullopt,
                                     Pen{colour, 0.7, {}, true}});
      group.items.push_back(text_at(mark, left + sign / 2, top + 0.78 * sign, Align::centre, colour));
      const double text_x = ltr ? x + 2 * pad + sign : x + pad;
      const double text_width = width - 3 * pad - sign;
      double baseline = y + pad + head.ascent;
      group.items.push_back(
          line_in(input_, head, text_x, baseline, text_width, false, style_.type.ink));
      for (const PiecedLine& line : lines) {
        baseline += leading;
        add_line(group, line, text_x, baseline, text_width);
      }
      page.page.items.push_back(std::move(group));
    };
    push(std::move(strip));
  }

  // A code to scan beside the words and the address to type.
  void link(const PageBlock& block) {
    const auto code = text::code_of(block.link);
    if (!code) return;
    const double module = style_.pack.code_module.mm();
    const double side = module * (code->side + 2 * text::quiet_modules);
    const double pad = 0.6 * em_;
    text::Font bold = body_;
    bold.bold = true;
    const text::Font small{body_.face, body_.size * 0.8, false, false};
    std::vector<text::Block> blocks;
    const double room = width_ - side - pad;
    if (!block.text.empty()) blocks.push_back(set(block.text, bold, room));
    blocks.push_back(set(input_.words->at("scan-code"), small, room));
    blocks.push_back(set(block.link, small, room));
    double text_height = 0;
    for (const text::Block& b : blocks)
      text_height += b.leading * static_cast<double>(b.lines.size());
    Strip strip;
    strip.above = 0.5 * em_;
    strip.height = std::max(side, text_height);
    strip.draw = [this, code = *code, module, side, pad, blocks, text_height, block,
                  height = strip.height](LinkedPage& page, double x, double y, double width) {
      const bool ltr = reads_right(input_);
      const double left = ltr ? x : x + width - side;
      const double top = y + (height - side) / 2;
      // White below, on papers of another colour too.
      page.page.items.push_back(
          Group{Role::plain, {}, {rectangle({left, top, side, side}, Colour{255, 255, 255},
                                            std::nullopt)}});
      PathItem dark;
      dark.fill = Colour{0, 0, 0};
      const double quiet = text::quiet_modules * module;
      for (int row = 0; row < code.side; ++row)
        for (int column = 0; column < code.side;) {
          if (!code.at(column, row)) {
            ++column;
            continue;
          }
          int end = column;
          while (end < code.side && code.at(end, row)) ++end;
          const double x0 = left + quiet + column * module, x1 = left + quiet + end * module;
          const double y0 = top + quiet + row * module, y1 = y0 + module;
          for (const PathStep& step : std::initializer_list<PathStep>{
                   MoveTo{{x0, y0}}, LineTo{{x1, y0}}, LineTo{{x1, y1}}, LineTo{{x0, y1}},
                   ClosePath{}})
            dark.steps.push_back(step);
          column = end;
        }
      page.page.items.push_back(Group{Role::plain, {}, {std::move(dark)}});
      const double text_x = ltr ? x + side + pad : x;
      Group group{Role::instruction, {}, {}};
      double at = y + (height - text_height) / 2;
      for (const text::Block& b : blocks)
        for (const text::Line& line : b.lines) {
          group.items.push_back(line_in(input_, line, text_x, at + line.ascent,
                                        width - side - pad, false, style_.type.ink));
          at += b.leading;
        }
      page.page.items.push_back(std::move(group));
      page.links.push_back({{x, y, width, height}, -1, block.link,
                            block.text.empty() ? block.link : block.text});
    };
    push(std::move(strip));
  }

  const PackInput& input_;
  const Style& style_;
  AgeRow age_;
  double width_;
  text::Font body_;
  double em_ = 0;
  bool turn_ = false;
  std::vector<Strip> strips_;
};

}  // namespace

std::vector<LinkedPage> text_pages(const PackInput& input, const PageText& text) {
  const Blankpage blank(input, text.title);
  TextPage setter(input, blank.room.w);
  const std::vector<Strip> strips = setter.strips(text);
  return flow(strips, {blank.room, 1, 0}, reads_right(input),
              [&] { return blank.start(text.title); });
}

}  // namespace platewright::compose
