// What is played on: a board with a track, and mats for modelling dough.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/guides.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "compose/true_size.hpp"

namespace platewright::compose {
namespace {

constexpr int track_rows = 9;          // five full ones, four with the square that joins them
constexpr double least_box = 48;       // mm of a mat's box: room for a child's hand

// Squares of a track in their order: along the full rows, there and back.
struct TrackSquare {
  int column = 0;
  int row = 0;
};

std::vector<TrackSquare> track_of(int columns) {
  std::vector<TrackSquare> track;
  for (int row = 0; row < track_rows; row += 2) {
    const bool there = row / 2 % 2 == 0;
    for (int c = 0; c < columns; ++c) track.push_back({there ? c : columns - 1 - c, row});
    if (row + 1 < track_rows) track.push_back({there ? columns - 1 : 0, row + 1});
  }
  return track;
}

// What stands on the squares: "?" on about every fourth, now and then a step on or back.
std::vector<std::string> marks_of(std::size_t squares, Random& random) {
  std::vector<std::string> marks(squares);
  for (std::size_t i = 3; i + 2 < squares; i += 4) marks[i + random.below(2)] = "?";
  const char* const steps[] = {"+2", "−1", "+3", "−2", "+1", "−3"};
  std::size_t next = random.below(6);
  for (std::size_t i = 6; i + 4 < squares; i += 7) {
    const std::size_t at = i + random.below(3);
    if (marks[at].empty() && at > 4) marks[at] = steps[next++ % 6];
  }
  return marks;
}

Page board_page(ReviewPages& pages, const std::vector<StudyTerm>& shown, Random& random) {
  const SheetInput& in = pages.input();
  Page page = pages.begin();
  const PageBox area = pages.area();
  const Colour ink = in.style->type.ink;
  const int columns = std::max(4, static_cast<int>(area.w / (area.h / track_rows)));
  const double square = std::min(area.w / columns, area.h / track_rows);
  const PageBox box{area.centre().x - square * columns / 2, area.y, square * columns,
                    square * track_rows};
  const auto place = [&](int column, int row, int wide) -> PageBox {
    const int left = leads_right(in) ? column : columns - column - wide;
    return {box.x + left * square, box.y + row * square, wide * square, square};
  };
  Group group{Role::blank_list, {}, {}};
  const std::vector<TrackSquare> track = track_of(columns);
  const std::vector<std::string> marks = marks_of(track.size(), random);
  const text::Font large = reading_font(in, Length::mm(square * 0.42), true);
  const text::Font small = reading_font(in, std::max(floor_of(in), Length::mm(square * 0.16)));
  const Pen edge{ink, 0.5, {}, true};
  const Colour pale[] = {{255, 255, 255}, {0xef, 0xf3, 0xf7}};
  for (std::size_t i = 0; i < track.size(); ++i) {
    const PageBox cell = place(track[i].column, track[i].row, 1);
    const bool first = i == 0, last = i + 1 == track.size();
    Colour fill = pale[i % 2];
    if (first || last) fill = Colour{0xcf, 0xdc, 0xea};
    group.items.push_back(rectangle(cell, fill, edge, square * 0.12));
    if (first || last) {
      add_centred(group, in, in.words->at(first ? "start" : "finish"),
                  reading_font(in, Length::mm(square * 0.3), true), cell.grown(-1), ink);
      continue;
    }
    const text::Line number =
        in.typesetter->line(std::to_string(i), small, in.matter.language);
    group.items.push_back(text_at(number, cell.left() + 0.1 * square,
                                  cell.top() + 0.08 * square + number.ink_top, Align::left,
                                  in.style->type.quiet_ink));
    if (!marks[i].empty())
      add_centred(group, in, marks[i], large,
                  {cell.x, cell.y + 0.2 * square, cell.w, 0.8 * square}, ink);
  }
  // Between the rows: pictures of the parts with their names.
  std::size_t next = 0;
  for (int row = 1; row < track_rows; row += 2) {
    const bool right = row / 2 % 2 == 0;  // where the joining square stands
    const int from = right ? 0 : 1;
    const PageBox free = place(from, row, columns - 1);
    const int count = std::max(1, (columns - 1) / 3);
    for (int i = 0; i < count && !shown.empty(); ++i, ++next) {
      const StudyTerm& term = shown[next % shown.size()];
      const double w = free.w / count;
      const PageBox slot{free.x + i * w, free.y, w, free.h};
      const PageBox frame = part_of(in, {slot.x, slot.y + 2, slot.w, slot.h - 4}, 3,
                                    std::min(0.42 * w, 1.3 * (slot.h - 4)));
      add_part_picture(group, in, term.anchor, frame, 1.5, true);
      group.items.push_back(
          rectangle(frame, std::nullopt, Pen{in.style->ruling.base, 0.35, {}, true}));
      add_centred(group, in, plain(term.text),
                  reading_font(in, std::min(reading_sizes(in).front(), Length::pt(14))),
                  part_of(in, slot, frame.w + 5, w - frame.w - 7), ink);
    }
  }
  page.items.push_back(std::move(group));
  return page;
}

// Four tents that stand by themselves: two faces, two feet that overlap below.
Page piece_page(ReviewPages& pages, const std::vector<StudyTerm>& shown) {
  const SheetInput& in = pages.input();
  Page page = pages.begin();
  const PageBox area = pages.area();
  const Colour ink = in.style->type.ink;
  Group group{Role::plain, {}, {}};
  text::Font font = reading_font(in, in.plan->frame.list_font.size);
  const std::string rules = in.words->at("cut-solid") + " " + in.words->at("fold-dashed") + " " +
                            scissors_words(*in.words, in.matter.youngest) + " " +
                            in.words->at("no-under-threes");
  const text::Block head = set_text(in, rules, font, area.w);
  add_text(group, in, head, area, area.top(), ink);
  const double top = area.top() + head.height + 5;
  constexpr int count = 4;
  constexpr double between = 8;
  const double width = std::min(36.0, (area.w - between * (count - 1)) / count);
  const double face = std::min(42.0, (area.bottom() - top) / 2 - 18);
  const double foot = 15;
  const double left = area.centre().x - (count * width + (count - 1) * between) / 2;
  const Pen cut{ink, in.style->true_size.cut_width.mm(), {}, false};
  const Pen fold{ink, 0.35, {2, 1.6}, false};
  for (int i = 0; i < count; ++i) {
    const StudyTerm& term = shown[static_cast<std::size_t>(i) % shown.size()];
    const double x = left + i * (width + between);
    const PageBox whole{x, top, width, 2 * face + 2 * foot};
    group.items.push_back(rectangle(whole, std::nullopt, cut));
    for (const double y : {top + foot, top + foot + face, top + foot + 2 * face})
      group.items.push_back(stroke({x, y}, {x + width, y}, fold));
    // The upper face stands on its head, so that both are upright on the tent.
    for (const bool upper : {true, false}) {
      const PageBox side{x + 2.5, top + foot + (upper ? 0 : face) + 2.5, width - 5, face - 5};
      Group shown_face{Role::plain, {}, {}};
      const PageBox frame{side.x, side.y, side.w, side.h - 9};
      add_part_picture(shown_face, in, term.anchor, frame, 1.5, true);
      add_centred(shown_face, in, std::to_string(i + 1), reading_font(in, Length::pt(14), true),
                  {side.x, frame.bottom() + 1, side.w, 8}, ink);
      if (upper) {
        shown_face.turn = 180;
        shown_face.pivot = side.centre();
      }
      group.items.push_back(std::move(shown_face));
    }
  }
  page.items.push_back(std::move(group));
  return page;
}

}  // namespace

Result<ComposedSheet> track(const SheetInput& input) {
  if (Findings few = enough_terms(input, 1, "a board"); !few.empty()) return few;
  Random random(input.seed, "track");
  const std::vector<StudyTerm> shown = dealt(input.terms, 0, random);
  ReviewPages board(input, "track", input.words->at("instruction-track"), false);
  ReviewPages pieces(input, "track", input.words->at("playing-pieces"), false);
  board.unnamed();
  pieces.unnamed();
  ComposedSheet sheet;
  sheet.pages.push_back(board_page(board, shown, random));
  sheet.pages.push_back(piece_page(pieces, shown));
  ReviewPages key(input, "track", input.words->at("instruction-track"), true);
  std::vector<StudyTerm> named = input.terms;
  add_part_key(key, named);
  sheet.keys = key.take();
  return sheet;
}

Result<ComposedSheet> mat(const SheetInput& input) {
  if (Findings few = enough_terms(input, 1, "a play mat"); !few.empty()) return few;
  const std::string& instruction = input.words->at("instruction-mat");
  ReviewPages pages(input, "mat", instruction, false);
  pages.unnamed();
  const SheetInput& in = pages.input();
  const Pen thick{in.style->type.ink, in.style->review.mat_line.mm(), {}, true};
  for (const StudyTerm& term : in.terms) {
    Page& page = pages.begin();
    const PageBox area = pages.area();
    page.description += " " + plain(term.text);
    Group group{Role::blank_list, {}, {}};
    const double head = 24;
    // The name, and what it looks like, at the top.
    const PageBox picture = part_of(in, {area.x, area.y, area.w, head}, 0, head * 1.3);
    add_part_picture(group, in, term.anchor, picture, 1.5, true);
    group.items.push_back(
        rectangle(picture, std::nullopt, Pen{in.style->ruling.base, 0.35, {}, true}));
    add_centred(group, in, plain(term.text),
                reading_font(in, reading_sizes(in).front() * 1.4, true),
                part_of(in, {area.x, area.y, area.w, head}, head * 1.3 + 5, area.w - head * 1.3 - 5),
                in.style->type.ink);
    const text::Block caution =
        set_text(in, in.words->at("dough-caution"),
                 reading_font(in, std::max(floor_of(in), Length::pt(9))), area.w);
    add_text(group, in, caution, area, area.bottom() - caution.height, in.style->type.quiet_ink);
    const PageBox room{area.x, area.y + head + 3, area.w, area.h - head - caution.height - 6};
    const FigureToPage to_page = fit_figure(*in.figure, room.grown(-thick.width));
    group.items.push_back(silhouette_of(*in.figure, to_page, thick));
    // The box stands where the part is, large enough for dough, inside the page.
    if (const Anchor* anchor = in.figure->find(term.anchor); anchor && !anchor->points.empty()) {
      const bool region = anchor->kind == AnchorKind::region;
      const PageBox part = region ? to_page(anchor->box)
                                  : PageBox{to_page(anchor->points.front().at).x,
                                            to_page(anchor->points.front().at).y, 0, 0};
      const double w = std::min(std::max(part.w + 8, least_box), room.w - 4);
      const double h = std::min(std::max(part.h + 8, least_box), room.h - 4);
      const PageBox box{
          std::clamp(part.centre().x - w / 2, room.left() + 1, room.right() - w - 1),
          std::clamp(part.centre().y - h / 2, room.top() + 1, room.bottom() - h - 1), w, h};
      group.items.push_back(rectangle(box, std::nullopt, thick, 5));
    }
    page.items.push_back(std::move(group));
  }
  ReviewPages key(input, "mat", instruction, true);
  add_part_key(key, in.terms);
  return ComposedSheet{pages.take(), key.take()};
}

}  // namespace platewright::compose
