#include "support/made_figure.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace support {
namespace {

struct Point {
  double x, y;
};

std::string number(double value) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, 2);
  return {buffer, end.ptr};
}

class Draughtsman {
 public:
  explicit Draughtsman(const FigureWish& wish)
      : wish_(wish),
        chance_(wish.seed * 1'000'003ULL + static_cast<std::uint64_t>(wish.anchors) * 17 +
                static_cast<std::uint64_t>(wish.outline)),
        width_(wish.outline == Outline::wide ? 1200 : wish.outline == Outline::tall ? 420 : 700),
        height_(wish.outline == Outline::wide ? 420 : wish.outline == Outline::tall ? 1200 : 700) {}

  MadeFigure figure() {
    MadeFigure made;
    made.youngest = wish_.anchors <= 5 ? 5 : wish_.anchors <= 25 ? 8 : 12;
    const std::string age = std::to_string(made.youngest);
    made.terms = "figure: made.svg\ntitle: A made figure\nsets:\n  made: {ages: " + age + "-" +
                 std::to_string(made.youngest + 1) + ", language: en}\nterms:\n";
    std::string anchors, forks;
    const double apart = 0.62 * std::sqrt(width_ * height_ * spread() / wish_.anchors);
    const std::vector<Point> places = scattered(apart);
    for (int i = 0; i < wish_.anchors; ++i) {
      const std::string name = "part-" + std::to_string(i + 1);
      const Point& at = places[static_cast<std::size_t>(i)];
      const int turn = wish_.regions_only ? 0 : i % 5;
      if (turn == 4) {  // a fork: two ends near each other, given in the table
        const double angle = in(0, 2 * std::numbers::pi), reach = 0.22 * apart;
        forks += "  " + name + ": {at: [[" + number(at.x - reach * std::cos(angle)) + ", " +
                 number(at.y - reach * std::sin(angle)) + "], [" +
                 number(at.x + reach * std::cos(angle)) + ", " +
                 number(at.y + reach * std::sin(angle)) + "]]}\n";
      } else if (turn == 3) {
        anchors += "<circle id=\"anchor-" + name + "\" cx=\"" + number(at.x) + "\" cy=\"" +
                   number(at.y) + "\" r=\"2\"/>\n";
      } else {
        anchors += "<path data-anchor=\"" + name + "\" d=\"" + blob(at, 0.33 * apart, 0.33 * apart, 9) +
                   "\" fill=\"" + colour() + "\" stroke=\"#333\"/>\n";
      }
      made.words[name] = words();
      made.terms += "  " + name + ": {made: \"" + made.words[name] + "\"}\n";
    }
    if (!forks.empty()) made.terms += "anchors:\n" + forks;
    made.svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + number(width_) + " " +
               number(height_) + "\"><title>A made figure</title>\n<path d=\"" +
               blob({width_ / 2, height_ / 2}, width_ * 0.49, height_ * 0.49, 40) +
               "\" fill=\"#f2e6d8\" stroke=\"#444\" stroke-width=\"2\"/>\n";
    while (made.svg.size() + anchors.size() < wish_.least_bytes) made.svg += hatching();
    made.svg += anchors + "</svg>\n";
    return made;
  }

 private:
  double in(double low, double high) {
    return low + (high - low) * static_cast<double>(chance_() >> 11) * 0x1.0p-53;
  }

  // Share of the sheet's box that anchors are scattered over.
  double spread() const { return wish_.outline == Outline::clustered ? 0.25 : 0.6; }

  // Points inside the body's ellipse, about `apart` from each other; nearer only
  // where chance finds no better.
  std::vector<Point> scattered(double apart) {
    std::vector<Point> points;
    double asked = apart;
    for (int tries = 0; static_cast<int>(points.size()) < wish_.anchors; ++tries) {
      if (tries % 400 == 399) asked *= 0.95;
      Point p{in(-1, 1), in(-1, 1)};
      if (wish_.outline == Outline::clustered) {
        const auto which = static_cast<double>(points.size() % 3);
        const double angle = which * 2 * std::numbers::pi / 3 + 0.4;
        if (p.x * p.x + p.y * p.y > 1) continue;
        p = {0.5 * std::cos(angle) + 0.29 * p.x, 0.5 * std::sin(angle) + 0.29 * p.y};
      }
      if (p.x * p.x + p.y * p.y > 0.72) continue;
      const Point at{width_ / 2 * (1 + p.x), height_ / 2 * (1 + p.y)};
      const bool near = std::any_of(points.begin(), points.end(), [&](const Point& q) {
        return std::hypot(q.x - at.x, q.y - at.y) < asked;
      });
      if (!near) points.push_back(at);
    }
    return points;
  }

  std::string blob(Point at, double rx, double ry, int corners) {
    std::string d;
    for (int i = 0; i < corners; ++i) {
      const double angle = 2 * std::numbers::pi * i / corners, r = in(0.8, 1.0);
      d += (i == 0 ? "M" : "L") + number(at.x + rx * r * std::cos(angle)) + " " +
           number(at.y + ry * r * std::sin(angle));
    }
    return d + "Z";
  }

  // Fine strokes within the body, as an engraver shades.
  std::string hatching() {
    std::string d;
    for (int i = 0; i < 12; ++i) {
      const double angle = in(0, 2 * std::numbers::pi), r = 0.4 * std::sqrt(in(0, 1));
      const double x = width_ * (0.5 + r * std::cos(angle)), y = height_ * (0.5 + r * std::sin(angle));
      d += "M" + number(x) + " " + number(y) + "c" + number(in(0, 6)) + " " + number(in(-3, 3)) +
           " " + number(in(6, 9)) + " " + number(in(-3, 3)) + " " + number(in(9, 14)) + " " +
           number(in(-2, 2));
    }
    return "<path d=\"" + d + "\" fill=\"none\" stroke=\"#b09a80\" stroke-width=\"0.4\"/>\n";
  }

  std::string colour() {
    constexpr const char* colours[] = {"#c98f8f", "#8fa9c9", "#9fc98f", "#c9b78f", "#b48fc9"};
    return colours[static_cast<std::size_t>(in(0, 5))];
  }

  std::string words() {
    constexpr const char* first[] = {"Left", "Right", "Upper", "Lower", "Inner", "Outer", "Great", "Small"};
    constexpr const char* second[] = {"lobe", "valve", "nerve", "tendon", "chamber", "cartilage",
                                      "vein", "ridge", "membrane", "gland", "artery", "ligament"};
    const double kind = in(0, 1);
    std::string noun = second[static_cast<std::size_t>(in(0, 12))];
    if (kind < 0.25) {
      noun[0] = static_cast<char>(noun[0] - 'a' + 'A');
      return noun;
    }
    std::string text = std::string(first[static_cast<std::size_t>(in(0, 8))]) + " " + noun;
    if (kind > 0.85) text += " of the " + std::string(second[static_cast<std::size_t>(in(0, 12))]);
    return text;
  }

  FigureWish wish_;
  std::mt19937_64 chance_;
  double width_, height_;
};

}  // namespace

MadeFigure made_figure(const FigureWish& wish) { return Draughtsman(wish).figure(); }

}  // namespace support
