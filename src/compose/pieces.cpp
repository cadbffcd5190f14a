#include "compose/pieces.hpp"

#include <algorithm>
#include <cmath>

#include "compose/frame.hpp"

namespace platewright::compose {
namespace {

constexpr double heading_height = 9;  // mm
constexpr double foot_gap = 2;        // mm above the ruler
constexpr double foot_pt = 8;
constexpr double plate_margin = 0.8;  // mm of white around words on a piece

PathItem path_of(const std::vector<place::Polygon>& polygons, PagePoint shift, const Pen& pen) {
  PathItem path;
  path.pen = pen;
  for (const place::Polygon& polygon : polygons) {
    bool first = true;
    for (const PagePoint& p : polygon) {
      const PagePoint at{p.x + shift.x, p.y + shift.y};
      if (first)
        path.steps.push_back(MoveTo{at});
      else
        path.steps.push_back(LineTo{at});
      first = false;
    }
    path.steps.push_back(ClosePath{});
  }
  return path;
}

// Type whose box at `middle` is white beneath.
void add_plate(Group& group, const text::Line& line, PagePoint middle, Colour ink) {
  const double cap = 0.72 * line.font.size.mm();
  const PageBox box{middle.x - line.advance / 2, middle.y - cap / 2, line.advance, cap};
  group.items.push_back(
      rectangle(box.grown(plate_margin), Colour{255, 255, 255}, std::nullopt, 1.2));
  group.items.push_back(text_at(line, middle.x, middle.y + cap / 2, Align::centre, ink));
}

}  // namespace

PageBox pieces_area(const PiecesInput& input) {
  const double ruler = ruler_room(Way::across).h;
  const double top = input.margin + heading_height;
  const double bottom = input.page_height - input.margin - ruler - foot_gap;
  return {input.margin, top, input.page_width - 2 * input.margin, bottom - top};
}

PieceWords piece_words(const PiecesInput& input, const Piece& piece) {
  const AgeRow& age = input.style->for_age(input.matter.youngest);
  const std::string text =
      std::to_string(piece.number) + (piece.name.empty() ? "" : "  " + piece.name);
  const auto line = [&](double pt) {
    return input.typesetter->line(text, {faces(*input.style), Length::pt(pt), true, false},
                                  input.matter.language);
  };
  // In the largest circle, whichever way the piece is turned; never larger than
  // labels are wanted, and never smaller than they may be.
  const double room = 2 * (piece.radius - plate_margin);
  for (double pt = age.text_wanted.pt() * 0.75; pt >= age.text_floor.pt() - 1e-9; pt *= 0.92) {
    const text::Line l = line(pt);
    if (std::hypot(l.advance, 0.72 * l.font.size.mm()) <= room) return {l, true};
  }
  return {line(age.text_floor.pt()), false};
}

std::vector<PiecePage> piece_pages(const PiecesInput& input, const std::vector<std::size_t>& nested,
                                   const place::Nest& nest, const std::vector<PieceWords>& words,
                                   std::size_t all_pages) {
  const Style& style = *input.style;
  const Words& said = *input.words;
  const std::string& language = input.matter.language;
  const bool ltr = input.matter.direction == text::Direction::left_to_right;
  const std::string family = faces(style);
  const PageBox area = pieces_area(input);
  const Pen cut{style.type.ink, style.true_size.cut_width.mm(), {}, true};
  const Pen fold{style.type.ink, style.true_size.cut_width.mm() * 0.75, {2, 1.5}, false};
  std::vector<PiecePage> pages;
  for (int number = 0; number < nest.pages; ++number) {
    PiecePage out;
    Page& page = out.page;
    page.width = input.page_width;
    page.height = input.page_height;
    page.language = language;
    page.label = std::to_string(number + 1);
    const std::string heading =
        (input.matter.title.empty() ? "" : input.matter.title + " – ") + said.at("pieces");
    page.title = heading + " " + page.label;
    page.description = heading + ":";

    const text::Font title_font{family, Length::pt(13), true, false},
        small{family, Length::pt(foot_pt), false, false};
    const std::string count =
        fill(fill(said.at("sheet-of"), "number", page.label), "total", std::to_string(all_pages));
    const text::Line count_line = input.typesetter->line(
        count + (input.length_text.empty() ? "" : " · " + input.length_text), small, language);
    text::Line title = input.typesetter->line(heading, title_font, language);
    const double room = area.w - count_line.advance - 5;
    if (title.advance > room)
      title = input.typesetter->line(
          heading, {family, title_font.size * (room / title.advance), true, false}, language);
    const double baseline = input.margin + 5;
    page.items.push_back(Group{Role::title,
                               {},
                               {text_at(title, ltr ? area.left() : area.right(), baseline,
                                        ltr ? Align::left : Align::right, style.type.ink)}});
    Group foot{Role::footer, {}, {}};
    foot.items.push_back(text_at(count_line, ltr ? area.right() : area.left(), baseline,
                                 ltr ? Align::right : Align::left, style.type.quiet_ink));

    for (std::size_t i = 0; i < nested.size(); ++i) {
      const place::NestPlace& at = nest.places[i];
      if (at.page != number) continue;
      const Piece& piece = input.pieces[nested[i]];
      const PagePoint origin{area.x + at.x, area.y + at.y};
      Group group{Role::plain, piece.anchor, {}};
      group.turn = at.turn;
      group.pivot = origin;
      FigureItem art;
      art.part = piece.part;
      art.transform.scale = input.scale;
      art.transform.origin = {origin.x - piece.corner.x * input.scale,
                              origin.y - piece.corner.y * input.scale};
      Group inside{Role::plain, {}, {art}};
      inside.clip = path_of(piece.clip, origin, cut).steps;
      group.items.push_back(std::move(inside));
      group.items.push_back(path_of(piece.cut, origin, cut));
      if (distance(piece.fold_from, piece.fold_to) > 0)
        group.items.push_back(stroke({origin.x + piece.fold_from.x, origin.y + piece.fold_from.y},
                                     {origin.x + piece.fold_to.x, origin.y + piece.fold_to.y},
                                     fold));
      if (words[i].inside) {
        Group label{Role::label, piece.anchor, {}};
        add_plate(label, words[i].line, {origin.x + piece.middle.x, origin.y + piece.middle.y},
                  style.type.ink);
        group.items.push_back(std::move(label));
      }
      page.items.push_back(std::move(group));
      if (!words[i].inside) {
        const PageBox tag{area.x + at.tag.x, area.y + at.tag.y, at.tag.w, at.tag.h};
        page.items.push_back(
            Group{Role::label,
                  piece.anchor,
                  {text_at(words[i].line, tag.centre().x, tag.top() + words[i].line.ascent,
                           Align::centre, style.type.ink)}});
      }
      page.description += " " + (piece.name.empty() ? piece.anchor : piece.name) + ",";
    }
    page.description.back() = '.';

    // Below: ruler, and what to do.
    Group measure{Role::plain, {}, {}};
    RulerLook look;
    look.font = text::Font{family, Length::pt(6.5), false, false};
    look.language = language;
    look.ink = style.type.ink;
    const PageBox ruler = ruler_room(Way::across);
    const double y = input.page_height - input.margin - ruler.h;
    out.ruler = add_ruler(measure, *input.typesetter, look, Way::across, {area.left(), y});
    page.items.push_back(std::move(measure));
    const PageBox beside{area.left() + ruler.w + 3, y, area.w - ruler.w - 3, ruler.h};
    const std::string text = said.at("print-at-100") + " " + said.at("cut-solid") +
                             (input.folds ? " " + said.at("fold-dashed") : "") + " " +
                             said.at("pieces-place") + " " + input.caution;
    double pt = foot_pt;
    text::Block block;
    do {
      block = input.typesetter->paragraph(text, {family, Length::pt(pt), false, false}, language,
                                          1.2, beside.w);
      pt *= 0.93;
    } while (block.height > beside.h + 1 && pt > 4.5);
    double line_y = beside.top();
    for (const text::Line& l : block.lines) {
      foot.items.push_back(text_at(l, ltr ? beside.left() : beside.right(), line_y + l.ascent,
                                   ltr ? Align::left : Align::right, style.type.ink));
      line_y += block.leading;
    }
    page.items.push_back(std::move(foot));
    pages.push_back(std::move(out));
  }
  return pages;
}

}  // namespace platewright::compose
