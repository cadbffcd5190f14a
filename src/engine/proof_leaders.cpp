// Rules on leaders, recomputed from what is drawn: that they don't cross, run
// through no words and can be seen.
#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/quote.hpp"
#include "engine/proof_rules.hpp"

namespace platewright::proofing {
namespace {

constexpr double line_of_word = 0.25;  // of a word's box that is free above and below its letters
// Pixels from a leader's edge to the ground beside it: near enough for a casing to be seen.
constexpr std::array<double, 3> beside = {0.6, 1.1, 1.6};

double side(PagePoint a, PagePoint b, PagePoint c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// Segments that cross in a point inside both.
bool cross(PagePoint a, PagePoint b, PagePoint c, PagePoint d) {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

template <class Each>
void each_segment(const read::FinishedLeader& leader, Each each) {
  for (std::size_t i = 0; i + 1 < leader.points.size(); ++i)
    each(leader.points[i], leader.points[i + 1]);
}

void crossings(const read::FinishedPage& page, Sink& sink) {
  const auto& all = page.leaders;
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (all[i].anchor == all[j].anchor) continue;
      bool crossing = false;
      PagePoint at;
      each_segment(all[i], [&](PagePoint a, PagePoint b) {
        each_segment(all[j], [&](PagePoint c, PagePoint d) {
          if (!cross(a, b, c, d)) return;
          const double share = side(c, d, a) / (side(c, d, a) - side(c, d, b));
          crossing = true;
          at = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
        });
      });
      if (crossing)
        sink.add(Severity::error, "proof-leaders-cross", PageBox{at.x, at.y, 0, 0}.grown(5),
                 "the leaders of " + in_quotes(all[j].anchor) + " and " + in_quotes(all[i].anchor) +
                     " cross",
                 "change the places of their labels");
    }
}

// Length of a segment inside a box (Liang and Barsky 1984).
double inside(PagePoint a, PagePoint b, const PageBox& box) {
  double from = 0, to = 1;
  const double dx = b.x - a.x, dy = b.y - a.y;
  for (const auto& [step, room] : {std::pair{-dx, a.x - box.left()}, {dx, box.right() - a.x},
                                   {-dy, a.y - box.top()}, {dy, box.bottom() - a.y}}) {
    if (step == 0) {
      if (room < 0) return 0;
      continue;
    }
    const double t = room / step;
    if (step < 0)
      from = std::max(from, t);
    else
      to = std::min(to, t);
  }
  return from < to ? (to - from) * std::hypot(dx, dy) : 0;
}

void over_words(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  if (limits.over_words.mm() <= 0) return;
  for (const read::FinishedLeader& leader : page.leaders)
    for (const read::FinishedWord& word : page.words) {
      if (!word.upright || (!word.anchor.empty() && word.anchor == leader.anchor)) continue;
      const PageBox letters{word.box.x, word.box.y + line_of_word * word.box.h, word.box.w,
                            (1 - 2 * line_of_word) * word.box.h};
      double length = 0;
      each_segment(leader, [&](PagePoint a, PagePoint b) { length += inside(a, b, letters); });
      if (length <= limits.over_words.mm()) continue;
      sink.add(Severity::error, "proof-leader-over-words", word.box,
               "the leader of " + in_quotes(leader.anchor) + " runs through " + in_quotes(word.text),
               "move the words, or the leader's label");
    }
}

// Contrast of a leader with the best of what lies on its two sides.
double contrast_at(const read::PagePixels& p, PagePoint at, PagePoint normal, double edge,
                   Colour colour) {
  double best = 0;
  for (const double to : {edge + beside[0] / p.per_mm, edge + beside[1] / p.per_mm,
                          edge + beside[2] / p.per_mm, -edge - beside[0] / p.per_mm,
                          -edge - beside[1] / p.per_mm, -edge - beside[2] / p.per_mm}) {
    const double x = (at.x + to * normal.x) * p.per_mm, y = (at.y + to * normal.y) * p.per_mm;
    if (!(x >= 0 && y >= 0 && x < p.width && y < p.height)) continue;
    const std::uint32_t rgb = p.at(static_cast<int>(x), static_cast<int>(y));
    best = std::max(best, contrast(colour, {static_cast<std::uint8_t>(rgb >> 16),
                                            static_cast<std::uint8_t>(rgb >> 8),
                                            static_cast<std::uint8_t>(rgb)}));
  }
  return best;
}

void seen(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  const read::PagePixels& p = page.pixels;
  if (limits.leader_contrast <= 0 || limits.leader_lost.mm() <= 0 || p.rgb.empty()) return;
  for (const read::FinishedLeader& leader : page.leaders) {
    const double edge = leader.width_pt * 25.4 / 72 / 2, step = 1 / p.per_mm;
    double lost = 0, longest = 0, least = 21;
    PagePoint where;
    each_segment(leader, [&](PagePoint a, PagePoint b) {
      const double length = std::min(distance(a, b), 20'000.0);
      if (length <= 0) return;
      const PagePoint along{(b.x - a.x) / length, (b.y - a.y) / length};
      for (double s = step / 2; s < length; s += step) {
        const PagePoint at{a.x + s * along.x, a.y + s * along.y};
        const double ratio = contrast_at(p, at, {-along.y, along.x}, edge, leader.colour);
        if (ratio <= 0 || ratio >= limits.leader_contrast) {
          lost = 0;
          continue;
        }
        lost += step;
        least = std::min(least, ratio);
        if (lost > longest) {
          longest = lost;
          where = {at.x - lost / 2 * along.x, at.y - lost / 2 * along.y};
        }
      }
    });
    if (longest > limits.leader_lost.mm())
      sink.add(Severity::error, "proof-leader-contrast",
               PageBox{where.x, where.y, 0, 0}.grown(longest / 2 + 1),
               "the leader of " + in_quotes(leader.anchor) + " in " + to_hex(leader.colour) +
                   " is lost in what lies beneath for " + format_number(longest, 1) +
                   " mm, with a contrast of " + format_number(least, 2) + ", not at least " +
                   format_number(limits.leader_contrast, 1),
               "give leaders another colour, or the figure a paler one");
  }
}

}  // namespace

void leader_rules(const read::FinishedPage& page, const ProofStyle& limits, Sink& sink) {
  crossings(page, sink);
  over_words(page, limits, sink);
  seen(page, limits, sink);
}

}  // namespace platewright::proofing
