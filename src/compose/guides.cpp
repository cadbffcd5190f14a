#include "compose/guides.hpp"

#include <cmath>

#include "base/number.hpp"

namespace platewright::compose {
namespace {

// Along the ruler: figures stand over their tick, units after the end.
constexpr double before = 2.5, after = 6.5, depth = 10.6;
constexpr double longest = 101.6;  // 4 in
constexpr double tick_long = 2.2, tick_middle = 1.6, tick_short = 1.1;

}  // namespace

PageBox ruler_room(Way way) {
  const double length = before + longest + after;
  return way == Way::across ? PageBox{0, 0, length, depth} : PageBox{0, 0, depth, length};
}

Ruler add_ruler(Group& group, const text::Typesetter& typesetter, const RulerLook& look, Way way,
                PagePoint corner) {
  const PageBox room = ruler_room(way);
  if (look.paper)
    group.items.push_back(
        rectangle({corner.x, corner.y, room.w, room.h}, Colour{255, 255, 255}, std::nullopt));
  // `along` from the zero, `side` from the line: negative on the 10 cm side.
  const auto at = [&](double along, double side) -> PagePoint {
    return way == Way::across ? PagePoint{corner.x + before + along, corner.y + depth / 2 + side}
                              : PagePoint{corner.x + depth / 2 + side, corner.y + before + along};
  };
  const Pen pen{look.ink, look.line, {}, false};
  const auto tick = [&](double along, double length) {
    group.items.push_back(stroke(at(along, 0), at(along, length), pen));
  };
  const auto figure = [&](const std::string& text, double along, double side) {
    const text::Line line = typesetter.line(text, look.font, look.language);
    PagePoint p = at(along, side);
    const double cap = 0.7 * line.font.size.mm();
    if (way == Way::across)
      p.y += side < 0 ? 0 : cap;
    else
      p.y += cap / 2;
    const Align align = way == Way::across ? Align::centre : side < 0 ? Align::right : Align::left;
    group.items.push_back(text_at(line, p.x, p.y, align, look.ink));
  };
  group.items.push_back(stroke(at(0, 0), at(longest, 0), pen));
  for (int mm = 0; mm <= 100; mm += 5)
    tick(mm, mm % 50 == 0 ? -tick_long : mm % 10 == 0 ? -tick_middle : -tick_short);
  for (int quarter = 0; quarter <= 16; ++quarter)
    tick(25.4 * quarter / 4, quarter % 4 == 0   ? tick_long
                             : quarter % 2 == 0 ? tick_middle
                                                : tick_short);
  const double clear = tick_long + 0.6;
  for (const int cm : {0, 5, 10}) figure(std::to_string(cm), 10.0 * cm, -clear);
  for (int inch = 0; inch <= 4; ++inch) figure(std::to_string(inch), 25.4 * inch, clear);
  const double end = way == Way::across ? longest + after / 2 + 0.4 : longest + 4;
  figure("cm", end, -clear);
  figure("in", end, clear);
  return {at(0, 0), at(100, 0), at(0, 0), at(longest, 0)};
}

void add_cross(Group& group, PagePoint at, double half_across, double half_down, const Pen& pen) {
  group.items.push_back(stroke({at.x - half_across, at.y}, {at.x + half_across, at.y}, pen));
  group.items.push_back(stroke({at.x, at.y - half_down}, {at.x, at.y + half_down}, pen));
}

void add_scissors(Group& group, PagePoint at, Way way, const Pen& pen) {
  // Drawn cutting to the right, 6 mm long; turned for downwards.
  const auto p = [&](double along, double side) -> PagePoint {
    return way == Way::across ? PagePoint{at.x + along, at.y + side}
                              : PagePoint{at.x - side, at.y + along};
  };
  group.items.push_back(stroke(p(-4.2, -0.7), p(0, 0.7), pen));
  group.items.push_back(stroke(p(-4.2, 0.7), p(0, -0.7), pen));
  group.items.push_back(circle(p(-5, -1), 0.85, std::nullopt, pen));
  group.items.push_back(circle(p(-5, 1), 0.85, std::nullopt, pen));
}

std::string said_length(Length length) {
  const double mm = length.mm();
  if (mm < 100) return format_number(mm, 1) + " mm";
  if (mm < 3000) return format_number(mm / 10, 1) + " cm";
  return format_number(mm / 1000, 2) + " m";
}

std::string written(std::string number, const Words& words) {
  if (const std::size_t point = number.find('.'); point != std::string::npos)
    number.replace(point, 1, words.at("decimal-mark"));
  return number;
}

}  // namespace platewright::compose
