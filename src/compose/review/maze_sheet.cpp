// A maze drawn: its one way passes the parts in the order of the table's route.
#include <algorithm>
#include <cmath>

#include "base/random.hpp"
#include "compose/listing.hpp"
#include "compose/review/flow.hpp"
#include "compose/review/kinds.hpp"
#include "compose/review/maze.hpp"

namespace platewright::compose {
namespace {

constexpr double list_gap = 6;         // mm between maze and list
constexpr double name_room = 20;       // mm for a name below its picture
constexpr std::size_t most_stations = 12;

// The parts of the route that this set labels; without two of them, some parts by chance.
std::vector<StudyTerm> stations_of(const SheetInput& input, Random& random) {
  std::vector<StudyTerm> stations;
  for (const std::string& anchor : input.route)
    for (const StudyTerm& term : input.terms)
      if (term.anchor == anchor) stations.push_back(term);
  if (stations.size() < 2)
    stations = dealt(input.terms,
                     static_cast<std::size_t>(
                         std::min(6, input.style->puzzles_for(input.matter.youngest).words)),
                     random);
  if (stations.size() > most_stations) stations.resize(most_stations);
  return stations;
}

void add_walls(Group& group, const Maze& maze, const PageBox& box, double cell, bool mirrored,
               const Pen& pen) {
  const auto x = [&](double column) {
    return mirrored ? box.right() - column * cell : box.left() + column * cell;
  };
  const auto y = [&](double row) { return box.top() + row * cell; };
  PathItem walls;
  walls.pen = pen;
  const auto wall = [&](double c1, double r1, double c2, double r2) {
    walls.steps.push_back(MoveTo{{x(c1), y(r1)}});
    walls.steps.push_back(LineTo{{x(c2), y(r2)}});
  };
  // Walls in runs, so that corners join; the outer wall is open at both ends of the way.
  wall(0, 0, maze.columns, 0);
  wall(0, maze.rows, maze.columns, maze.rows);
  wall(0, 1, 0, maze.rows);
  wall(maze.columns, 0, maze.columns, maze.rows - 1);
  for (int row = 0; row + 1 < maze.rows; ++row)
    for (int from = 0; from < maze.columns;) {
      if (maze.below({from, row})) {
        ++from;
        continue;
      }
      int to = from;
      while (to < maze.columns && !maze.below({to, row})) ++to;
      wall(from, row + 1, to, row + 1);
      from = to;
    }
  for (int column = 0; column + 1 < maze.columns; ++column)
    for (int from = 0; from < maze.rows;) {
      if (maze.right({column, from})) {
        ++from;
        continue;
      }
      int to = from;
      while (to < maze.rows && !maze.right({column, to})) ++to;
      wall(column + 1, from, column + 1, to);
      from = to;
    }
  group.items.push_back(std::move(walls));
}

std::vector<Page> pages_of(const SheetInput& input, const std::vector<StudyTerm>& stations,
                           std::uint64_t seed, bool key) {
  ReviewPages pages(input, "maze",
                    fill(input.words->at("instruction-maze"), "number",
                         std::to_string(stations.size())),
                    key);
  const SheetInput& in = pages.input();
  Page& page = pages.begin();
  const PageBox area = pages.area();
  const Colour ink = in.style->type.ink;
  const int age = in.matter.youngest;
  Group group{Role::blank_list, {}, {}};

  // Names below, by number; with pictures for the young.
  const bool pictures = age < in.style->review.clue_age;
  double foot = 0;
  std::vector<ListEntry> entries;
  ListSetting list;
  const auto count = static_cast<double>(stations.size());
  const double strip = area.w / std::max(3.0, std::min(6.0, count));
  const int strips = pictures ? static_cast<int>(std::ceil(count * strip / area.w - 1e-9)) : 0;
  const double picture = std::min(30.0, strip * 0.62);
  if (pictures) {
    foot = strips * (picture + name_room);
  } else {
    for (std::size_t i = 0; i < stations.size(); ++i)
      entries.push_back({static_cast<int>(i) + 1, plain(stations[i].text)});
    for (const Length size : reading_sizes(in)) {
      list = set_list(entries, area.w, reading_font(in, size), in.matter.language, *in.typesetter);
      if (list.height <= 0.24 * area.h) break;
    }
    foot = list.height;
  }
  const PageBox room{area.x, area.y, area.w, area.h - foot - list_gap};
  const int shorter = std::max(in.style->puzzles_for(age).maze,
                               static_cast<int>(std::ceil(std::sqrt(count)) + 1));
  const double wanted = std::min(room.w, room.h) / shorter;
  const int columns = std::max(2, static_cast<int>(room.w / wanted));
  const int rows = std::max(2, static_cast<int>(room.h / wanted));
  const double cell = std::min(room.w / columns, room.h / rows);
  // The same maze for sheet and key.
  Random random(seed, "maze");
  const Maze made = maze(columns, rows, static_cast<int>(stations.size()), random);
  const PageBox box{room.centre().x - cell * columns / 2, room.y, cell * columns, cell * rows};
  const bool mirrored = !leads_right(in);
  const auto centre = [&](MazeCell c) -> PagePoint {
    const double column = mirrored ? columns - 1 - c.column : c.column;
    return {box.x + (column + 0.5) * cell, box.y + (c.row + 0.5) * cell};
  };
  if (key) {
    PathItem way;
    way.pen = Pen{Colour{0xb4, 0xbf, 0xcc}, cell * 0.3, {}, true};
    for (const MazeCell c : made.way) {
      if (way.steps.empty())
        way.steps.push_back(MoveTo{centre(c)});
      else
        way.steps.push_back(LineTo{centre(c)});
    }
    group.items.push_back(std::move(way));
  }
  add_walls(group, made, box, cell, mirrored,
            Pen{ink, std::clamp(cell * 0.09, 0.6, 2.0), {}, true});
  const text::Font number = reading_font(in, Length::mm(cell * 0.5), true);
  const text::Line model = in.typesetter->line("8", number, "en");
  for (std::size_t i = 0; i < stations.size(); ++i) {
    const PagePoint at = centre(made.stations[i]);
    group.items.push_back(
        circle(at, cell * 0.36, Colour{255, 255, 255}, Pen{ink, 0.4, {}, true}));
    text::Font font = number;
    text::Line line = in.typesetter->line(std::to_string(i + 1), font, in.matter.language);
    if (line.advance > cell * 0.6) {
      font.size = font.size * (cell * 0.6 / line.advance);
      line = in.typesetter->line(std::to_string(i + 1), font, in.matter.language);
    }
    group.items.push_back(text_at(line, at.x, at.y + model.ink_top / 2 * (font.size / number.size),
                                  Align::centre, ink));
  }
  if (!pictures) {
    group.items.push_back(draw_list(in, entries, list, area.x, area.bottom() - list.height));
  } else {
    const int each = static_cast<int>(area.w / strip + 1e-9);
    for (std::size_t i = 0; i < stations.size(); ++i) {
      PageBox place = part_of(in, area, static_cast<double>(static_cast<int>(i) % each) * strip,
                              strip);
      place.y = area.bottom() - foot + (static_cast<int>(i) / each) * (picture + name_room);
      place.h = picture + name_room;
      const PageBox frame{place.centre().x - picture * 0.65, place.y, picture * 1.3, picture};
      add_part_picture(group, in, stations[i].anchor, frame, 1.5, true);
      group.items.push_back(
          rectangle(frame, std::nullopt, Pen{in.style->ruling.base, 0.35, {}, true}));
      add_centred(group, in, std::to_string(i + 1) + " " + plain(stations[i].text),
                  reading_font(in, reading_sizes(in).front()),
                  {place.x + 1, frame.bottom() + 0.5, place.w - 2, name_room - 1.5}, ink);
    }
  }
  page.items.push_back(std::move(group));
  return pages.take();
}

}  // namespace

Result<ComposedSheet> maze_sheet(const SheetInput& input) {
  if (Findings few = enough_terms(input, 2, "a maze"); !few.empty()) return few;
  Random random(input.seed, "maze stations");
  const std::vector<StudyTerm> stations = stations_of(input, random);
  return ComposedSheet{pages_of(input, stations, input.seed, false),
                       pages_of(input, stations, input.seed, true)};
}

}  // namespace platewright::compose
