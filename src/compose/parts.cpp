#include "compose/parts.hpp"

#include <algorithm>
#include <cmath>

#include "base/number.hpp"

namespace platewright::compose {
namespace {

bool leads_right(const SheetInput& input) {
  return input.matter.direction == text::Direction::left_to_right;
}

void add_crop_marks(Page& page, const Style& style) {
  const double length = style.page.crop_mark_length.mm();
  const double offset = std::max(page.bleed, 2.0);  // marks stay off the bleed
  const Pen pen{{0, 0, 0}, style.page.crop_mark_width.mm(), {}, false};
  Group marks{Role::crop_marks, {}, {}};
  for (const double x : {0.0, page.width})
    for (const double sign : {-1.0, 1.0}) {
      const double edge = sign < 0 ? 0.0 : page.height;
      marks.items.push_back(
          stroke({x, edge + sign * offset}, {x, edge + sign * (offset + length)}, pen));
    }
  for (const double y : {0.0, page.height})
    for (const double sign : {-1.0, 1.0}) {
      const double edge = sign < 0 ? 0.0 : page.width;
      marks.items.push_back(
          stroke({edge + sign * offset, y}, {edge + sign * (offset + length), y}, pen));
    }
  page.slug = offset + length - page.bleed + 1.0;
  page.items.push_back(std::move(marks));
}

}  // namespace

TextItem text_at(const text::Line& line, double x, double y, Align align, Colour colour) {
  const double shift = align == Align::left     ? 0.0
                       : align == Align::centre ? -line.advance / 2
                                                : -line.advance;
  return {line, {x + shift, y}, colour, std::nullopt};
}

Pen casing_pen(const Style& style) {
  return {style.page.background, style.leader.width.mm() + 2 * style.leader.casing.mm(), {}, false};
}

PathItem stroke(PagePoint from, PagePoint to, const Pen& pen) {
  return {{MoveTo{from}, LineTo{to}}, std::nullopt, pen};
}

PathItem rectangle(const PageBox& b, std::optional<Colour> fill, std::optional<Pen> pen,
                   double corner) {
  if (corner <= 0)
    return {{MoveTo{{b.left(), b.top()}}, LineTo{{b.right(), b.top()}},
             LineTo{{b.right(), b.bottom()}}, LineTo{{b.left(), b.bottom()}}, ClosePath{}},
            fill,
            pen};
  const double r = std::min({corner, b.w / 2, b.h / 2});
  const double k = r * 0.44771525;  // 1 - 4/3 (sqrt 2 - 1), the usual quarter arc
  return {{MoveTo{{b.left() + r, b.top()}}, LineTo{{b.right() - r, b.top()}},
           CurveTo{{b.right() - k, b.top()}, {b.right(), b.top() + k}, {b.right(), b.top() + r}},
           LineTo{{b.right(), b.bottom() - r}},
           CurveTo{{b.right(), b.bottom() - k},
                   {b.right() - k, b.bottom()},
                   {b.right() - r, b.bottom()}},
           LineTo{{b.left() + r, b.bottom()}},
           CurveTo{{b.left() + k, b.bottom()},
                   {b.left(), b.bottom() - k},
                   {b.left(), b.bottom() - r}},
           LineTo{{b.left(), b.top() + r}},
           CurveTo{{b.left(), b.top() + k}, {b.left() + k, b.top()}, {b.left() + r, b.top()}},
           ClosePath{}},
          fill,
          pen};
}

PathItem circle(PagePoint c, double radius, std::optional<Colour> fill, std::optional<Pen> pen) {
  return rectangle({c.x - radius, c.y - radius, 2 * radius, 2 * radius}, fill, pen, radius);
}

Page start_page(const SheetInput& input, std::string_view kind_name, std::string_view note) {
  const Frame& f = input.plan->frame;
  const Style& style = *input.style;
  Page page;
  page.width = f.width;
  page.height = f.height;
  page.bleed = style.page.bleed.mm();
  page.title = input.matter.title.empty() ? std::string(kind_name)
                                          : input.matter.title + " – " + std::string(kind_name);
  page.language = input.matter.language;
  if (style.page.background != Colour{255, 255, 255})
    page.items.push_back(rectangle(
        PageBox{0, 0, f.width, f.height}.grown(page.bleed), style.page.background, std::nullopt));
  if (style.page.crop_marks) add_crop_marks(page, style);

  if (f.title.h > 0) {
    const text::Block block = title_block(*input.typesetter, input.matter.title, f.title_font,
                                          input.matter.language, f.title.w);
    Group title{Role::title, {}, {}};
    double baseline = f.title.top() + block.lines.front().ascent;
    for (const text::Line& line : block.lines) {
      title.items.push_back(
          text_at(line, f.title.centre().x, baseline, Align::centre, style.type.ink));
      baseline += block.leading;
    }
    page.items.push_back(std::move(title));
  }
  if (f.footer.h > 0) {
    Group footer{Role::footer, {}, {}};
    const bool ltr = leads_right(input);
    double y = f.footer.top();
    for (const text::Line& line : f.footer_lines) {
      footer.items.push_back(text_at(line, ltr ? f.footer.left() : f.footer.right(),
                                     y + line.ascent, ltr ? Align::left : Align::right,
                                     style.type.quiet_ink));
      y += 1.3 * line.font.size.mm();
    }
    if (!note.empty()) {
      const text::Line line =
          input.typesetter->line(note, f.footer_font, input.matter.language);
      footer.items.push_back(text_at(line, ltr ? f.footer.right() : f.footer.left(),
                                     f.footer.bottom() - line.descent,
                                     ltr ? Align::right : Align::left, style.type.quiet_ink));
    }
    page.items.push_back(std::move(footer));
  }
  return page;
}

void add_row(Page& page, const SheetInput& input, std::string_view instruction, bool name_line) {
  const Frame& f = input.plan->frame;
  const bool ltr = leads_right(input);
  const Colour ink = input.style->type.ink;
  const RowSetting setting =
      set_row(instruction, name_line, f.row_font, f.row.w, f.growth, *input.style, input.matter,
              *input.words, *input.typesetter);
  Group row{Role::instruction, {}, {}};
  // On the row's last line, so that a short instruction stands by the figure.
  double y = f.row.bottom() - setting.lines.back().descent -
             setting.step * static_cast<double>(setting.lines.size() - 1);
  for (const text::Line& line : setting.lines) {
    if (name_line)
      row.items.push_back(text_at(line, ltr ? f.row.left() : f.row.right(), y,
                                  ltr ? Align::left : Align::right, ink));
    else
      row.items.push_back(text_at(line, f.row.centre().x, y, Align::centre, ink));
    y += setting.step;
  }
  if (name_line) {
    const double baseline = f.row.bottom() - setting.name.descent;
    const Pen pen{ink, input.style->ruling.blank_line.mm(), {}, false};
    const double far_end = ltr ? f.row.right() : f.row.left();
    const double near_end = ltr ? far_end - setting.rule : far_end + setting.rule;
    row.items.push_back(text_at(setting.name, ltr ? near_end - 2 : near_end + 2, baseline,
                                ltr ? Align::right : Align::left, ink));
    row.items.push_back(stroke({std::min(near_end, far_end), baseline + 0.6},
                               {std::max(near_end, far_end), baseline + 0.6}, pen));
  }
  page.items.push_back(std::move(row));
}

void add_figure(Page& page, const SheetInput& input, Art art, double outline_width_mm) {
  const Style& style = *input.style;
  FigureItem item;
  item.transform = input.plan->layout.figure_to_page;
  item.art = style.outline_art ? Art::outlines : art;
  item.outline_width = outline_width_mm;
  item.tint = item.art == Art::outlines ? 1.0 : style.art_tint;
  page.items.push_back(item);
}

std::vector<const PlacedLabel*> by_number(const Layout& layout) {
  std::vector<const PlacedLabel*> labels;
  for (const PlacedLabel& label : layout.labels) labels.push_back(&label);
  std::sort(labels.begin(), labels.end(),
            [](const PlacedLabel* a, const PlacedLabel* b) { return a->number < b->number; });
  return labels;
}

Group ruling(const SheetInput& input, double x, double baseline, double width, double height,
             bool guides) {
  const RulingStyle& r = input.style->ruling;
  Group group{Role::ruling, {}, {}};
  if (guides) {
    group.items.push_back(stroke({x, baseline - height}, {x + width, baseline - height},
                                 Pen{r.line, r.top_line.mm(), {}, false}));
    group.items.push_back(
        stroke({x, baseline - height / 2}, {x + width, baseline - height / 2},
               Pen{r.line, r.midline.mm(), {r.dash.mm(), r.dash.mm()}, false}));
  }
  group.items.push_back(stroke({x, baseline}, {x + width, baseline},
                               Pen{r.base, guides ? r.baseline.mm() : r.blank_line.mm(), {}, false}));
  return group;
}

}  // namespace platewright::compose
