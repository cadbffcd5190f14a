// One page for each part: a plain outline of the figure to draw it in, and lines for what
// it does and two facts.
#include <algorithm>
#include <cmath>
#include <cstdint>

#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "place/offset.hpp"
#include "place/outline.hpp"

namespace platewright::compose {
namespace {

constexpr double writing_share = 0.36;  // of the page's height, at most, for the lines
constexpr double smooth = 0.35;         // mm that the outline may leave out
constexpr double least_limb = 0.9;      // mm: what is thinner, such as hairs, is not outlined
constexpr double least_kept = 0.8;      // of the silhouette, else it is a drawing of thin lines

// Without what is too thin to have two sides beside each other.
place::Cells without_hairs(place::Cells cells, const Pen& pen) {
  // Between the middles of cells, so half a cell more.
  const double radius = (std::max(least_limb, pen.width) + cells.cell) / 2;
  place::Cells bare = place::grown(place::shrunk(cells, radius), radius);
  const auto count = [](const place::Cells& of) {
    return static_cast<double>(std::count_if(of.values.begin(), of.values.end(),
                                             [](std::uint8_t value) { return value != 0; }));
  };
  return count(bare) >= least_kept * count(cells) ? bare : cells;
}

}  // namespace

PathItem silhouette_of(const Figure& figure, const FigureToPage& to_page, const Pen& pen) {
  const FigureGrid& grid = figure.silhouette;
  const place::Cells cells = without_hairs(
      {grid.columns, grid.rows, grid.cell * to_page.scale, grid.values}, pen);
  const PagePoint corner = to_page(FigurePoint{grid.box.x, grid.box.y});
  PathItem path;
  path.pen = pen;
  for (const place::Polygon& border : place::outlines(cells)) {
    const place::Polygon simple = place::simplified(border, std::max(smooth, cells.cell));
    if (simple.size() < 3 || std::abs(place::area(simple)) < 4) continue;
    // Through the middles of its sides, each corner rounded off (quadratic as cubic).
    const auto at = [&](std::size_t i) -> PagePoint {
      const PagePoint p = simple[i % simple.size()];
      return {corner.x + p.x, corner.y + p.y};
    };
    const auto middle = [&](std::size_t i) -> PagePoint {
      const PagePoint a = at(i), b = at(i + 1);
      return {(a.x + b.x) / 2, (a.y + b.y) / 2};
    };
    path.steps.push_back(MoveTo{middle(0)});
    for (std::size_t i = 1; i <= simple.size(); ++i) {
      const PagePoint from = middle(i - 1), over = at(i), to = middle(i);
      path.steps.push_back(CurveTo{{from.x + (over.x - from.x) * 2 / 3,
                                    from.y + (over.y - from.y) * 2 / 3},
                                   {to.x + (over.x - to.x) * 2 / 3, to.y + (over.y - to.y) * 2 / 3},
                                   to});
    }
    path.steps.push_back(ClosePath{});
  }
  return path;
}

namespace {

Pen outline_pen(const SheetInput& input) {
  return {input.style->type.ink,
          input.style->for_age(input.matter.youngest).colouring_line.mm(), {}, true};
}

void page_for(ReviewPages& pages, const StudyTerm& term) {
  const SheetInput& in = pages.input();
  Page& page = pages.begin();
  const PageBox area = pages.area();
  const AgeRow& age = in.style->for_age(in.matter.youngest);
  const Colour ink = in.style->type.ink;
  Group group{Role::blank_list, {}, {}};

  text::Font large = reading_font(in, reading_sizes(in).front() * 1.25, true);
  text::Line name = in.typesetter->line(plain(term.text), large, in.matter.language);
  if (name.advance > area.w) {
    large.size = large.size * (area.w / name.advance);
    name = in.typesetter->line(plain(term.text), large, in.matter.language);
  }
  group.items.push_back(
      text_at(name, area.centre().x, area.top() + name.ascent, Align::centre, ink));
  page.description += " " + plain(term.text);
  const double top = area.top() + name.ascent + name.descent + 2;

  // Lines to write on: one for the purpose, two for the facts; as high as the hand needs,
  // or as the page allows.
  text::Font small = in.plan->frame.list_font;
  const text::Line purpose =
      in.typesetter->line(in.words->at("its-purpose"), small, in.matter.language);
  const text::Line facts = in.typesetter->line(in.words->at("two-facts"), small, in.matter.language);
  const double heading = purpose.ascent + purpose.descent;
  const int lines = 3;
  const double pace = 1 + std::max(in.style->ruling.descender, in.style->ruling.gap);
  const double free = writing_share * area.h - 2 * heading;
  const double height = std::min(age.ruling.mm(), free / (lines * pace));
  const double writing = lines * pace * height + 2 * heading;
  double y = area.bottom() - writing;
  const bool guides = height >= Length::in(0.4).mm();
  const auto head = [&](const text::Line& line) {
    group.items.push_back(
        text_at(line, start_of(in, area), y + line.ascent, at_start(in), ink));
    y += heading;
  };
  const auto rule = [&] {
    group.items.push_back(ruling(in, area.left(), y + height, area.w, height, guides));
    y += pace * height;
  };
  head(purpose);
  rule();
  head(facts);
  rule();
  rule();
  const PageBox room{area.x, top, area.w, area.bottom() - writing - 3 - top};
  group.items.push_back(silhouette_of(*in.figure, fit_figure(*in.figure, room.grown(-1)),
                                   outline_pen(in)));
  page.items.push_back(std::move(group));
}

}  // namespace

void add_part_key(ReviewPages& key, const std::vector<StudyTerm>& terms) {
  const SheetInput& in = key.input();
  const PageBox area = key.area();
  constexpr std::size_t columns = 2;
  // Three rows, or four where that saves a page.
  const std::size_t rows = terms.size() > 6 && terms.size() <= 8 ? 4 : 3;
  constexpr double gap = 6;
  const double w = (area.w - gap * (columns - 1)) / columns;
  const double h = (area.h - gap * static_cast<double>(rows - 1)) / static_cast<double>(rows);
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (i % (columns * rows) == 0) key.begin();
    const StudyTerm& term = terms[i];
    const std::size_t place = i % (columns * rows);
    const PageBox cell{area.x + static_cast<double>(place % columns) * (w + gap),
                       area.y + static_cast<double>(place / columns) * (h + gap), w, h};
    Group group{Role::blank_list, {}, {}};
    const text::Font font = in.plan->frame.list_font;
    text::Font bold = font;
    bold.bold = true;
    const text::Block name = set_text(in, plain(term.text), bold, w);
    add_text(group, in, name, cell, cell.top(), in.style->type.ink);
    double foot = cell.bottom();
    if (!term.clue.empty()) {
      const text::Block clue = set_text(in, plain(term.clue), font, w);
      foot -= clue.height;
      add_text(group, in, clue, cell, foot, in.style->type.ink);
    }
    const PageBox room{cell.x, cell.top() + name.height + 1, w,
                       std::max(10.0, foot - cell.top() - name.height - 2)};
    FigureItem figure;
    figure.transform = fit_figure(*in.figure, room);
    figure.tint = 0.5;
    group.items.push_back(figure);
    if (const Anchor* anchor = in.figure->find(term.anchor)) {
      const std::size_t ends = anchor->kind == AnchorKind::points ? anchor->points.size() : 1;
      for (std::size_t p = 0; p < std::min(ends, anchor->points.size()); ++p) {
        const PagePoint at = figure.transform(anchor->points[p].at);
        group.items.push_back(circle(at, 1.7, Colour{255, 255, 255}, std::nullopt));
        group.items.push_back(circle(at, 1.2, in.style->type.ink, std::nullopt));
      }
    }
    key.current().items.push_back(std::move(group));
  }
}

Result<ComposedSheet> locate(const SheetInput& input) {
  const std::string& instruction = input.words->at("instruction-locate");
  ReviewPages sheet(input, "locate", instruction, false);
  ReviewPages key(input, "locate", instruction, true);
  for (const StudyTerm& term : input.terms) page_for(sheet, term);
  add_part_key(key, input.terms);
  return ComposedSheet{sheet.take(), key.take()};
}

}  // namespace platewright::compose
